#pragma once
// Reconciling a system: the values closest to what was measured, in units of their uncertainty, that meet every law;
// what that says about each variable; and whether the measurements can all be true. Deterministic; const calls are safe
// from any thread. Sources: VDI 2048 (reconciliation with covariances, chi-square test); S. Narasimhan, C. Jordache,
// Data Reconciliation and Gross Error Detection (2000), ch. 7 (global, measurement and generalised likelihood ratio
// tests); JCGM 100:2008, 5.1.2 (uncertainties to first order).

#include <optional>
#include <string>
#include <vector>

#include "support/outcome.h"
#include "workings/system.h"

namespace sash::workings {

/// What the laws can do for a variable.
enum class Standing {
  exact,         ///< a constant
  redundant,     ///< measured, and the others say something about it: an error in it can be caught
  unchecked,     ///< measured, and nothing else says anything about it: an error in it can never be caught
  determined,    ///< not measured, follows from the others
  undetermined,  ///< not measured, does not follow
};

struct Estimate {
  Standing standing = Standing::undetermined;
  double value = 0;                    ///< reconciled; meaningless when undetermined
  double spread = 0;                   ///< its standard uncertainty
  double adjustment = 0;               ///< reconciled minus measured
  std::optional<double> standardised;  ///< adjustment over its own standard deviation; only when redundant
  std::optional<double> noticeable;    ///< the smallest error that would be noticed (95 % test); only when redundant
  std::optional<double> freedom;       ///< effective degrees of freedom of `spread`; nothing: as many as one likes
};

/// A chi-square test.
struct GlobalTest {
  double statistic = 0;
  int freedom = 0;         ///< 0: nothing to test
  double probability = 1;  ///< of a statistic at least as large, if every uncertainty is as stated
  bool fails(double level) const { return freedom > 0 && probability < level; }
};

/// One or two measured variables that, taken as wrong, would let the rest agree.
struct Suspect {
  struct Value {
    VariableIndex variable;
    double value;   ///< what it should have been, from all the others
    double spread;  ///< standard uncertainty of that
  };
  std::vector<Value> values;
  GlobalTest rest;  ///< the test without them
  bool settles = false;
};

/// Which measurement is most likely wrong. Best first; the first `tied` cannot be told apart.
struct Suspicion {
  std::vector<Suspect> suspects;
  std::size_t tied = 0;
};

/// One connected piece of the system.
struct Part {
  std::vector<VariableIndex> variables;
  std::vector<ConstraintIndex> constraints;
  GlobalTest test;
  std::optional<Fault> trouble;  ///< it could not be reconciled; the sentence says why
  Suspicion suspicion;           ///< only when the test fails
};

struct Reconciliation {
  std::vector<Estimate> estimates;  ///< by variable
  std::vector<Part> parts;
  GlobalTest test;  ///< of all parts together
};

struct ReconcileOptions {
  double level = 0.05;        ///< false-alarm rate of the global test of each part
  bool find_suspects = true;  ///< where the test fails
};

/// Fails: as System::sound. What cannot be reconciled in one part is said there and spoils no other part.
Outcome<Reconciliation> reconcile(const System& system, const ReconcileOptions& options = {});

}  // namespace sash::workings
