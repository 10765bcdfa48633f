#include "chem/heat.h"

#include <gtest/gtest.h>

#include <array>

#include "chem/names.h"
#include "chem/thermochemistry.h"

namespace sash::chem {
namespace {

// OpenStax Chemistry 2e, Appendix G and Example 5.15: 3 NO2 + H2O = 2 HNO3(aq) + NO gives -136.80 kJ there; with the
// CRC's figures (nitrate -207.4, NO 91.3) it is -137.3.
TEST(ReactionHeat, FollowsFromFormation) {
  const auto heat = reaction_enthalpy(*read_equation("3 NO2(g) + H2O(l) -> 2 HNO3(aq) + NO(g)"));
  ASSERT_TRUE(heat) << heat.fault().sentence;
  EXPECT_NEAR(heat->value, -136.80, 0.6);
  EXPECT_GT(heat->spread, 0);
}

// Textbook enthalpies of combustion and neutralisation (CRC, OpenStax Appendix G): methane -890.3, H+ + OH- -55.8.
TEST(ReactionHeat, KnowsCombustionAndNeutralisation) {
  EXPECT_NEAR(reaction_enthalpy(*read_equation("CH4 + 2 O2 -> CO2(g) + 2 H2O(l)"))->value, -890.3, 0.6);
  EXPECT_NEAR(reaction_enthalpy(*read_equation("H^+ + OH^- -> H2O(l)"))->value, -55.8, 0.1);
  EXPECT_NEAR(neutralisation_enthalpy("hydrochloric acid")->value, -55.8, 0.1);
  EXPECT_EQ(neutralisation_enthalpy("citric acid").fault().code, Code::not_found);
}

TEST(ReactionHeat, AsksForTheStateWhereItMatters) {
  const auto heat = reaction_enthalpy(*read_equation("2 H2 + O2 -> 2 H2O"));
  ASSERT_FALSE(heat);
  EXPECT_EQ(heat.fault().code, Code::ambiguous);
  EXPECT_EQ(heat.fault().sentence,
            "The enthalpy of formation of H₂O depends on its state; write the state after the formula.");
  const auto unknown = reaction_enthalpy(*read_equation("XeF2 + XeF6 -> 2 XeF4"));
  ASSERT_FALSE(unknown);
  EXPECT_EQ(unknown.fault().others.size(), 3u);
}

// The enthalpies of solution (Parker) and of formation (CRC; hydrates: NBS 1982) come from different tables; they must
// tell the same story. The figures of the potassium salts could only be checked so.
TEST(ReactionHeat, SolutionEnthalpiesAgreeWithFormation) {
  for (const auto& [solid, ions] : {std::pair{"NaCl", "Na^+ + Cl^-"},
                                    {"NaOH", "Na^+ + OH^-"},
                                    {"NH4NO3", "NH4^+ + NO3^-"},
                                    {"AgNO3", "Ag^+ + NO3^-"},
                                    {"KOH", "K^+ + OH^-"},
                                    {"KF", "K^+ + F^-"},
                                    {"KCl", "K^+ + Cl^-"},
                                    {"KClO3", "K^+ + ClO3^-"},
                                    {"KClO4", "K^+ + ClO4^-"},
                                    {"KBr", "K^+ + Br^-"},
                                    {"KBrO3", "K^+ + BrO3^-"},
                                    {"KI", "K^+ + I^-"},
                                    {"KIO3", "K^+ + IO3^-"},
                                    {"KNO2", "K^+ + NO2^-"},
                                    {"KNO3", "K^+ + NO3^-"},
                                    {"KCN", "K^+ + CN^-"},
                                    {"KMnO4", "K^+ + MnO4^-"},
                                    {"CsCl", "Cs^+ + Cl^-"},
                                    {"CaCl2", "Ca^2+ + 2 Cl^-"},
                                    {"MgSO4", "Mg^2+ + SO4^2-"},
                                    {"MgSO4·7H2O", "Mg^2+ + SO4^2- + 7 H2O(l)"},
                                    {"CuSO4·5H2O", "Cu^2+ + SO4^2- + 5 H2O(l)"},
                                    {"Na2CO3", "2 Na^+ + CO3^2-"}}) {
    const auto heat = reaction_enthalpy(*read_equation(std::string(solid) + "(s) -> " + ions));
    ASSERT_TRUE(heat) << solid << heat.fault().sentence;
    EXPECT_NEAR(heat->value, solution_enthalpy(*read_formula(solid))->value, 0.6) << solid;
  }
}

TEST(Heat, TheVesselTakesItsShare) {
  const Body water{100, 4.184, 20}, beaker{60, 0.83, 20};
  const double alone = *final_temperature(std::array{water}, 4184);
  const double with = *final_temperature(std::array{water, beaker}, 4184);
  EXPECT_NEAR(alone, 30, 1e-9);
  EXPECT_LT(with, alone);
  EXPECT_NEAR((water.capacity() + beaker.capacity()) * (with - 20), 4184, 1e-9);
}

TEST(Heat, WhatCannotBeIsRefused) {
  EXPECT_EQ(final_temperature({}).fault().code, Code::wrong_use);
  EXPECT_EQ(final_temperature(std::array{Body{-1, 4, 20}}).fault().code, Code::out_of_range);
  EXPECT_EQ(specific_heat(10, 20, {}, 20).fault().code, Code::impossible);
}

TEST(Heat, IceHoldsTheTemperatureAtZeroUntilItIsGone) {
  const Body water{100, 4.184, 20};
  const auto some = settle_with_ice(100, 0, water, {});
  ASSERT_TRUE(some);
  EXPECT_EQ(some->celsius, 0);
  EXPECT_NEAR(some->melted, 100 * 4.184 * 20 / 333.6, 0.1);
  const auto all = settle_with_ice(10, 0, water, {});
  EXPECT_EQ(all->ice_left, 0);
  EXPECT_NEAR(all->celsius, (100 * 4.184 * 20 - 10 * 333.6) / (110 * 4.184), 0.01);
  const auto boils = settle_with_ice(0, 0, water, {}, 50000);
  EXPECT_EQ(boils->celsius, 100);
  EXPECT_NEAR(boils->boiled_off, (50000 - 100 * 4.184 * 80) / 2256.5, 0.05);
}

TEST(Heat, ColdWallsGatherDew) {
  // 25 °C at 50 %: dew point 13.85 °C (WMO-No. 8, Annex 4.B).
  EXPECT_TRUE(dew_on_wall(10, 25, 0.5)->condenses);
  EXPECT_FALSE(dew_on_wall(15, 25, 0.5)->condenses);
  EXPECT_NEAR(dew_on_wall(15, 25, 0.5)->margin, 1.15, 0.01);
}

TEST(Heat, MaterialsAreKnownByName) {
  EXPECT_NEAR(heat_capacity("copper")->value, 0.384, 0.001);         // CRC: 24.4 J/(mol K)
  EXPECT_NEAR(heat_capacity("iron")->value, 0.449, 0.001);           // CRC
  EXPECT_NEAR(heat_capacity("ethanol")->value, 2.44, 0.01);          // CRC
  EXPECT_NEAR(heat_capacity("glass")->value, 0.83, 0.01);            // common practice, no source
  EXPECT_NEAR(*phase_change("water")->fusion, 6.01, 0.001);          // CRC
  EXPECT_NEAR(*phase_change("ethanol")->vaporisation, 38.56, 0.01);  // CRC
}

}  // namespace
}  // namespace sash::chem
