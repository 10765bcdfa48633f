#include "quantity/line_fit.h"

#include <gtest/gtest.h>

#include <array>
#include <limits>

namespace sash::quantity {
namespace {

TEST(LineFit, GoesThroughPointsOnALine) {
  const auto line = fit_line(std::array{1.0, 2.0, 4.0}, std::array{3.0, 5.0, 9.0});
  ASSERT_TRUE(line.ok());
  EXPECT_NEAR(line->slope, 2, 1e-12);
  EXPECT_NEAR(line->intercept, 1, 1e-12);
  EXPECT_NEAR(line->at(10, "y").best, 21, 1e-12);
  EXPECT_NEAR(line->residual_standard, 0, 1e-12);
}

TEST(LineFit, RefusesTooFewOrStackedPoints) {
  EXPECT_EQ(fit_line(std::array{1.0, 2.0}, std::array{1.0, 2.0}).fault().code, Code::out_of_range);
  EXPECT_EQ(fit_line(std::array{1.0, 1.0, 1.0}, std::array{1.0, 2.0, 3.0}).fault().code, Code::out_of_range);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(fit_line(std::array{1.0, nan, 3.0}, std::array{1.0, 2.0, 3.0}).fault().code, Code::not_finite);
}

}  // namespace
}  // namespace sash::quantity
