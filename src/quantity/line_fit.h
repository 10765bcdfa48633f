#pragma once
// A straight line through points by ordinary least squares, with the uncertainty of its constants and of what is read
// off it: calibration of an instrument. Pure; safe from any thread. Source: JCGM 100:2008 annex H.3.

#include <span>

#include "quantity/propagate.h"
#include "support/outcome.h"

namespace sash::quantity {

/// y = intercept + slope·(x - origin).
struct LineFit {
  double origin = 0;
  double intercept = 0;
  double slope = 0;
  double intercept_standard = 0;
  double slope_standard = 0;
  double correlation = 0;         ///< between intercept and slope
  double residual_standard = 0;   ///< standard deviation of one point about the line
  double degrees_of_freedom = 0;  ///< points less two

  /// The line's value at `x`, as an input to go on with.
  Input at(double x, std::string name) const;
};

/// Fails: Code::out_of_range with fewer than three points or all x alike; Code::not_finite. Requires: as many x as y.
Outcome<LineFit> fit_line(std::span<const double> x, std::span<const double> y, double origin = 0);

}  // namespace sash::quantity
