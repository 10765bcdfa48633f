#pragma once
// The law of propagation of uncertainty: from inputs with standard uncertainties to a result with one, with the budget
// that shows where it came from. First order, correlated inputs included; second-order terms on request. Where the
// model bends too much for that, monte_carlo.h says so. Numbers are in whatever units the model expects. Pure; safe
// from any thread as long as the model is. Sources: JCGM 100:2008 5.1.2, 5.2.2, G.4.1, H.2; JCGM 102:2011 6.2.

#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "quantity/spread.h"
#include "support/outcome.h"

namespace sash::quantity {

/// One input of a model.
struct Input {
  std::string name;  ///< for budgets and sentences
  double best = 0;
  Spread spread;
};

/// The measurement model: inputs in order, one number out; NaN where it has no value.
using Model = std::function<double(std::span<const double>)>;

/// Correlation coefficients between inputs; all that are not set are zero.
class Correlations {
 public:
  Correlations() = default;
  explicit Correlations(std::size_t inputs) : size_(inputs), upper_(inputs * inputs, 0.0) {}

  /// Requires: a != b, both below the number of inputs; -1 <= r <= 1.
  void set(std::size_t a, std::size_t b, double r);
  double of(std::size_t a, std::size_t b) const;
  bool none() const;
  bool involves(std::size_t input) const;
  std::size_t size() const { return size_; }

 private:
  std::size_t size_ = 0;
  std::vector<double> upper_;
};

/// One row of an uncertainty budget.
struct BudgetRow {
  std::string name;
  double best = 0;
  double standard = 0;
  std::optional<double> degrees_of_freedom;
  double sensitivity = 0;   ///< ∂f/∂x at the best values
  double contribution = 0;  ///< |sensitivity|·standard, in the unit of the result
  double share = 0;         ///< of the variance, correlation terms split evenly between both inputs; sums to 1
  std::string reason;
};

struct Propagated {
  double best = 0;
  double standard = 0;
  std::optional<double> degrees_of_freedom;  ///< effective; nothing: infinite
  std::vector<BudgetRow> budget;             ///< in the order of the inputs

  /// Half-width of the interval holding `share` of the distribution, by normal or Student's t. Degrees of freedom are
  /// truncated to a whole number as in GUM G.4.1, and never below one. Requires: 0 < share < 1.
  double expanded(double share = 0.95) const;
  /// The result as one number's spread, for feeding on.
  Spread as_spread(std::string reason) const;
};

struct PropagateOptions {
  Correlations correlations;
  std::span<const double> derivatives;  ///< one per input when known; else numeric
  bool second_order = false;            ///< add the terms of GUM 5.1.2 note; for independent inputs only
};

/// Propagates `inputs` through `model`.
/// Fails: Code::not_finite, naming the input at which the model has no value; Code::impossible when the correlations
/// contradict each other (negative variance). Requires: derivatives empty or one per input.
Outcome<Propagated> propagate(const Model& model, std::span<const Input> inputs, const PropagateOptions& options = {});

/// Several results of the same inputs, and how they hang together.
struct Joint {
  std::vector<double> best;
  std::vector<double> covariance;  ///< row by row, best.size() squared

  double standard(std::size_t i) const;
  /// Zero where either result is exact.
  double correlation(std::size_t i, std::size_t j) const;
};

/// Fails: as propagate.
Outcome<Joint> propagate_jointly(std::span<const Model> models, std::span<const Input> inputs,
                                 const Correlations& correlations = {});

/// ∂f/∂x of every input at the best values: central differences over a fraction of the uncertainty, extrapolated.
/// Fails: Code::not_finite, naming the input.
Outcome<std::vector<double>> sensitivities(const Model& model, std::span<const Input> inputs);

}  // namespace sash::quantity
