#include "quantity/propagate.h"

#include <algorithm>
#include <cmath>

#include "quantity/inner/second_order.h"
#include "quantity/student.h"
#include "support/check.h"

namespace sash::quantity {
namespace {

std::vector<double> best_of(std::span<const Input> inputs) {
  std::vector<double> out;
  for (const Input& input : inputs) out.push_back(input.best);
  return out;
}

Fault no_value(const std::string& near) {
  return Fault::of(Code::not_finite,
                   "The result cannot be computed near " + near + ": the formula has no finite value there.", near);
}

/// How far to step an input for its derivative: a quarter of its uncertainty, or a small part of itself when it is
/// exact.
double first_step(const Input& input) {
  if (input.spread.standard > 0) return input.spread.standard / 4;
  return input.best != 0 ? std::abs(input.best) * 1e-4 : 1e-4;
}

/// Central differences at h and h/2 cancel the h² error between them (Richardson).
std::optional<double> slope(const Model& model, std::vector<double>& at, std::size_t i, double h) {
  const double x = at[i];
  const auto difference = [&](double step) {
    at[i] = x + step;
    const double above = model(at);
    at[i] = x - step;
    const double below = model(at);
    at[i] = x;
    const double width = (x + step) - (x - step);
    return (above - below) / width;
  };
  const double coarse = difference(h);
  const double fine = difference(h / 2);
  const double out = (4 * fine - coarse) / 3;
  return std::isfinite(out) ? std::optional(out) : std::nullopt;
}

/// Shrinks the step when the model has no value that far out: near a limit it may still have a slope.
std::optional<double> slope(const Model& model, std::vector<double>& at, const Input& input, std::size_t i) {
  for (double h = first_step(input); h > std::abs(input.best) * 1e-9 && h > 0; h /= 16) {
    if (const auto out = slope(model, at, i, h)) return out;
  }
  return std::nullopt;
}

double covariance_of(std::span<const Input> inputs, const Correlations& correlations, std::size_t i, std::size_t j) {
  const double r = i == j ? 1 : correlations.of(i, j);
  return r * inputs[i].spread.standard * inputs[j].spread.standard;
}

std::optional<double> effective_degrees(std::span<const BudgetRow> budget, double variance,
                                        const Correlations& correlations) {
  double sum = 0;
  for (std::size_t i = 0; i < budget.size(); ++i) {
    if (!budget[i].degrees_of_freedom) continue;
    // The formula holds for independent inputs only; for others no number is better than a wrong one.
    if (correlations.involves(i)) return std::nullopt;
    sum += std::pow(budget[i].contribution, 4) / *budget[i].degrees_of_freedom;
  }
  return sum > 0 ? std::optional(variance * variance / sum) : std::nullopt;
}

}  // namespace

void Correlations::set(std::size_t a, std::size_t b, double r) {
  promise(a != b && a < size_ && b < size_, "a correlation is between two different inputs");
  promise(r >= -1 && r <= 1, "a correlation lies between -1 and 1");
  upper_[std::min(a, b) * size_ + std::max(a, b)] = r;
}

double Correlations::of(std::size_t a, std::size_t b) const {
  return a < size_ && b < size_ ? upper_[std::min(a, b) * size_ + std::max(a, b)] : 0;
}

bool Correlations::none() const {
  return std::all_of(upper_.begin(), upper_.end(), [](double r) { return r == 0; });
}

bool Correlations::involves(std::size_t input) const {
  for (std::size_t other = 0; other < size_; ++other) {
    if (other != input && of(input, other) != 0) return true;
  }
  return false;
}

double Propagated::expanded(double share) const {
  std::optional<double> degrees = degrees_of_freedom;
  if (degrees) degrees = std::max(1.0, std::floor(*degrees));
  return standard * coverage_factor(share, degrees);
}

Spread Propagated::as_spread(std::string reason) const {
  Spread out;
  out.standard = standard;
  out.shape = standard == 0 ? Shape::exact : degrees_of_freedom ? Shape::student : Shape::normal;
  out.degrees_of_freedom = degrees_of_freedom;
  out.reason = std::move(reason);
  return out;
}

Outcome<std::vector<double>> sensitivities(const Model& model, std::span<const Input> inputs) {
  std::vector<double> at = best_of(inputs);
  std::vector<double> out;
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    const auto found = slope(model, at, inputs[i], i);
    if (!found && inputs[i].spread.standard > 0) return no_value(inputs[i].name);
    out.push_back(found.value_or(0));  // an exact input contributes nothing, whatever its slope
  }
  return out;
}

Outcome<Propagated> propagate(const Model& model, std::span<const Input> inputs, const PropagateOptions& options) {
  promise(options.derivatives.empty() || options.derivatives.size() == inputs.size(), "one derivative an input");
  Propagated out;
  out.best = model(best_of(inputs));
  if (!std::isfinite(out.best)) return no_value("the best values");
  std::vector<double> slopes(options.derivatives.begin(), options.derivatives.end());
  if (slopes.empty()) {
    auto computed = sensitivities(model, inputs);
    if (!computed) return computed.fault();
    slopes = std::move(computed).value();
  }
  double variance = 0;
  std::vector<double> shares(inputs.size(), 0.0);
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    for (std::size_t j = 0; j < inputs.size(); ++j) {
      shares[i] += slopes[i] * slopes[j] * covariance_of(inputs, options.correlations, i, j);
    }
    variance += shares[i];
  }
  double scale = 0;  // of the variance without any cancelling, to tell rounding from contradiction
  for (std::size_t i = 0; i < inputs.size(); ++i)
    scale += slopes[i] * slopes[i] * covariance_of(inputs, options.correlations, i, i);
  if (variance < -1e-9 * scale) {
    return Fault::of(Code::impossible, "The correlations contradict each other: they give a negative variance.");
  }
  variance = std::max(variance, 0.0);
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    const Spread& spread = inputs[i].spread;
    out.budget.push_back({inputs[i].name, inputs[i].best, spread.standard, spread.degrees_of_freedom, slopes[i],
                          std::abs(slopes[i]) * spread.standard, variance > 0 ? shares[i] / variance : 0,
                          spread.reason});
  }
  out.degrees_of_freedom = effective_degrees(out.budget, variance, options.correlations);
  if (options.second_order) {
    promise(options.correlations.none(), "second-order terms are for independent inputs");
    const double more = inner::second_order_variance(model, inputs, slopes);
    if (!std::isfinite(more)) return no_value("the best values, two uncertainties away");
    variance = std::max(variance + more, 0.0);
  }
  out.standard = std::sqrt(variance);
  return out;
}

double Joint::standard(std::size_t i) const { return std::sqrt(std::max(covariance[i * best.size() + i], 0.0)); }

double Joint::correlation(std::size_t i, std::size_t j) const {
  const double both = standard(i) * standard(j);
  return both > 0 ? std::clamp(covariance[i * best.size() + j] / both, -1.0, 1.0) : 0;
}

Outcome<Joint> propagate_jointly(std::span<const Model> models, std::span<const Input> inputs,
                                 const Correlations& correlations) {
  Joint out;
  std::vector<std::vector<double>> slopes;
  for (const Model& model : models) {
    out.best.push_back(model(best_of(inputs)));
    if (!std::isfinite(out.best.back())) return no_value("the best values");
    auto computed = sensitivities(model, inputs);
    if (!computed) return computed.fault();
    slopes.push_back(std::move(computed).value());
  }
  const std::size_t count = models.size();
  out.covariance.assign(count * count, 0.0);
  for (std::size_t a = 0; a < count; ++a) {
    for (std::size_t b = 0; b < count; ++b) {
      double sum = 0;
      for (std::size_t i = 0; i < inputs.size(); ++i) {
        for (std::size_t j = 0; j < inputs.size(); ++j) {
          sum += slopes[a][i] * slopes[b][j] * covariance_of(inputs, correlations, i, j);
        }
      }
      out.covariance[a * count + b] = sum;
    }
  }
  return out;
}

}  // namespace sash::quantity
