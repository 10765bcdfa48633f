#include "quantity/spread.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <limits>

namespace sash::quantity {
namespace {

// JCGM 100:2008 4.3.7 (a/√3), 4.3.9 (a/√6), G.3 (k).
TEST(Spread, ReadsAPlusMinusAsItWasMeant) {
  EXPECT_NEAR(stated(0.1, Meant::limits, "mL")->standard, 0.0577, 0.00005);
  EXPECT_NEAR(stated(0.1, Meant::limits_peaked, "mL")->standard, 0.0408, 0.00005);
  EXPECT_EQ(stated(0.1, Meant::one_standard, "mL")->standard, 0.1);
  EXPECT_EQ(stated(0.1, Meant::two_standard, "mL")->standard, 0.05);
  EXPECT_NEAR(stated(1.96, Meant::ninety_five, "mL")->standard, 1, 0.00005);
  EXPECT_NEAR(stated(2.23, Meant::ninety_five, "mL", 10.0)->standard, 1, 0.005);
  EXPECT_EQ(stated(0, Meant::limits, "mL")->shape, Shape::exact);
}

TEST(Spread, SaysHowItWasRead) {
  EXPECT_EQ(stated(0.5, Meant::limits, "mL")->reason,
            "Stated as ±0.5 mL, read as limits within which no value is likelier (divided by √3).");
}

TEST(Spread, RefusesWhatIsNoSize) {
  EXPECT_EQ(stated(-0.1, Meant::limits, "").fault().code, Code::out_of_range);
  EXPECT_EQ(stated(std::numeric_limits<double>::infinity(), Meant::limits, "").fault().code, Code::not_finite);
  EXPECT_EQ(stated(1, Meant::ninety_five, "", 0.0).fault().code, Code::out_of_range);
  EXPECT_EQ(mean_of(std::array{1.0}).fault().code, Code::out_of_range);
}

// JCGM 100:2008 table H.2: five readings of the potential difference, mean 4.9990 V, s of the mean 0.0032 V.
TEST(Spread, TakesTheMeanOfReadings) {
  const auto mean = mean_of(std::array{5.007, 4.994, 5.005, 4.990, 4.999});
  ASSERT_TRUE(mean.ok());
  EXPECT_NEAR(mean->best, 4.9990, 0.00005);
  EXPECT_NEAR(mean->spread.standard, 0.0032, 0.00005);
  EXPECT_EQ(mean->spread.degrees_of_freedom, 4);
}

// EURACHEM/CITAC QUAM:2012 A1: flask ±0.1 mL triangular, repeatability 0.02 mL, temperature ±0.084 mL: u(V) 0.0665 mL
// unrounded.
TEST(Spread, CombinesContributionsToOneNumber) {
  const std::array parts{*stated(0.1, Meant::limits_peaked, "mL"), *stated(0.02, Meant::one_standard, "mL"),
                         *stated(0.084, Meant::limits, "mL")};
  const Spread whole = combined(parts);
  EXPECT_NEAR(whole.standard, 0.0665, 0.0001);
  EXPECT_EQ(whole.shape, Shape::normal);
  EXPECT_FALSE(whole.degrees_of_freedom.has_value());
}

// JCGM 100:2008 H.1.6: u(d) = 9.7 nm from 5.8 (24), 3.9 (5), 6.7 (8): effective degrees of freedom 25.6.
TEST(Spread, CombinesDegreesOfFreedomByWelchAndSatterthwaite) {
  const std::array parts{*stated(5.8, Meant::one_standard, "nm", 24.0), *stated(3.9, Meant::one_standard, "nm", 5.0),
                         *stated(6.7, Meant::one_standard, "nm", 8.0)};
  const Spread whole = combined(parts);
  EXPECT_NEAR(whole.standard, 9.7, 0.05);
  EXPECT_NEAR(*whole.degrees_of_freedom, 25.6, 0.3);
}

}  // namespace
}  // namespace sash::quantity
