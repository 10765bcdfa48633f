#include "quantity/said.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sash::quantity {
namespace {

Said plain(double value, const char* digits) { return {value, std::nullopt, digits, Hedge::exact, false}; }
Said hedged(double value, Hedge hedge) { return {value, std::nullopt, "", hedge, false}; }

// Half a unit of the last digit: JCGM 100:2008 F.2.2.1 (resolution).
TEST(Said, CountsEveryDecimal) {
  EXPECT_DOUBLE_EQ(reach_of(plain(4, "4")), 0.5);
  EXPECT_DOUBLE_EQ(reach_of(plain(4, "4.00")), 0.005);
  EXPECT_DOUBLE_EQ(reach_of(plain(12.6, "12.6")), 0.05);
  EXPECT_DOUBLE_EQ(reach_of(plain(20, "20.0")), 0.05);
  EXPECT_DOUBLE_EQ(reach_of(plain(20, "20.")), 0.5);
  EXPECT_DOUBLE_EQ(reach_of(plain(0.0025, "2.5e-3")), 0.00005);
  EXPECT_DOUBLE_EQ(reach_of(plain(2000, "2e3")), 500);
  EXPECT_DOUBLE_EQ(reach_of(plain(2.5, "2,5")), 0.05);
  EXPECT_DOUBLE_EQ(reach_of(plain(-10.5, "−10.5")), 0.05);
}

// Round numbers: common practice, no source; the rule is stated in said.h.
TEST(Said, LeavesTrailingZerosOfRoundNumbersOpenWithinAFortieth) {
  EXPECT_DOUBLE_EQ(reach_of(plain(20, "20")), 0.5);
  EXPECT_DOUBLE_EQ(reach_of(plain(100, "100")), 2.5);
  EXPECT_DOUBLE_EQ(reach_of(plain(250, "250")), 5);
  EXPECT_DOUBLE_EQ(reach_of(plain(1000, "1,000")), 25);
  EXPECT_DOUBLE_EQ(reach_of(plain(1250, "1 250")), 5);
  EXPECT_DOUBLE_EQ(reach_of(plain(0, "0")), 0.5);
  EXPECT_DOUBLE_EQ(reach_of(plain(101, "101")), 0.5);
}

TEST(Said, CountsEveryDigitWhenSaidExactly) {
  Said said = plain(250, "250");
  said.precisely = true;
  EXPECT_DOUBLE_EQ(reach_of(said), 0.5);
}

TEST(Said, TakesTheShortestSpellingWhenNoDigitsWereKept) {
  EXPECT_DOUBLE_EQ(reach_of(plain(0.5, "")), 0.05);
  EXPECT_DOUBLE_EQ(reach_of(plain(3, "a few words")), 0.5);
}

// Hedges: common practice, no source.
TEST(Said, WidensWithHedgesToTheSideTheyPoint) {
  const auto limits = [](const Said& said) { return limits_of(said); };
  EXPECT_DOUBLE_EQ(limits(hedged(20, Hedge::about)).low, 18);
  EXPECT_DOUBLE_EQ(limits(hedged(20, Hedge::about)).high, 22);
  EXPECT_DOUBLE_EQ(limits(hedged(250, Hedge::about)).high, 275);
  EXPECT_DOUBLE_EQ(limits(hedged(2, Hedge::about)).low, 1);  // "a couple"
  EXPECT_DOUBLE_EQ(limits(hedged(20, Hedge::over)).low, 20);
  EXPECT_DOUBLE_EQ(limits(hedged(20, Hedge::over)).high, 22);
  EXPECT_DOUBLE_EQ(limits(hedged(20, Hedge::under)).low, 18);
  EXPECT_DOUBLE_EQ(limits(hedged(20, Hedge::under)).high, 20);
  const Said range{10, 15.0, "", Hedge::range, false};
  EXPECT_DOUBLE_EQ(limits(range).low, 10);
  EXPECT_DOUBLE_EQ(limits(range).high, 15);
}

TEST(Said, GivesTheMiddleAndAStandardUncertainty) {
  const Estimate exact = estimate_of(plain(250, "250"), Kind::volume, "mL");
  EXPECT_EQ(exact.best, 250);
  EXPECT_EQ(exact.spread.shape, Shape::rectangular);
  EXPECT_NEAR(exact.spread.standard, 5 / std::sqrt(3.0), 1e-12);
  EXPECT_EQ(exact.spread.reason,
            "Said as a round number: its last zeros may be rounding, so 245 to 255 mL (common practice).");
  const Estimate range = estimate_of({10, 15.0, "", Hedge::range, false}, Kind::duration, "min");
  EXPECT_DOUBLE_EQ(range.best, 12.5);
  EXPECT_NEAR(range.spread.standard, 2.5 / std::sqrt(3.0), 1e-12);
  EXPECT_EQ(range.spread.reason, "Said as a range: 10 to 15 min, none likelier within.");
  EXPECT_EQ(estimate_of(hedged(20, Hedge::about), Kind::volume, "mL").spread.shape, Shape::triangular);
}

TEST(Said, TakesCountsAsExact) {
  EXPECT_EQ(estimate_of(plain(3, "3"), Kind::count, "").spread.standard, 0);
  EXPECT_GT(estimate_of(hedged(3, Hedge::about), Kind::count, "").spread.standard, 0);
}

TEST(Said, AgreesAsRoundedWhenACorrectValueRoundsToIt) {
  EXPECT_TRUE(agrees_as_rounded(plain(12.6, "12.6"), 12.64));
  EXPECT_TRUE(agrees_as_rounded(plain(12.6, "12.6"), 12.65));  // half-way agrees with both neighbours
  EXPECT_TRUE(agrees_as_rounded(plain(12.7, "12.7"), 12.65));
  EXPECT_FALSE(agrees_as_rounded(plain(12.6, "12.6"), 12.66));
  EXPECT_TRUE(agrees_as_rounded(plain(4, "4"), 4.4));
  EXPECT_FALSE(agrees_as_rounded(plain(4, "4.0"), 4.4));
  EXPECT_TRUE(agrees_as_rounded(plain(250, "250"), 253));
  EXPECT_FALSE(agrees_as_rounded(plain(250, "250"), 256));
  EXPECT_TRUE(agrees_as_rounded(hedged(20, Hedge::over), 21));
  EXPECT_FALSE(agrees_as_rounded(hedged(20, Hedge::over), 19));
}

}  // namespace
}  // namespace sash::quantity
