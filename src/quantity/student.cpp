#include "quantity/student.h"

#include <cmath>
#include <limits>
#include <numbers>

#include "support/check.h"

namespace sash::quantity {
namespace {

/// Continued fraction of the incomplete beta function (Abramowitz & Stegun 26.5.8), evaluated by Lentz's method.
double beta_fraction(double a, double b, double x) {
  constexpr double tiny = 1e-300;
  const auto off_zero = [](double v) { return std::abs(v) < tiny ? tiny : v; };
  double c = 1;
  double d = 1 / off_zero(1 - (a + b) * x / (a + 1));
  double fraction = d;
  for (int m = 1; m <= 10000; ++m) {
    const double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / off_zero(1 + even * d);
    c = off_zero(1 + even / c);
    fraction *= d * c;
    const double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / off_zero(1 + odd * d);
    c = off_zero(1 + odd / c);
    const double step = d * c;
    fraction *= step;
    if (std::abs(step - 1) < std::numeric_limits<double>::epsilon()) break;
  }
  return fraction;
}

/// ln Gamma, by value only: std::lgamma writes a global sign. Stirling's series after lifting the argument above 10.
double log_gamma(double x) {
  double lift = 0;
  while (x < 10) {
    lift += std::log(x);
    x += 1;
  }
  const double inverse = 1 / (x * x);
  const double series =
      (1.0 / 12 - inverse * (1.0 / 360 - inverse * (1.0 / 1260 - inverse * (1.0 / 1680 - inverse / 1188)))) / x;
  return (x - 0.5) * std::log(x) - x + 0.5 * std::log(2 * std::numbers::pi) + series - lift;
}

/// Regularised incomplete beta function I_x(a, b).
double incomplete_beta(double a, double b, double x) {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const double front = std::exp(log_gamma(a + b) - log_gamma(a) - log_gamma(b) + a * std::log(x) + b * std::log1p(-x));
  if (x < (a + 1) / (a + b + 2)) return front * beta_fraction(a, b, x) / a;
  return 1 - front * beta_fraction(b, a, 1 - x) / b;
}

/// The argument at which a rising function passes `target`, by bisection down to neighbouring numbers.
template <class Function>
double where_it_passes(Function&& rising, double target, double low, double high) {
  for (int i = 0; i < 200; ++i) {
    const double middle = low + (high - low) / 2;
    if (middle <= low || middle >= high) break;
    (rising(middle) < target ? low : high) = middle;
  }
  return low + (high - low) / 2;
}

}  // namespace

double normal_below(double x) { return 0.5 * std::erfc(-x / std::numbers::sqrt2); }

double normal_quantile(double below) {
  promise(below > 0 && below < 1, "a share lies between 0 and 1");
  return below > 0.5 ? -where_it_passes(normal_below, 1 - below, -40, 0) : where_it_passes(normal_below, below, -40, 0);
}

double student_below(double t, double degrees_of_freedom) {
  promise(degrees_of_freedom > 0, "degrees of freedom are above zero");
  const double n = degrees_of_freedom;
  const double tail = 0.5 * incomplete_beta(n / 2, 0.5, n / (n + t * t));
  return t > 0 ? 1 - tail : tail;
}

double student_quantile(double below, double degrees_of_freedom) {
  promise(below > 0 && below < 1, "a share lies between 0 and 1");
  if (below == 0.5) return 0;
  if (below > 0.5) return -student_quantile(1 - below, degrees_of_freedom);
  double low = -1;
  while (student_below(low, degrees_of_freedom) > below && low > -1e150) low *= 2;
  return where_it_passes([&](double t) { return student_below(t, degrees_of_freedom); }, below, low, 0);
}

double coverage_factor(double share, std::optional<double> degrees_of_freedom) {
  promise(share > 0 && share < 1, "a share lies between 0 and 1");
  const double below = (1 - share) / 2;
  return degrees_of_freedom ? -student_quantile(below, *degrees_of_freedom) : -normal_quantile(below);
}

}  // namespace sash::quantity
