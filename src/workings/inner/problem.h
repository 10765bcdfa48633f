#pragma once
// Problem: one connected piece of a system, with indices of its own, small enough to copy and alter (an exact variable
// freed, a scale changed). Borrows the laws: the system outlives it.

#include <optional>
#include <vector>

#include "workings/system.h"

namespace sash::workings::inner {

struct Node {
  Variable::Status status;
  Scale scale;
  double value;
  double spread;
  bool has_start;
  bool positive;
  bool suspect;
  std::optional<double> freedom;
};

struct Equation {
  std::vector<int> members;  ///< nodes, in the order of the law's variables
  const Law* law;
};

struct Tie {
  int a;
  int b;
  double coefficient;
};

struct Problem {
  std::vector<Node> nodes;
  std::vector<Equation> equations;
  std::vector<Tie> ties;                     ///< correlations
  std::vector<VariableIndex> variables;      ///< by node: where it is in the system
  std::vector<ConstraintIndex> constraints;  ///< by equation: where it is in the system
  bool few_readings = false;                 ///< some node has few degrees of freedom
};

/// The pieces of `system`: what shares no variable but constants is solved apart. In the order of their first variable;
/// constraints on constants alone are pieces of their own, at the end.
std::vector<Problem> split(const System& system);

}  // namespace sash::workings::inner
