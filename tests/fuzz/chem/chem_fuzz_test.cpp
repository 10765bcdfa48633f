// Formulas, equations and units as nobody should type them: refused with a sentence, or read as something that prints
// and reads back the same.
#include <gtest/gtest.h>

#include "chem/balance.h"
#include "chem/equation.h"
#include "chem/formula.h"
#include "chem/molar_mass.h"
#include "chem/redox.h"
#include "fuzz/mangler.h"
#include "quantity/trade_unit.h"
#include "quantity/unit.h"

namespace sash::chem {
namespace {

using test::Mangler;

const std::vector<std::string> formulas{"CuSO4·5H2O",  "[Cu(NH3)4]SO4*H2O", "Fe^3+",      "[13C]6H12O6", "K3[Fe(CN)6]",
                                        "CH3(CH2)3OH", "Ca(H2PO4)2",        "CuSO₄·½H₂O", "SO4^2-",      "e^-"};
const std::vector<std::string> equations{
    "Cu + HNO3 -> Cu(NO3)2 + NO + H2O", "MnO4^- + Fe^2+ + H^+ = Mn^2+ + Fe^3+ + H2O", "2 H2(g) + O2(g) → 2 H2O(l)",
    "C6H12O6 + 6 O2 -> 6 CO2 + 6 H2O", "KMnO4 + HCl + H2O2 = KCl + MnCl2 + O2 + Cl2 + H2O"};
const std::vector<std::string> units{"mol/L", "kg.m2/s2", "mmol", "Cel", "%", "millilitres per minute",
                                     "[ppm]", "10*-3.g"};
const std::vector<std::string> pieces{"(",
                                      ")",
                                      "[",
                                      "]",
                                      "^",
                                      "+",
                                      "-",
                                      "->",
                                      "=",
                                      "→",
                                      "·",
                                      "*",
                                      ".",
                                      "2",
                                      "0",
                                      "99999999999999999999",
                                      "e",
                                      "H",
                                      "O",
                                      "Xq",
                                      "½",
                                      "\xff",
                                      "₂",
                                      "²⁻",
                                      " ",
                                      "/",
                                      "((((((((((((((((((((((((((((((((",
                                      "10*"};

void expect_sentence(const Fault& fault, const std::string& text) {
  EXPECT_TRUE(fault.sentence.ends_with('.') || fault.sentence.ends_with('?')) << text << ": " << fault.sentence;
  EXPECT_LE(fault.place.value_or(0), fault.offending.size()) << text;
}

void check_formula(const std::string& text) {
  const auto read = read_formula(text);
  if (!read) return expect_sentence(read.fault(), text);
  const auto again = read_formula(read->plain());
  ASSERT_TRUE(again.ok()) << text << " prints as " << read->plain() << ": " << again.fault().sentence;
  EXPECT_TRUE(again->same_composition(*read)) << text;
  const auto mass = molar_mass(*read);
  if (!mass) return expect_sentence(mass.fault(), text);
  EXPECT_GE(mass->value, 0) << text;
}

void check_equation(const std::string& text) {
  const auto read = read_equation(text);
  if (!read) return expect_sentence(read.fault(), text);
  for (const Medium medium : {Medium::acid, Medium::base}) {
    const auto completed = complete(*read, medium);
    if (completed && completed->equation) {
      const auto kept = verify(*completed->equation);
      EXPECT_TRUE(!kept || kept->balanced) << text << ": " << completed->equation->plain();
    }
  }
  const auto answer = balance(*read);
  if (!answer) return expect_sentence(answer.fault(), text);
  if (answer->status != BalanceStatus::balanced) {
    EXPECT_FALSE(answer->why.empty()) << text;
    return;
  }
  const auto verified = verify(read->with(answer->coefficients));
  ASSERT_TRUE(verified.ok()) << text;
  EXPECT_TRUE(verified->balanced) << text << ": " << answer->balanced << ": " << verified->why;
}

void check_unit(const std::string& text) {
  if (const auto read = quantity::Unit::parse(text); !read) expect_sentence(read.fault(), text);
  if (const auto read = quantity::read_trade_unit(text); !read) expect_sentence(read.fault(), text);
}

void mangle_all(const std::vector<std::string>& seeds, std::uint64_t seed, int rounds,
                void (*check)(const std::string&)) {
  for (const auto& text : seeds) check(text);
  Mangler mangler(seed);
  for (int i = 0; i < rounds && !::testing::Test::HasFatalFailure(); ++i)
    check(mangler.mangle(seeds[mangler.below(seeds.size())], pieces));
}

TEST(ChemFuzz, MangledFormulasAreRefusedOrPrintAndReadBack) { mangle_all(formulas, 21, 4000, check_formula); }
TEST(ChemFuzz, MangledEquationsAreRefusedOrTrulyBalanced) { mangle_all(equations, 22, 2000, check_equation); }
TEST(ChemFuzz, MangledUnitsAreRefusedWithASentence) { mangle_all(units, 23, 500, check_unit); }

}  // namespace
}  // namespace sash::chem
