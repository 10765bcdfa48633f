#include "plot/plot.h"

#include <gtest/gtest.h>

namespace sash::plot {
namespace {

std::vector<std::string> words(const Axis& axis) {
  std::vector<std::string> out;
  for (const Tick& t : axis.ticks) out.push_back(t.text);
  return out;
}

// Steps of 1, 2 or 5 times a power of ten: common practice of drawing scales, no source.
TEST(Axis, HasRoundTicksThatTakeInAllValues) {
  const Axis axis = axis_over("amount", "mol", {0.03, 0.47}, true);
  EXPECT_EQ(words(axis), (std::vector<std::string>{"0", "0.1", "0.2", "0.3", "0.4", "0.5"}));
  EXPECT_DOUBLE_EQ(axis.low, 0);
  EXPECT_DOUBLE_EQ(axis.high, 0.5);
  EXPECT_EQ(axis.title(), "amount / mol");
  EXPECT_EQ(words(axis_over("t", "°C", {18, 61}, false)),
            (std::vector<std::string>{"10", "20", "30", "40", "50", "60", "70"}));
}

TEST(Axis, StandsValuesInTheirPlace) {
  const Axis axis = axis_over("t", "°C", {-20, 20}, false);
  EXPECT_DOUBLE_EQ(axis.share(axis.low), 0);
  EXPECT_DOUBLE_EQ(axis.share(axis.high), 1);
  EXPECT_DOUBLE_EQ(axis.share((axis.low + axis.high) / 2), 0.5);
}

TEST(Axis, HasRoomForOneValueForNoneAndForZero) {
  for (const std::vector<double>& values : {std::vector<double>{}, {0.0}, {7.0}, {-3e-9}, {1e12}}) {
    for (const bool zero : {true, false}) {
      const Axis axis = axis_over("x", "", values, zero);
      EXPECT_LT(axis.low, axis.high);
      EXPECT_GE(axis.ticks.size(), 2U);
      EXPECT_LE(axis.ticks.size(), 12U);
      for (const double v : values) {
        EXPECT_GE(v, axis.low);
        EXPECT_LE(v, axis.high);
      }
    }
  }
}

TEST(Series, HaveShapesOfTheirOwnInPlacesOfTheirOwn) {
  Plot plot;
  for (int n = 0; n < 4; ++n) {
    Series s;
    for (int i = 0; i <= 100; ++i) s.points.push_back({i / 100.0, 1});
    plot.series.push_back(s);
  }
  plot.x = axis_over("x", "", {0, 1}, true);
  plot.y = axis_over("y", "", {0, 1}, true);
  shape_series(plot);
  EXPECT_NE(plot.series[0].shape, plot.series[1].shape);
  EXPECT_NE(plot.series[2].shape, plot.series[3].shape);
  const auto first = shaped_points(plot, 0);
  const auto second = shaped_points(plot, 1);
  EXPECT_EQ(first.size(), 6U);
  for (const std::size_t at : first) EXPECT_EQ(std::count(second.begin(), second.end(), at), 0) << at;
}

}  // namespace
}  // namespace sash::plot
