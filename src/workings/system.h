#pragma once
// System: variables, some measured, and the laws that tie them. What reconcile() works on; knows no chemistry.
// A value type; const calls are safe from any thread.

#include <optional>
#include <string>
#include <vector>

#include "support/outcome.h"
#include "workings/law.h"

namespace sash::workings {

using VariableIndex = std::size_t;
using ConstraintIndex = std::size_t;

/// How a variable is adjusted. Logarithmic suits what only multiplies and is positive: its adjustment is then a factor,
/// and a product becomes linear. Plain suits what adds.
enum class Scale { plain, logarithmic };

struct Variable {
  enum class Status {
    measured,    ///< `value` with standard uncertainty `spread` > 0
    unmeasured,  ///< wanted; `value` is only where the search starts, when `has_start`
    constant,    ///< exact
  };
  std::string name;  ///< for sentences
  Status status = Status::unmeasured;
  Scale scale = Scale::plain;
  double value = 0;
  double spread = 0;
  bool has_start = false;
  bool positive = false;  ///< has no meaning at zero or below
  bool suspect = true;    ///< measured, and may be named as the one that is wrong: not so a constant of nature
  std::optional<double> freedom = {};  ///< degrees of freedom of the spread; nothing: as many as one likes

  static Variable measured(std::string name, double value, double spread, Scale scale = Scale::plain);
  static Variable wanted(std::string name, std::optional<double> start = {}, Scale scale = Scale::plain);
  static Variable exact(std::string name, double value);
};

struct Constraint {
  std::string name;  ///< for sentences
  std::vector<VariableIndex> variables;
  LawPtr law;
};

/// Correlation coefficient of two measured variables (of their logarithms, where both are logarithmic).
struct Correlation {
  VariableIndex a;
  VariableIndex b;
  double coefficient;
};

class System {
 public:
  /// A measured variable without spread becomes a constant. A logarithmic one is positive.
  VariableIndex add(Variable variable);
  /// Requires: every variable exists and none is named twice.
  ConstraintIndex add(Constraint constraint);
  void correlate(VariableIndex a, VariableIndex b, double coefficient);

  const std::vector<Variable>& variables() const { return variables_; }
  const std::vector<Constraint>& constraints() const { return constraints_; }
  const std::vector<Correlation>& correlations() const { return correlations_; }
  Variable& variable(VariableIndex i) { return variables_.at(i); }

  /// Fails: Code::not_finite (a value or spread that is not finite, or so large that its square is not);
  /// Code::out_of_range (a negative spread, a positive variable at or below zero, a correlation beyond one).
  /// The sentence names the variable; all offenders are in `others`.
  Done sound() const;

 private:
  std::vector<Variable> variables_;
  std::vector<Constraint> constraints_;
  std::vector<Correlation> correlations_;
};

}  // namespace sash::workings
