#include "chem/gas.h"

#include <gtest/gtest.h>

#include "chem/vapour_pressure.h"

namespace sash::chem {
namespace {

TEST(Gas, NamedConditionsSayWhichConvention) {
  const auto stp = named_conditions("STP");
  ASSERT_TRUE(stp);
  EXPECT_NEAR(molar_volume(stp->kelvin, stp->pascal) * 1e3, 22.711, 0.001);  // CODATA 2018
  EXPECT_FALSE(stp->note.empty());
  const auto old = named_conditions("stp before 1982");
  EXPECT_NEAR(molar_volume(old->kelvin, old->pascal) * 1e3, 22.414, 0.001);  // CODATA 2018
  EXPECT_EQ(named_conditions("room").fault().code, Code::unknown_name);
}

TEST(Gas, WhatCannotBeIsRefused) {
  EXPECT_EQ(solve_gas({1e5, 1, 300, 1}).fault().code, Code::wrong_use);
  EXPECT_EQ(solve_gas({1e5, 1, -3, std::nullopt}).fault().code, Code::out_of_range);
  EXPECT_EQ(solve_gas_change({1e5, 1, {}, {}}, {{}, {}, 300, {}}).fault().code, Code::wrong_use);
  EXPECT_EQ(over_water(1000, 1, 25).fault().code, Code::impossible);
  EXPECT_EQ(over_water(1e5, 1, 25)->dry, 1e5 - *water_vapour_pressure(25));
}

TEST(Gas, DissolvedGasIsFlaggedOnlyWhereItMatters) {
  // A litre of gas over 0.5 L of water: hydrogen hardly dissolves, ammonia all but vanishes.
  const auto hydrogen = dissolved_share("H2", 1e5, 1e-3, 0.5);
  const auto carbon_dioxide = dissolved_share("carbon dioxide", 1e5, 1e-3, 0.5);
  const auto ammonia = dissolved_share("ammonia", 1e5, 1e-3, 0.5);
  ASSERT_TRUE(hydrogen && carbon_dioxide && ammonia);
  EXPECT_FALSE(hydrogen->considerable);
  EXPECT_TRUE(carbon_dioxide->considerable);
  EXPECT_GT(ammonia->fraction, 0.99);
  EXPECT_NEAR(carbon_dioxide->molarity, 0.034, 0.002);  // 0.034 mol/(L atm) at 25 C: common textbook value
  EXPECT_EQ(dissolved_share("krypton difluoride", 1e5, 1, 1).ok(), false);
}

TEST(VapourPressure, WaterFollowsItsReferenceFormulation) {
  // IAPWS-95 saturation pressures (python3-iapws 1.5.3): 2339.2, 3169.9, 101418 Pa.
  EXPECT_NEAR(*water_vapour_pressure(20), 2339.2, 1);
  EXPECT_NEAR(*water_vapour_pressure(25), 3169.9, 1);
  EXPECT_NEAR(*water_vapour_pressure(100), 101418, 30);
  EXPECT_EQ(water_vapour_pressure(-1).fault().code, Code::out_of_range);
}

TEST(VapourPressure, TheNormalBoilingPointGivesOneAtmosphere) {
  // CRC Handbook: ethanol boils at 78.24 C, acetone at 56.08 C, hexane at 68.72 C.
  EXPECT_NEAR(antoine_of("ethanol")->boiling_point(atmosphere).value(), 78.24 + 273.15, 0.1);
  EXPECT_NEAR(antoine_of("acetone")->boiling_point(atmosphere).value(), 56.08 + 273.15, 0.2);
  EXPECT_NEAR(antoine_of("hexane")->boiling_point(atmosphere).value(), 68.72 + 273.15, 0.1);
}

TEST(VapourPressure, OutsideTheRangeIsRefusedWithIt) {
  const auto cold = vapour_pressure("ethanol", -40);
  ASSERT_FALSE(cold);
  EXPECT_EQ(cold.fault().sentence, "The vapour pressure of ethanol is known from 3.35 to 96.39 °C, not at -40 °C.");
  EXPECT_EQ(dew_point(20, 0).fault().code, Code::out_of_range);
  EXPECT_EQ(dew_point(20, 1.2).fault().code, Code::out_of_range);
  EXPECT_NEAR(*dew_point(20, 1), 20, 1e-9);
}

}  // namespace
}  // namespace sash::chem
