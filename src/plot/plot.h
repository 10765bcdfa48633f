#pragma once
// Plot: one small diagram as a value, ready to be drawn by anybody: axes with their ticks worded, series of points,
// marks, and one sentence that says what it shows. Nothing here draws (desk/draw/kit/plot.h, script) or computes
// chemistry (plot/relation_plot.h, plot/sweep_plot.h). Pure values, safe from any thread.

#include <string>
#include <vector>

namespace sash::plot {

struct Tick {
  double at = 0;     ///< in the unit of the axis
  std::string text;  ///< "0.5"
  bool operator==(const Tick&) const = default;
};

struct Axis {
  std::string name;  ///< "amount of NaOH"
  std::string unit;  ///< as on the screen: "mol"; empty for a plain number
  double low = 0;    ///< the ends are ticks
  double high = 1;
  std::vector<Tick> ticks;

  /// Where `value` stands, 0 at the low end and 1 at the high end.
  double share(double value) const { return (value - low) / (high - low); }
  std::string title() const { return unit.empty() ? name : name + " / " + unit; }
};

/// An axis over all of `values`, its ends on round ticks, with at most about `wanted` steps of 1, 2 or 5 times a power
/// of ten. `from_zero` takes zero in. A single value gets room to both sides; without any the axis runs from 0 to 1.
Axis axis_over(std::string name, std::string unit, const std::vector<double>& values, bool from_zero, int wanted = 8);

struct Point {
  double x = 0;
  double y = 0;
  bool operator==(const Point&) const = default;
};

/// Told apart by shape as well as by colour: the shape sits on the line at a few places and in the legend.
enum class Shape { circle, square, triangle, diamond, cross, ring };
inline constexpr int shape_count = 6;

struct Series {
  std::string name;
  Shape shape = Shape::circle;
  std::vector<Point> points;  ///< x never falls
};

/// A place worth pointing at.
struct Mark {
  double x = 0;
  double y = 0;
  std::string text;
};

struct Plot {
  std::string title;
  Axis x;
  Axis y;
  std::vector<Series> series;
  std::vector<Mark> marks;
  std::string reading;  ///< one or two sentences: what it shows
};

/// Gives each series the next shape.
void shape_series(Plot& plot);

/// Indices of the points of a series that carry its shape: about six, spread over the width of the plot and staggered
/// between series so that shapes on a shared line do not hide each other.
std::vector<std::size_t> shaped_points(const Plot& plot, std::size_t series);

}  // namespace sash::plot
