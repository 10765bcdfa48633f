#include "quantity/student.h"

#include <gtest/gtest.h>

#include <optional>

namespace sash::quantity {
namespace {

struct Row {
  double degrees_of_freedom;
  double share;
  double t;
};

// JCGM 100:2008 table G.2, printed to two decimals.
TEST(Student, ReproducesTheTableOfTheGum) {
  constexpr Row rows[] = {
      {1, 0.6827, 1.84},  {1, 0.95, 12.71},   {1, 0.99, 63.66}, {2, 0.95, 4.30},  {2, 0.9973, 19.21},
      {3, 0.9545, 3.31},  {4, 0.9545, 2.87},  {4, 0.99, 4.60},  {5, 0.95, 2.57},  {6, 0.9973, 4.90},
      {10, 0.95, 2.23},   {10, 0.99, 3.17},   {16, 0.99, 2.92}, {20, 0.95, 2.09}, {50, 0.9973, 3.16},
      {100, 0.95, 1.984}, {100, 0.99, 2.626},
  };
  for (const Row& row : rows) {
    const double half_digit = row.degrees_of_freedom == 100 ? 0.0005 : 0.005;
    EXPECT_NEAR(coverage_factor(row.share, row.degrees_of_freedom), row.t, half_digit)
        << row.degrees_of_freedom << " " << row.share;
  }
  EXPECT_NEAR(coverage_factor(0.95, std::nullopt), 1.960, 0.0005);
  EXPECT_NEAR(coverage_factor(0.9973, std::nullopt), 3.000, 0.0005);
}

// Abramowitz & Stegun table 26.1: P(1.96) = 0.97500 21048 51780; P(3) = 0.99865 01019 68370.
TEST(Student, KnowsTheNormalDistribution) {
  EXPECT_NEAR(normal_below(1.96), 0.975002104851780, 1e-14);
  EXPECT_NEAR(normal_below(-3), 1 - 0.998650101968370, 1e-14);
  EXPECT_NEAR(normal_quantile(0.975002104851780), 1.96, 1e-11);
}

TEST(Student, QuantilesInvertShares) {
  for (const double nu : {0.7, 1.0, 2.5, 16.0, 400.0}) {
    for (const double below : {0.001, 0.2, 0.5, 0.77, 0.9999}) {
      EXPECT_NEAR(student_below(student_quantile(below, nu), nu), below, 1e-12) << nu << " " << below;
    }
  }
}

// Closed forms: nu = 1 is Cauchy, 1/2 + atan(t)/pi; nu = 2 is 1/2 + t/(2 sqrt(2 + t²)).
TEST(Student, MatchesItsClosedForms) {
  EXPECT_NEAR(student_below(1, 1), 0.75, 1e-14);
  EXPECT_NEAR(student_below(1, 2), 0.5 + 1 / (2 * 1.7320508075688772), 1e-14);
  EXPECT_NEAR(student_below(-1, 1), 0.25, 1e-14);
}

}  // namespace
}  // namespace sash::quantity
