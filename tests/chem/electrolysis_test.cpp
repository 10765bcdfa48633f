#include "chem/electrolysis.h"

#include <gtest/gtest.h>

#include "chem/titration.h"

namespace sash::chem {
namespace {

// OpenStax Chemistry 2e, Example 17.10: silver plated by 10.23 A in one hour weighs 41.17 g.
TEST(Electrolysis, SilverPlatedInAnHour) {
  EXPECT_NEAR(*electrolysis_mass(*read_formula("Ag"), 1, 10.23, 3600), 41.17, 0.02);
}

TEST(Electrolysis, EachQuantityIsTheInverseOfTheOthers) {
  const double mol = *solve_electrolysis({2.0, 600.0, std::nullopt, 0.9, 2});
  EXPECT_NEAR(*solve_electrolysis({std::nullopt, 600.0, mol, 0.9, 2}), 2.0, 1e-12);
  EXPECT_NEAR(*solve_electrolysis({2.0, std::nullopt, mol, 0.9, 2}), 600.0, 1e-9);
  EXPECT_NEAR(*solve_electrolysis({2.0, 600.0, mol, std::nullopt, 2}), 0.9, 1e-12);
}

TEST(Electrolysis, MoreThanTheChargeCanMakeIsImpossible) {
  const auto run = solve_electrolysis({1.0, 60.0, 1.0, std::nullopt, 1});
  ASSERT_FALSE(run);
  EXPECT_EQ(run.fault().code, Code::impossible);
  EXPECT_EQ(solve_electrolysis({1.0, 60.0, 1.0, 1.0, 1}).fault().code, Code::wrong_use);
  EXPECT_EQ(solve_electrolysis({-1.0, 60.0, std::nullopt, 1.0, 1}).fault().code, Code::out_of_range);
  EXPECT_EQ(*electrons_of_ion(*read_formula("Cu^2+")), 2);
}

TEST(Titration, BackTitrationCountsWhatWasUsed) {
  // 50.00 mL of 0.1000 M HCl on chalk, the rest takes 20.00 mL of 0.1000 M NaOH: 3.000 mmol used, 1.500 mmol CaCO3.
  Titration t;
  t.titrant_molarity = 0.1000;
  t.titrant_litres = 0.02000;
  t.added_first = 0.005000;
  t.reagent_per_analyte = 2;
  EXPECT_NEAR(*titrated_amount(t), 0.001500, 1e-9);
  t.titrant_litres = 0.0600;
  EXPECT_EQ(titrated_amount(t).fault().code, Code::impossible);
}

TEST(Titration, TheRatioComesFromTheEquation) {
  const Equation eq = *read_equation("2 MnO4^- + 5 C2O4^2- + 16 H^+ -> 2 Mn^2+ + 10 CO2 + 8 H2O");
  EXPECT_NEAR(*titrant_ratio(eq, *read_formula("MnO4^-"), *read_formula("C2O4^2-")), 0.4, 1e-12);
  EXPECT_EQ(titrant_ratio(eq, *read_formula("MnO4^-"), *read_formula("CO2")).fault().code, Code::not_found);
  EXPECT_NEAR(*end_point_litres(0.001, 0.4, 0.02), 0.02, 1e-12);
}

}  // namespace
}  // namespace sash::chem
