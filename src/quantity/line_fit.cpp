#include "quantity/line_fit.h"

#include <algorithm>
#include <cmath>

#include "support/check.h"

namespace sash::quantity {

Outcome<LineFit> fit_line(std::span<const double> x, std::span<const double> y, double origin) {
  promise(x.size() == y.size(), "a point has an x and a y");
  if (x.size() < 3) return Fault::of(Code::out_of_range, "A line with its uncertainty needs at least three points.");
  const auto n = static_cast<double>(x.size());
  double mean_x = 0;
  double mean_y = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    mean_x += (x[i] - origin) / n;
    mean_y += y[i] / n;
  }
  double square = 0;  // Σ (x - mean)²
  double cross = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double dx = x[i] - origin - mean_x;
    square += dx * dx;
    cross += dx * (y[i] - mean_y);
  }
  if (!std::isfinite(square) || !std::isfinite(cross))
    return Fault::of(Code::not_finite, "A point of the line is not finite.");
  if (!(square > 0))
    return Fault::of(Code::out_of_range, "All points of the line lie at the same place; spread them out.");
  LineFit out;
  out.origin = origin;
  out.slope = cross / square;
  out.intercept = mean_y - out.slope * mean_x;
  double residuals = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double off = y[i] - out.intercept - out.slope * (x[i] - origin);
    residuals += off * off;
  }
  out.degrees_of_freedom = n - 2;
  out.residual_standard = std::sqrt(residuals / out.degrees_of_freedom);
  out.slope_standard = out.residual_standard / std::sqrt(square);
  const double mean_square = square / n + mean_x * mean_x;
  out.intercept_standard = out.residual_standard * std::sqrt(mean_square / square);
  out.correlation = -mean_x / std::sqrt(mean_square);
  return out;
}

Input LineFit::at(double x, std::string name) const {
  const double dx = x - origin;
  const double variance = intercept_standard * intercept_standard + dx * dx * slope_standard * slope_standard +
                          2 * dx * intercept_standard * slope_standard * correlation;
  Spread spread;
  spread.standard = std::sqrt(std::max(variance, 0.0));
  spread.shape = spread.standard > 0 ? Shape::student : Shape::exact;
  spread.degrees_of_freedom = degrees_of_freedom;
  spread.reason = "Read off a straight line through measured points.";
  return {std::move(name), intercept + slope * dx, std::move(spread)};
}

}  // namespace sash::quantity
