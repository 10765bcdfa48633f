#include "plot/plot.h"

#include <algorithm>
#include <cmath>

#include "quantity/show.h"

namespace sash::plot {
namespace {

// The least of 1, 2 and 5 times a power of ten that is not below `rough`.
double round_step(double rough) {
  const double power = std::pow(10.0, std::floor(std::log10(rough)));
  for (const double times : {1.0, 2.0, 5.0}) {
    if (times * power >= rough * (1 - 1e-9)) return times * power;
  }
  return 10 * power;
}

}  // namespace

Axis axis_over(std::string name, std::string unit, const std::vector<double>& values, bool from_zero, int wanted) {
  Axis axis;
  axis.name = std::move(name);
  axis.unit = std::move(unit);
  double low = 0;
  double high = 1;
  if (!values.empty()) {
    const auto [least, most] = std::ranges::minmax(values);
    low = from_zero ? std::min(0.0, least) : least;
    high = from_zero ? std::max(0.0, most) : most;
  }
  if (!(high > low)) {
    const double room = low == 0 ? 1 : std::abs(low) / 2;
    high = low + room;
    if (!from_zero) low -= room;
  }
  const double step = round_step((high - low) / wanted);
  const double first = std::floor(low / step + 1e-9);
  const double last = std::ceil(high / step - 1e-9);
  for (double n = first; n <= last; ++n) axis.ticks.push_back({n * step, quantity::show_number(n * step)});
  axis.low = first * step;
  axis.high = last * step;
  return axis;
}

void shape_series(Plot& plot) {
  for (std::size_t i = 0; i < plot.series.size(); ++i) plot.series[i].shape = static_cast<Shape>(i % shape_count);
}

std::vector<std::size_t> shaped_points(const Plot& plot, std::size_t series) {
  constexpr double places = 6;
  const std::vector<Point>& points = plot.series[series].points;
  std::vector<std::size_t> out;
  if (points.empty()) return out;
  const double stagger = (static_cast<double>(series) + 0.5) / static_cast<double>(plot.series.size());
  for (double place = 0; place < places; ++place) {
    const double wanted = plot.x.low + (plot.x.high - plot.x.low) * (place + stagger) / places;
    const auto at = std::ranges::min_element(points, {}, [wanted](const Point& p) { return std::abs(p.x - wanted); });
    const auto index = static_cast<std::size_t>(at - points.begin());
    if (out.empty() || out.back() != index) out.push_back(index);
  }
  return out;
}

}  // namespace sash::plot
