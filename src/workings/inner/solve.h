#pragma once
// Solving one problem: least squares of the measured deviates under the equations, by successive linearisation with a
// line search on a merit function. Pure.
// Source: J. Nocedal, S. J. Wright, Numerical Optimization, 2nd ed. (2006), ch. 18 (merit function, penalty weight).

#include <memory>
#include <vector>

#include "support/outcome.h"
#include "workings/inner/coordinates.h"
#include "workings/inner/redundancy.h"

namespace sash::workings::inner {

struct Solution {
  enum class End {
    settled,
    contradictory,  ///< equations that no values of the variables that may move can meet
    lost,           ///< the search did not arrive
  };
  End end = End::settled;
  int worst_equation = -1;  ///< where it failed, unless settled
  Coordinates coordinates;
  State state;
  std::vector<double> x;
  double statistic = 0;  ///< sum of squared deviates
  Eliminated eliminated;
  Redundancy redundancy;

  int freedom() const { return redundancy.freedom(); }
};

/// Requires: values of the nodes are sound (System::sound).
/// Fails: as Coordinates::of.
Outcome<Solution> solve(const Problem& problem);

/// The same, started at `x` instead of by propagation.
Outcome<Solution> solve_from(const Problem& problem, const std::vector<double>& x);

}  // namespace sash::workings::inner
