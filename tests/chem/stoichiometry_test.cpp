#include "chem/stoichiometry.h"

#include <gtest/gtest.h>

#include <cmath>

#include "chem/balance.h"

namespace sash::chem {
namespace {

std::string composition_text(const Composition& c) { return hill_text(c, 0); }

Nuclide natural(std::string_view symbol) { return {find_element(symbol)->number, std::nullopt}; }

// 3 Cu + 8 HNO3: 0.3 mol copper needs 0.8 mol acid; by the definition of equivalents.
TEST(React, SaysWhatLimitsAndWhatIsLeft) {
  const Equation eq = read_equation("3 Cu + 8 HNO3 -> 3 Cu(NO3)2 + 2 NO + 4 H2O").value();
  const auto out = react(eq, std::vector<Given>{{0, 0.3}, {1, 1.2}}).value();
  EXPECT_NEAR(out.extent, 0.1, 1e-12);
  EXPECT_TRUE(out.reactants[0].limiting);
  EXPECT_FALSE(out.reactants[1].limiting);
  EXPECT_NEAR(out.reactants[1].left, 0.4, 1e-12);
  EXPECT_NEAR(out.reactants[1].equivalents, 1.5, 1e-12);
  ASSERT_EQ(out.products.size(), 3U);
  EXPECT_NEAR(out.products[1].mol, 0.2, 1e-12);
}

TEST(React, CallsBothLimitingInExactProportion) {
  const Equation eq = read_equation("2 H2 + O2 -> 2 H2O").value();
  const auto out = react(eq, std::vector<Given>{{0, 0.2}, {1, 0.1}}).value();
  EXPECT_TRUE(out.reactants[0].limiting && out.reactants[1].limiting);
}

TEST(React, RefusesWhatMakesNoSense) {
  const Equation eq = read_equation("2 H2 + O2 -> 2 H2O").value();
  EXPECT_EQ(react(eq, {}).fault().code, Code::wrong_use);
  EXPECT_EQ(react(eq, std::vector<Given>{{2, 1.0}}).fault().code, Code::wrong_use);
  EXPECT_EQ(react(eq, std::vector<Given>{{0, 1.0}, {0, 1.0}}).fault().code, Code::wrong_use);
  EXPECT_EQ(react(eq, std::vector<Given>{{0, -1.0}}).fault().code, Code::out_of_range);
  EXPECT_EQ(react(eq, std::vector<Given>{{0, std::nan("")}}).fault().code, Code::not_finite);
  const Equation off = read_equation("H2 + O2 -> H2O").value();
  EXPECT_EQ(react(off, std::vector<Given>{{0, 1.0}}).fault().sentence,
            "'H2 + O2 -> H2O' does not balance. O: 2 on the left, 1 on the right.");
  EXPECT_EQ(percent_yield(1, 0).fault().code, Code::out_of_range);
}

// OpenStax Chemistry 2e, Example 3.11: 34.97 g Fe and 15.03 g O give Fe2O3; Example 3.10: nicotine 74.02 % C, 8.710 %
// H, 17.27 % N, C5H7N, with 162.3 g/mol C10H14N2 (Example 3.13).
TEST(Analysis, FindsTheSimplestFormula) {
  const std::vector<ElementMass> rust{{natural("Fe"), 34.97}, {natural("O"), 15.03}};
  EXPECT_EQ(composition_text(empirical_formula(rust).value()), "Fe2O3");
  const std::vector<ElementMass> nicotine{{natural("C"), 74.02}, {natural("H"), 8.710}, {natural("N"), 17.27}};
  const Composition unit = empirical_formula(nicotine).value();
  EXPECT_EQ(composition_text(unit), "C5H7N");
  EXPECT_EQ(empirical_units(unit, 162.3).value(), 2);
}

TEST(Analysis, RefusesMassesThatFitNothing) {
  const std::vector<ElementMass> odd{{natural("Fe"), 50.0}, {natural("O"), 13.173}};
  EXPECT_EQ(empirical_formula(odd, 0.0001).fault().code, Code::impossible);
  EXPECT_EQ(empirical_units({{natural("C"), 1}, {natural("H"), 2}}, 20.0).fault().code, Code::impossible);
}

// By hand: 1.000 g ethanol (46.069 g/mol) gives 2 * 44.009 / 46.069 g CO2 and 3 * 18.015 / 46.069 g H2O.
TEST(Analysis, ReadsACombustion) {
  const auto found = combustion_analysis(1.0, 1.9106, 1.1731).value();
  EXPECT_EQ(composition_text(empirical_formula(found).value()), "C2H6O");
  EXPECT_EQ(combustion_analysis(1.0, 5.0, 1.0).fault().code, Code::impossible);
}

TEST(Combustion, IsBalanced) {
  EXPECT_EQ(complete_combustion(*read_formula("C8H18"))->plain(), "2 C8H18 + 25 O2 -> 16 CO2 + 18 H2O");
  EXPECT_EQ(complete_combustion(*read_formula("CS2"))->plain(), "CS2 + 3 O2 -> CO2 + 2 SO2");
  EXPECT_EQ(complete_combustion(*read_formula("NaCl")).fault().code, Code::unsupported);
  EXPECT_EQ(complete_combustion(*read_formula("CO2")).fault().code, Code::unsupported);
}

}  // namespace
}  // namespace sash::chem
