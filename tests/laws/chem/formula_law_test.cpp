// Laws of formulas: what is printed reads back as the same; the molar mass is the sum of its parts; nothing typed
// crashes.

#include <gtest/gtest.h>

#include <random>

#include "chem/equation.h"
#include "chem/molar_mass.h"
#include "chem/names.h"

namespace sash::chem {
namespace {

constexpr std::uint32_t seed = 19;

/// Random well-formed formulas of every kind the grammar knows.
class Maker {
 public:
  int between(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }

  std::string formula() {
    std::string text = group(0);
    for (int parts = between(0, 4) == 0 ? between(1, 2) : 0; parts > 0; --parts) {
      constexpr const char* multipliers[] = {"", "2", "5", "0.5", "1.5", "10", "1/3"};
      text += "·" + std::string(multipliers[between(0, 6)]) + group(1);
    }
    constexpr const char* charges[] = {"^2-", "^+", "^3+", "^-"};
    if (between(0, 4) == 0) text += charges[between(0, 3)];
    return text;
  }

 private:
  std::string group(int depth) {
    std::string text;
    for (int n = between(1, 4); n > 0; --n) {
      const int kind = between(0, 9);
      if (kind < 6 || depth > 3) {
        text += elements()[static_cast<std::size_t>(between(0, 91))].symbol;
      } else if (kind == 6) {
        constexpr const char* isotopes[] = {"[13C]", "[18O]", "D", "T", "[15N]", "[235U]"};
        text += isotopes[between(0, 5)];
      } else if (kind == 7) {
        constexpr const char* short_forms[] = {"Me", "Et", "Ph", "(en)", "(acac)"};
        text += short_forms[between(0, 4)];
      } else {
        text += (kind == 8 ? "(" : "[") + group(depth + 1) + (kind == 8 ? ")" : "]");
      }
      if (const int count = between(1, 14); count > 1 && between(0, 1) == 1) text += std::to_string(count);
    }
    return text;
  }

  std::mt19937 random_{seed};
};

TEST(Formulas, ReadBackAsTheyArePrinted) {
  Maker make;
  int read_count = 0;
  for (int round = 0; round < 5000; ++round) {
    const std::string text = make.formula();
    const auto first = read_formula(text);
    if (!first) {
      // The made text may put actinium where it is asked about, or charges that are no whole number.
      EXPECT_TRUE(text.find("Ac") != std::string::npos || text.find("·") != std::string::npos)
          << text << ": " << first.fault().sentence;
      continue;
    }
    ++read_count;
    for (const std::string& printed : {first->plain(), first->unicode()}) {
      const auto again = read_formula(printed);
      ASSERT_TRUE(again.ok()) << text << " printed as " << printed << ": " << again.fault().sentence;
      EXPECT_TRUE(again->same_composition(*first)) << text << " printed as " << printed;
      EXPECT_EQ(again->plain(), first->plain());
    }
  }
  EXPECT_GT(read_count, 4500);
}

TEST(Formulas, WeighTheSumOfTheirAtoms) {
  Maker make;
  for (int round = 0; round < 2000; ++round) {
    const auto formula = read_formula(make.formula());
    if (!formula) continue;
    const auto whole = molar_mass(*formula);
    if (!whole) {
      EXPECT_EQ(whole.fault().code, Code::out_of_range);
      continue;
    }
    double sum = 0;
    for (const AtomCount& a : formula->composition()) sum += a.count.number() * atomic_mass(a.what)->value;
    EXPECT_NEAR(whole->value, sum, 1e-9 * sum);
    EXPECT_LE(whole->spread, whole->bound);
    double shares = 0;
    const auto parts = mass_shares(*formula).value();
    for (const MassShare& s : parts) shares += s.fraction;
    EXPECT_NEAR(shares, 1.0, 1e-12);
  }
}

// Whatever is typed gives a value or one sentence.
TEST(AnyText, IsReadOrRefusedWithASentence) {
  std::mt19937 random(seed);
  const std::string alphabet = "HCNOSCuFeNaeD[](){}^+-.·*₂²⁻0123456789 =>xq½\xff\xc2";
  std::uniform_int_distribution<std::size_t> pick(0, alphabet.size() - 1);
  std::uniform_int_distribution<int> length(0, 40);
  for (int round = 0; round < 10000; ++round) {
    std::string text;
    for (int n = length(random); n > 0; --n) text.push_back(alphabet[pick(random)]);
    const auto formula = read_formula(text);
    if (!formula) {
      EXPECT_TRUE(formula.fault().sentence.ends_with('.') || formula.fault().sentence.ends_with('?')) << text;
      EXPECT_LE(formula.fault().place.value_or(0), text.size()) << text;
    }
    const auto equation = read_equation(text);
    EXPECT_TRUE(equation.ok() || !equation.fault().sentence.empty()) << text;
    (void)normalise_name(text);
  }
}

}  // namespace
}  // namespace sash::chem
