#pragma once
// Quantiles of the normal and of Student's t distribution, for coverage factors. Pure; safe from any thread.
// Sources: JCGM 100:2008 G.3 and table G.2 (coverage factors); Abramowitz & Stegun 26.5 (incomplete beta function).

#include <optional>

namespace sash::quantity {

/// Share of a standard normal distribution below `x`.
double normal_below(double x);
/// The x with share `below` under it. Requires: 0 < below < 1.
double normal_quantile(double below);

/// Share of Student's t with `degrees_of_freedom` below `t`. Requires: degrees_of_freedom > 0.
double student_below(double t, double degrees_of_freedom);
/// The t with share `below` under it. Requires: 0 < below < 1, degrees_of_freedom > 0.
double student_quantile(double below, double degrees_of_freedom);

/// The k for a two-sided interval of `share` (0.95): Student's t, or the normal value when the degrees of freedom are
/// infinite (nothing). Requires: 0 < share < 1.
double coverage_factor(double share, std::optional<double> degrees_of_freedom);

}  // namespace sash::quantity
