#include "quantity/spread.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "quantity/show.h"
#include "quantity/student.h"
#include "support/check.h"

namespace sash::quantity {
namespace {

std::string with_unit(double number, std::string_view symbol) {
  std::string out = show_number(number);
  if (!symbol.empty()) out += " " + std::string(symbol);
  return out;
}

}  // namespace

Spread Spread::scaled(double factor) const {
  promise(factor > 0, "a spread is scaled by a positive factor");
  Spread out = *this;
  out.standard *= factor;
  out.half_width *= factor;
  return out;
}

Spread exactly(std::string reason) {
  Spread out;
  out.reason = std::move(reason);
  return out;
}

Outcome<Spread> stated(double half_width, Meant meant, std::string_view unit_symbol,
                       std::optional<double> degrees_of_freedom) {
  if (!std::isfinite(half_width)) return Fault::of(Code::not_finite, "The plus-minus is not a finite number.");
  if (half_width < 0) return Fault::of(Code::out_of_range, "The plus-minus is negative; give its size without a sign.");
  if (degrees_of_freedom && !(*degrees_of_freedom > 0)) {
    return Fault::of(Code::out_of_range, "The degrees of freedom must be above zero.");
  }
  if (half_width == 0) return exactly("Stated as exact.");
  Spread out;
  out.degrees_of_freedom = degrees_of_freedom;
  const std::string limits = "Stated as ±" + with_unit(half_width, unit_symbol);
  switch (meant) {
    case Meant::limits:
      out.shape = Shape::rectangular;
      out.half_width = half_width;
      out.standard = half_width / std::numbers::sqrt3;
      out.reason = limits + ", read as limits within which no value is likelier (divided by √3).";
      break;
    case Meant::limits_peaked:
      out.shape = Shape::triangular;
      out.half_width = half_width;
      out.standard = half_width / std::sqrt(6.0);
      out.reason = limits + ", read as limits with the middle likelier (divided by √6).";
      break;
    case Meant::one_standard:
      out.standard = half_width;
      out.reason = limits + ", read as one standard deviation.";
      break;
    case Meant::two_standard:
      out.standard = half_width / 2;
      out.reason = limits + ", read as expanded with k = 2.";
      break;
    case Meant::ninety_five:
      out.standard = half_width / coverage_factor(0.95, degrees_of_freedom);
      out.reason = limits + ", read as a 95 % interval.";
      break;
  }
  if (out.shape == Shape::exact) out.shape = degrees_of_freedom ? Shape::student : Shape::normal;
  return out;
}

Outcome<Mean> mean_of(std::span<const double> readings) {
  if (readings.size() < 2) {
    return Fault::of(Code::out_of_range, "One reading says nothing about its scatter; give at least two.");
  }
  const auto n = static_cast<double>(readings.size());
  double sum = 0;
  for (const double x : readings) sum += x;
  const double mean = sum / n;
  double squares = 0;
  for (const double x : readings) squares += (x - mean) * (x - mean);
  if (!std::isfinite(squares)) return Fault::of(Code::not_finite, "A reading is not a finite number.");
  Spread spread;
  spread.standard = std::sqrt(squares / (n - 1) / n);
  spread.shape = spread.standard > 0 ? Shape::student : Shape::exact;
  spread.degrees_of_freedom = n - 1;
  spread.reason = "Standard deviation of the mean of " + std::to_string(readings.size()) + " readings.";
  return Mean{mean, std::move(spread)};
}

double correlation_of(std::span<const double> a, std::span<const double> b) {
  promise(a.size() == b.size() && a.size() >= 2, "readings of both were taken together");
  const auto mean = [](std::span<const double> readings) {
    double sum = 0;
    for (const double x : readings) sum += x;
    return sum / static_cast<double>(readings.size());
  };
  const double mean_a = mean(a);
  const double mean_b = mean(b);
  double square_a = 0;
  double square_b = 0;
  double cross = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    square_a += (a[i] - mean_a) * (a[i] - mean_a);
    square_b += (b[i] - mean_b) * (b[i] - mean_b);
    cross += (a[i] - mean_a) * (b[i] - mean_b);
  }
  const double both = std::sqrt(square_a * square_b);
  return both > 0 ? std::clamp(cross / both, -1.0, 1.0) : 0;
}

Spread combined(std::span<const Spread> contributions) {
  Spread out;
  double variance = 0;
  double share = 0;  // sum of u^4/nu, Welch-Satterthwaite's denominator
  for (const Spread& part : contributions) {
    const double square = part.standard * part.standard;
    variance += square;
    if (part.degrees_of_freedom) share += square * square / *part.degrees_of_freedom;
    if (!part.reason.empty()) out.reason += (out.reason.empty() ? "" : " ") + part.reason;
  }
  out.standard = std::sqrt(variance);
  if (variance > 0) out.shape = share > 0 ? Shape::student : Shape::normal;
  if (share > 0) out.degrees_of_freedom = variance * variance / share;
  return out;
}

}  // namespace sash::quantity
