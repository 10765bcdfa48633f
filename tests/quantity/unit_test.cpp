#include "quantity/unit.h"

#include <gtest/gtest.h>

#include <string>

namespace sash::quantity {
namespace {

double in_si(const char* code, double number = 1) { return Unit::known(code).to_si(number); }

// Expected sizes: SI Brochure 9th ed.; NIST SP 811 (2008) appendix B.8.
TEST(Unit, HasTheSizesTheSiBrochureGives) {
  EXPECT_EQ(in_si("mL", 250), 2.5e-4);
  EXPECT_EQ(in_si("kg"), 1);
  EXPECT_EQ(in_si("g/mL"), 1000);
  EXPECT_EQ(in_si("mol/L"), 1000);
  EXPECT_EQ(in_si("t"), 1000);
  EXPECT_EQ(in_si("kPa"), 1000);
  EXPECT_EQ(in_si("atm"), 101325);
  EXPECT_EQ(in_si("A.h"), 3600);
  EXPECT_EQ(in_si("d"), 86400);
  EXPECT_EQ(in_si("kcal"), 4184);
  EXPECT_NEAR(in_si("[psi]"), 6894.757, 0.0005);
  EXPECT_NEAR(in_si("[lb_av]"), 0.45359237, 0);
  EXPECT_NEAR(in_si("[oz_av]"), 0.028349523125, 1e-17);
  EXPECT_NEAR(in_si("[gal_us]"), 3.785411784e-3, 1e-18);
  EXPECT_NEAR(in_si("[cup_us]"), 2.365882365e-4, 1e-18);
  EXPECT_NEAR(in_si("[foz_us]"), 2.95735295625e-5, 1e-18);
}

TEST(Unit, ReadsTheUcumGrammar) {
  EXPECT_EQ(in_si("10*-6"), 1e-6);
  EXPECT_EQ(in_si("cm3"), 1e-6);
  EXPECT_EQ(in_si("kg.m-3"), 1);
  EXPECT_EQ(in_si("kg/m3"), 1);
  EXPECT_EQ(in_si("/min"), 1.0 / 60);
  EXPECT_EQ(in_si("100.mL"), 1e-4);
  EXPECT_EQ(in_si("g/(100.mL)"), 10);
  EXPECT_EQ(in_si("g/mL/s"), 1000);  // divides left to right
  EXPECT_EQ(in_si("g/mL.s"), 1000);
  EXPECT_EQ(in_si("mL{solution}"), 1e-6);
  EXPECT_EQ(in_si("{portion}"), 1);
  EXPECT_EQ(in_si("m+2"), 1);
  EXPECT_EQ(Unit::known("g/mL/s").dimension(), dimension::density / dimension::time);
  EXPECT_EQ(Unit::known("g/mL.s").dimension(), dimension::density * dimension::time);
}

TEST(Unit, TakesAnExactCodeBeforeAPrefix) {
  EXPECT_EQ(Unit::known("min").dimension(), dimension::time);
  EXPECT_EQ(Unit::known("cd").dimension(), dimension::luminosity);
  EXPECT_EQ(Unit::known("mol").dimension(), dimension::amount);
  EXPECT_EQ(Unit::known("mo").dimension(), dimension::time);
  EXPECT_EQ(Unit::known("Pa").dimension(), dimension::pressure);
}

TEST(Unit, KeepsTemperaturesAndDifferencesApart) {
  const Unit celsius = Unit::known("Cel");
  EXPECT_DOUBLE_EQ(celsius.to_si(25), 298.15);
  EXPECT_DOUBLE_EQ(celsius.as_difference().to_si(25), 25);
  EXPECT_DOUBLE_EQ(celsius.as_difference().as_point().to_si(25), 298.15);
  EXPECT_FALSE(celsius.converts_to(celsius.as_difference()));
  EXPECT_TRUE(celsius.converts_to(Unit::known("K")));
  EXPECT_TRUE(celsius.as_difference().converts_to(Unit::known("K")));
  EXPECT_NEAR(Unit::known("[degF]").to_si(212), 373.15, 1e-12);
  EXPECT_NEAR(Unit::known("[degF]").from_si(273.15), 32, 1e-12);
  EXPECT_NEAR(Unit::known("[degF]").as_difference().to_si(9), 5, 1e-15);
}

// NIST Handbook 105-4 and common trade tables: 66 °Bé sulfuric acid is 1.8354, 26 °Bé ammonia 0.8974 at 60/60 °F.
TEST(Unit, ReadsBaumeDegreesOnBothSidesOfWater) {
  EXPECT_NEAR(in_si("[degBe]", 66) / 999.016, 1.8354, 0.00005);
  EXPECT_NEAR(in_si("[degBe_l]", 26) / 999.016, 0.8974, 0.00005);
  const Unit heavy = Unit::known("[degBe]");
  EXPECT_NEAR(heavy.from_si(heavy.to_si(42)), 42, 1e-9);
  const double step = 1e-4;
  EXPECT_NEAR(heavy.slope_at(42), (heavy.to_si(42 + step) - heavy.to_si(42 - step)) / (2 * step), 1e-4);
}

TEST(Unit, IsSpelledAsTheTradeSpellsIt) {
  const auto symbol = [](const char* code) { return Unit::known(code).symbol(); };
  EXPECT_EQ(symbol("mL"), "mL");
  EXPECT_EQ(symbol("ml"), "mL");
  EXPECT_EQ(symbol("uL"), "µL");
  EXPECT_EQ(symbol("Cel"), "°C");
  EXPECT_EQ(symbol("mol/L"), "mol/L");
  EXPECT_EQ(symbol("mm[Hg]"), "mmHg");
  EXPECT_EQ(symbol("cm3"), "cm³");
  EXPECT_EQ(symbol("kg.m-3"), "kg·m⁻³");
  EXPECT_EQ(symbol("J/(g.K)"), "J/(g·K)");
  EXPECT_EQ(symbol("/min"), "1/min");
  EXPECT_EQ(symbol("1"), "");
  EXPECT_EQ(symbol("{drops}"), "drops");
}

TEST(Unit, SaysWhereACodeIsMalformed) {
  const auto place = [](const char* code) {
    const auto unit = Unit::parse(code);
    EXPECT_FALSE(unit.ok()) << code;
    return unit.ok() ? 9999 : unit.fault().place.value_or(9999);
  };
  EXPECT_EQ(place("g/"), 2U);
  EXPECT_EQ(place("g//L"), 2U);
  EXPECT_EQ(place("(g/L"), 0U);
  EXPECT_EQ(place("g/L)"), 3U);
  EXPECT_EQ(place("mL{soln"), 2U);
  EXPECT_EQ(place("m99"), 1U);
  EXPECT_EQ(place("J/(g.Cel)"), 5U);
  EXPECT_EQ(
      Unit::parse("J/(g.Cel)").fault().sentence,
      "The unit \"J/(g.Cel)\" cannot be read: °C cannot stand in a product; write K for a temperature difference.");
  EXPECT_FALSE(Unit::parse("").ok());
  EXPECT_FALSE(Unit::parse(std::string(10000, '(')).ok());
  EXPECT_FALSE(Unit::parse("Ym12.Ym12").ok());
}

TEST(Unit, OffersTheNearestCode) {
  const auto unit = Unit::parse("mmHg");
  ASSERT_FALSE(unit.ok());
  EXPECT_EQ(unit.fault().code, Code::unknown_name);
  EXPECT_EQ(unit.fault().sentence, "There is no unit \"mmHg\"; did you mean \"mm[Hg]\"?");
  EXPECT_EQ(Unit::parse("g/Mol").fault().sentence, "There is no unit \"Mol\" (in \"g/Mol\"); did you mean \"mol\"?");
}

}  // namespace
}  // namespace sash::quantity
