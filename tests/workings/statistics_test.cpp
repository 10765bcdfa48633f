#include "workings/statistics.h"

#include <gtest/gtest.h>

namespace sash::workings {
namespace {

// Critical values as printed in NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4 (three decimals).
TEST(ChiSquare, GivesTheTabulatedLimits) {
  EXPECT_NEAR(chi_square_limit(0.05, 1), 3.841, 0.0005);
  EXPECT_NEAR(chi_square_limit(0.05, 10), 18.307, 0.0005);
  EXPECT_NEAR(chi_square_limit(0.01, 5), 15.086, 0.0005);
  EXPECT_NEAR(chi_square_limit(0.001, 100), 149.449, 0.0005);
  EXPECT_NEAR(chi_square_limit(0.10, 2), 4.605, 0.0005);
}

TEST(ChiSquare, TailFallsFromOneToNothing) {
  EXPECT_EQ(chi_square_tail(0, 3), 1);
  EXPECT_NEAR(chi_square_tail(3.841, 1), 0.05, 5e-5);
  EXPECT_GT(chi_square_tail(1400, 2), 0);
  EXPECT_EQ(chi_square_tail(1e12, 3), 0);
}

TEST(Normal, GivesTheTabulatedLimits) {
  EXPECT_NEAR(normal_two_sided_limit(0.05), 1.960, 0.0005);
  EXPECT_NEAR(normal_two_sided_limit(0.01), 2.576, 0.0005);
  EXPECT_NEAR(normal_two_sided_tail(1.0), 0.3173, 5e-5);
}

}  // namespace
}  // namespace sash::workings
