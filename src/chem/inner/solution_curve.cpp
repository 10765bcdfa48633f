#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

#include "chem/inner/density_tables.h"
#include "chem/inner/wording.h"

namespace sash::chem::inner {
namespace {

double rectangular(double half_width) { return half_width / std::numbers::sqrt3; }

constexpr double last_digit = 0.00005;  // the table of solutions prints four decimals
// How far the model was found from the table of solutions: at strengths both cover, and beyond the table's end, where
// handbook values for 50 % NaOH and 70 % HNO3 differ by up to 0.009 and 0.0035.
constexpr double model_spread = 0.0015;
constexpr double model_spread_beyond = 0.004;
constexpr double model_drift = 0.0005;  // of the ratio of two model values over some 20 K

bool is_table_celsius(double celsius) { return std::abs(celsius - table_celsius) < 1e-9; }

/// Where `w` lies: the upper node of its interval, from 1. Requires: w within the points.
std::size_t interval(std::span<const CurvePoint> points, double w) {
  const auto above =
      std::lower_bound(points.begin() + 1, points.end() - 1, w, [](const auto& p, double x) { return p.w < x; });
  return static_cast<std::size_t>(above - points.begin());
}

double slope(const CurvePoint& a, const CurvePoint& b) { return (b.density - a.density) / (b.w - a.w); }

/// The slope at node i of the parabola through it and its neighbours.
double node_slope(std::span<const CurvePoint> points, std::size_t i) {
  const std::size_t last = points.size() - 1;
  const std::size_t mid = std::clamp<std::size_t>(i, 1, last - 1);
  const auto &a = points[mid - 1], &b = points[mid], &c = points[mid + 1];
  const double left = slope(a, b), right = slope(b, c);
  const double bend = (right - left) / (c.w - a.w);
  return left + bend * (2 * points[i].w - a.w - b.w);
}

/// Cubic between two nodes with the slopes of the curve: smooth at the nodes and through every tabulated value.
Density interpolate(const DensityCurve& curve, double w) {
  const std::span points(curve.points);
  const std::size_t i = interval(points, w);
  const auto &a = points[i - 1], &b = points[i];
  const double width = b.w - a.w, t = (w - a.w) / width;
  const double line = a.density + t * (b.density - a.density);
  const double da = node_slope(points, i - 1) * width, db = node_slope(points, i) * width;
  const double rise = b.density - a.density;
  const double cubic = line + t * (1 - t) * ((1 - t) * (da - rise) + t * (rise - db));
  Density d;
  d.value = cubic;
  d.spread = std::hypot(rectangular(last_digit), rectangular(cubic - line));
  d.source = curve.source;
  return d;
}

std::string covered(const SolutionTables& tables) {
  std::string text = "The tables know solutions of " + tables.solute;
  if (tables.curve) text += " up to " + shown(tables.curve->points.back().w * 100) + " % at 20 °C";
  if (tables.curve && tables.model) text += ", and";
  if (tables.model) {
    text += " up to " + shown(tables.model->w_max * 100) + " % from " + shown(tables.model->t_min) + " to " +
            shown(tables.model->t_max) + " °C";
  }
  return text;
}

/// The curve's value over the model's, where the curve is asked or at its end: what joins the model to the curve.
Density by_model(const SolutionTables& tables, double w, double celsius, double water) {
  const DensityModel& model = *tables.model;
  const double value = model.density(w, celsius, water);
  if (!tables.curve) return {value, model_spread, model.source, {}};
  const double reach = tables.curve->points.back().w;
  const double joint = std::min(w, reach);
  if (!model.covers(joint, table_celsius)) return {value, model_spread_beyond, model.source, {}};
  Density d = interpolate(*tables.curve, joint);
  d.value *= value / model.density(joint, table_celsius, water_density(table_celsius)->value);
  d.source += "; further: " + model.source;
  d.spread = std::hypot(d.spread, w > reach ? model_spread_beyond : model_drift);
  if (w > reach) d.note = "Beyond the measured table: the density comes from a fitted model joined to its end.";
  return d;
}

}  // namespace

Outcome<Density> SolutionTables::at(double w, double celsius) const {
  const auto water = water_density(celsius);
  if (!water) return water.fault();
  if (w >= 0 && is_table_celsius(celsius) && curve && w <= curve->points.back().w + 1e-12)
    return interpolate(*curve, w);
  if (model && model->covers(w, celsius)) return by_model(*this, w, celsius, water->value);
  return Fault::of(Code::out_of_range,
                   covered(*this) + ", not " + shown(w * 100) + " % at " + shown(celsius) + " °C; state the density.");
}

double SolutionTables::strongest(double celsius) const {
  double w = 0;
  if (curve && is_table_celsius(celsius)) w = curve->points.back().w;
  if (model && model->covers(0, celsius)) w = std::max(w, model->w_max);
  return w;
}

}  // namespace sash::chem::inner
