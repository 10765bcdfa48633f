#include "quantity/show.h"

#include <gtest/gtest.h>

#include <limits>

namespace sash::quantity {
namespace {

// Examples of ISO 80000-1:2009 annex B, B.2 and B.3 rule A.
TEST(Show, RoundsHalfToEvenOnTheWrittenDigits) {
  EXPECT_EQ(show_at(12.223, -1), "12.2");
  EXPECT_EQ(show_at(12.251, -1), "12.3");
  EXPECT_EQ(show_at(12.275, -1), "12.3");
  EXPECT_EQ(show_at(12.25, -1), "12.2");
  EXPECT_EQ(show_at(12.35, -1), "12.4");
  EXPECT_EQ(show_at(1225, 1), "1220");
  EXPECT_EQ(show_at(1235, 1), "1240");
  EXPECT_EQ(show_at(2.675, -2), "2.68");  // below the tie in binary, on it as written
}

// Examples of JCGM 100:2008 7.2.6 and 7.2.2.
TEST(Show, GivesUncertaintiesTwoDigitsAndTheNumberTheSamePlace) {
  EXPECT_EQ(show_with(10.05762, 0.027, "Ω"), "(10.058 ± 0.027) Ω");
  EXPECT_EQ(show_with(100.02147, 0.00035, "g"), "(100.02147 ± 0.00035) g");
  EXPECT_EQ(show_with(999.9, 28.05, "kHz"), "(1000 ± 28) kHz");
}

TEST(Show, FollowsAnUncertaintyThatRoundsUpToTheNextTen) {
  EXPECT_EQ(place_for(0.0665), -3);
  EXPECT_EQ(place_for(0.0996), -2);
  EXPECT_EQ(show_with(1.23456, 0.0996, ""), "1.23 ± 0.10");
}

// SI Brochure 9th ed. 5.4.3-5.4.6: grouping by thin spaces from five digits on, a space before the unit and before %.
TEST(Show, WritesNumbersAsTheTradeDoes) {
  EXPECT_EQ(show_number(0), "0");
  EXPECT_EQ(show_number(250), "250");
  EXPECT_EQ(show_number(1234), "1234");
  EXPECT_EQ(show_number(12000), "12\u00A0000");
  EXPECT_EQ(show_number(123456.7), "123\u00A0457");
  EXPECT_EQ(show_number(0.1 + 0.2), "0.3");
  EXPECT_EQ(show_number(-3.5), "−3.5");
  EXPECT_EQ(show_number(-0.0), "0");
  EXPECT_EQ(show_number(0.0012), "0.0012");
  EXPECT_EQ(show_number(0.0000123), "1.23×10⁻⁵");
  EXPECT_EQ(show_number(6.02214076e23, 9), "6.02214076×10²³");
  EXPECT_EQ(show_significant(0.25, 3), "0.250");
  EXPECT_EQ(show_significant(9.996, 3), "10.0");
  EXPECT_EQ(show_significant(1250, 2), "1200");
  EXPECT_EQ(show_significant(0, 2), "0.0");
  EXPECT_EQ(show_with_unit(68, "%"), "68 %");
  EXPECT_EQ(show_with_unit(7.2, "pH"), "pH 7.2");
  EXPECT_EQ(show_with(4.5, 0.03, "pH"), "pH 4.500 ± 0.030");
  EXPECT_EQ(show_with(1.25e-5, 1.2e-6, "mol"), "(1.25 ± 0.12)×10⁻⁵ mol");
  EXPECT_EQ(show_with(0, 0.5, "°C"), "(0.00 ± 0.50) °C");
  EXPECT_EQ(show_with(0.01, 5, "g"), "(0.0 ± 5.0) g");
  EXPECT_EQ(show_with(25, 0, "mL"), "25 mL");
}

TEST(Show, NeverPrintsGarbageForWhatIsNoNumber) {
  EXPECT_EQ(show_number(std::numeric_limits<double>::infinity()), "∞");
  EXPECT_EQ(show_number(std::numeric_limits<double>::quiet_NaN()), "not a number");
  EXPECT_EQ(show_number(std::numeric_limits<double>::denorm_min()), "5×10⁻³²⁴");
  EXPECT_EQ(show_number(std::numeric_limits<double>::max(), 3), "1.8×10³⁰⁸");
}

TEST(Show, ShowsAValueInAnyUnitOfItsDimension) {
  const auto value = Value::of(250, 2.89, Unit::known("mL"));
  EXPECT_EQ(show(*value, Unit::known("mL")).value(), "(250.0 ± 2.9) mL");
  EXPECT_EQ(show(*value, Unit::known("L")).value(), "(0.2500 ± 0.0029) L");
  EXPECT_EQ(show(*value, Unit::known("mL"), 2).value(), "(250.0 ± 5.8) mL, k = 2");
  EXPECT_EQ(show(*value, Unit::known("g")).fault().code, Code::wrong_dimension);
}

TEST(Show, PicksTheUnitAPersonWouldRead) {
  EXPECT_EQ(readable_unit(Kind::mass, 0.00025).code(), "mg");
  EXPECT_EQ(readable_unit(Kind::mass, 0.25).code(), "g");
  EXPECT_EQ(readable_unit(Kind::volume, 2.5e-6).code(), "mL");
  EXPECT_EQ(readable_unit(Kind::duration, 7200).code(), "h");
  EXPECT_EQ(readable_unit(Kind::temperature, 300).code(), "Cel");
  EXPECT_EQ(readable_unit(Kind::molar_concentration, 500).code(), "mol/L");
}

}  // namespace
}  // namespace sash::quantity
