#include "workings/statistics.h"

#include <cmath>

#include "support/check.h"

namespace sash::workings {
namespace {

constexpr int most_terms = 10000;
constexpr double small = 1e-16;

// A&S 6.5.29, the series for the lower function; good below x = a + 1.
double lower_by_series(double a, double x) {
  double term = 1 / a;
  double sum = term;
  for (int n = 1; n < most_terms && term > small * sum; ++n) {
    term *= x / (a + n);
    sum += term;
  }
  return sum * std::exp(-x + a * std::log(x) - std::lgamma(a));
}

// A&S 6.5.31, the continued fraction for the upper function, evaluated from the front (modified Lentz).
double upper_by_fraction(double a, double x) {
  constexpr double tiny = 1e-300;
  double b = x + 1 - a;
  double c = 1 / tiny;
  double d = 1 / b;
  double h = d;
  for (int n = 1; n < most_terms; ++n) {
    const double an = -n * (n - a);
    b += 2;
    d = an * d + b;
    if (std::fabs(d) < tiny) d = tiny;
    c = b + an / c;
    if (std::fabs(c) < tiny) c = tiny;
    d = 1 / d;
    const double step = d * c;
    h *= step;
    if (std::fabs(step - 1) < small) break;
  }
  return h * std::exp(-x + a * std::log(x) - std::lgamma(a));
}

// The argument at which the decreasing function `tail_of` takes the value `tail`.
template <class Tail>
double inverse(Tail tail_of, double tail) {
  double high = 1;
  while (tail_of(high) > tail) high *= 2;
  double low = 0;
  for (int i = 0; i < 200 && high - low > 1e-14 * high; ++i) {
    const double middle = (low + high) / 2;
    (tail_of(middle) > tail ? low : high) = middle;
  }
  return (low + high) / 2;
}

}  // namespace

double chi_square_tail(double statistic, int freedom) {
  promise(freedom > 0 && statistic >= 0, "a chi-square has degrees of freedom and is not negative");
  const double a = freedom / 2.0;
  const double x = statistic / 2;
  if (x == 0) return 1;
  return x < a + 1 ? 1 - lower_by_series(a, x) : upper_by_fraction(a, x);
}

double chi_square_limit(double tail, int freedom) {
  promise(tail > 0 && tail < 1, "a tail probability lies between 0 and 1");
  return inverse([&](double x) { return chi_square_tail(x, freedom); }, tail);
}

double normal_two_sided_tail(double deviate) { return std::erfc(std::fabs(deviate) / std::sqrt(2.0)); }

double normal_two_sided_limit(double tail) {
  promise(tail > 0 && tail < 1, "a tail probability lies between 0 and 1");
  return inverse(normal_two_sided_tail, tail);
}

}  // namespace sash::workings
