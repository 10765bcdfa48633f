// Laws that hold for every balanced equation, over thousands of made ones: atoms, mass and charge are kept; the order
// of species and the side they are called by do not matter; scaling scales.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>
#include <random>

#include "chem/balance.h"
#include "chem/molar_mass.h"
#include "chem/stoichiometry.h"

namespace sash::chem {
namespace {

constexpr std::uint32_t seed = 20211;

/// A made equation: random species over a few elements, with charges now and then.
class Maker {
 public:
  explicit Maker(std::uint32_t with_seed) : random_(with_seed) {}

  int between(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }

  Species species(int elements_in_play) {
    constexpr const char* symbols[] = {"H", "O", "C", "N", "S", "Cu", "Cl", "K"};
    std::string text;
    const int kinds = between(1, 3);
    for (int k = 0; k < kinds; ++k) {
      text += symbols[between(0, elements_in_play - 1)];
      if (const int n = between(1, 12); n > 1) text += std::to_string(n);
    }
    if (between(0, 5) == 0) text += between(0, 1) == 0 ? "^2-" : "^+";
    return {read_formula(text).value(), std::nullopt, std::nullopt};
  }

  Equation equation() {
    const int elements_in_play = between(2, 5);
    const int species_count = elements_in_play + between(1, 2);
    const int on_left = between(1, species_count - 1);
    std::vector<Species> sides[2];
    for (int i = 0; i < species_count; ++i) sides[i < on_left ? 0 : 1].push_back(species(elements_in_play));
    return Equation(std::move(sides[0]), std::move(sides[1]));
  }

  std::mt19937& engine() { return random_; }

 private:
  std::mt19937 random_;
};

Fraction net(const Equation& equation, const Coefficients& c, const std::function<Fraction(const Formula&)>& of) {
  Fraction sum = 0;
  for (std::size_t i = 0; i < c.size(); ++i) {
    const Fraction term = of(equation.all()[i].formula) * c[i];
    sum = equation.on_left(i) ? sum + term : sum - term;
  }
  return sum;
}

TEST(BalancedEquations, KeepAtomsMassAndCharge) {
  Maker make(seed);
  int balanced = 0;
  int several = 0;
  for (int round = 0; round < 4000; ++round) {
    const Equation equation = make.equation();
    const auto result = balance(equation);
    ASSERT_TRUE(result.ok()) << equation.plain() << ": " << result.fault().sentence;
    balanced += result->status == BalanceStatus::balanced ? 1 : 0;
    several += result->status == BalanceStatus::not_unique ? 1 : 0;
    EXPECT_EQ(result->why.empty(), result->status == BalanceStatus::balanced) << equation.plain();
    for (const Coefficients& c : result->solutions) {
      for (const Element& e : elements()) {
        const Nuclide what{e.number, std::nullopt};
        ASSERT_TRUE(net(equation, c, [&](const Formula& f) { return f.count_of(what); }).zero()) << equation.plain();
      }
      ASSERT_TRUE(net(equation, c, [](const Formula& f) { return Fraction(f.charge()); }).zero()) << equation.plain();
      double mass = 0;
      double size = 0;
      for (std::size_t i = 0; i < c.size(); ++i) {
        const double m = static_cast<double>(c[i]) * molar_mass(equation.all()[i].formula)->value;
        mass += equation.on_left(i) ? m : -m;
        size += std::abs(m);
      }
      EXPECT_LE(std::abs(mass), 1e-12 * size) << equation.plain();
      std::int64_t shared = 0;
      for (const std::int64_t n : c) shared = std::gcd(shared, n);
      EXPECT_EQ(shared, 1) << equation.plain() << ": smallest whole numbers";
    }
    if (result->status == BalanceStatus::balanced) {
      EXPECT_TRUE(std::ranges::all_of(result->coefficients, [](std::int64_t n) { return n > 0; }));
      EXPECT_TRUE(verify(equation.with(result->coefficients))->balanced) << equation.plain();
    }
  }
  // The made equations must exercise every outcome.
  EXPECT_GT(balanced, 50);
  EXPECT_GT(several, 50);
}

TEST(BalancedEquations, DoNotDependOnTheOrderOfSpecies) {
  Maker make(seed + 1);
  for (int round = 0; round < 1500; ++round) {
    const Equation equation = make.equation();
    std::vector<std::size_t> order(equation.all().size());
    std::iota(order.begin(), order.end(), 0U);
    const auto middle = order.begin() + static_cast<std::ptrdiff_t>(equation.left().size());
    std::shuffle(order.begin(), middle, make.engine());
    std::shuffle(middle, order.end(), make.engine());
    std::vector<Species> sides[2];
    for (const std::size_t i : order) sides[equation.on_left(i) ? 0 : 1].push_back(equation.all()[i]);
    const Equation shuffled(std::move(sides[0]), std::move(sides[1]));
    const auto a = balance(equation).value();
    const auto b = balance(shuffled).value();
    ASSERT_EQ(a.status, b.status) << equation.plain() << " / " << shuffled.plain();
    EXPECT_EQ(a.solutions.size(), b.solutions.size());
    for (std::size_t i = 0; i < b.coefficients.size(); ++i) {
      EXPECT_EQ(b.coefficients[i], a.coefficients[order[i]]) << equation.plain();
    }
  }
}

TEST(BalancedEquations, ReadTheSameTurnedRound) {
  Maker make(seed + 2);
  for (int round = 0; round < 1500; ++round) {
    const Equation equation = make.equation();
    const Equation turned({equation.right().begin(), equation.right().end()},
                          {equation.left().begin(), equation.left().end()});
    const auto a = balance(equation).value();
    auto b = balance(turned).value();
    ASSERT_EQ(a.status, b.status) << equation.plain();
    if (a.status != BalanceStatus::balanced) continue;
    std::ranges::rotate(b.coefficients, b.coefficients.begin() + static_cast<std::ptrdiff_t>(equation.right().size()));
    EXPECT_EQ(a.coefficients, b.coefficients) << equation.plain();
  }
}

// A planted solution is found: coefficients are chosen first, and the last product is whatever the others leave over.
TEST(BalancedEquations, FindAPlantedSolution) {
  Maker make(seed + 3);
  int checked = 0;
  for (int round = 0; round < 2000; ++round) {
    std::vector<Species> left{make.species(6), make.species(6)};
    std::string rest;
    for (const Species& s : left) {
      const int n = make.between(1, 9);
      for (const AtomCount& a : s.formula.composition()) {
        rest += std::string(element(a.what.number).symbol) + std::to_string(static_cast<int>(a.count.number()) * n);
      }
    }
    if (left[0].formula.charge() != 0 || left[1].formula.charge() != 0) continue;
    const Equation equation(std::move(left), {Species{read_formula(rest).value(), std::nullopt, std::nullopt}});
    EXPECT_NE(balance(equation)->status, BalanceStatus::impossible) << equation.plain();
    ++checked;
  }
  EXPECT_GT(checked, 500);
}

TEST(Reactions, ScaleWithTheirBatch) {
  const Equation eq = read_equation("3 Cu + 8 HNO3 -> 3 Cu(NO3)2 + 2 NO + 4 H2O").value();
  Maker make(seed + 4);
  for (int round = 0; round < 500; ++round) {
    const double copper = make.between(1, 1000) / 100.0;
    const double acid = make.between(1, 1000) / 100.0;
    const double scale = make.between(2, 50);
    const auto one = react(eq, std::vector<Given>{{0, copper}, {1, acid}}).value();
    const auto many = react(eq, std::vector<Given>{{0, copper * scale}, {1, acid * scale}}).value();
    double in = 0;
    double out = 0;
    for (std::size_t i = 0; i < one.products.size(); ++i) {
      EXPECT_NEAR(many.products[i].mass, scale * one.products[i].mass, 1e-9 * many.products[i].mass);
      out += one.products[i].mass;
    }
    for (const ReactantUse& use : one.reactants) in += mass_of(eq.all()[use.species].formula, use.used).value();
    EXPECT_NEAR(in, out, 1e-9 * in);
  }
}

}  // namespace
}  // namespace sash::chem
