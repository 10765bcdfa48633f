#pragma once
// Elimination of the unmeasured variables from linearised constraints: what is left ties measured variables only, and
// is all that can ever contradict. Says on the way which unmeasured variables are determined. Pure values. Source: C.
// M. Crowe et al., AIChE J. 29 (1983) 881 (projecting the unmeasured variables out).

#include <vector>

#include "workings/inner/sparse.h"

namespace sash::workings::inner {

/// wanted * du + measured * z = right.
struct LinearRow {
  SparseRow wanted;
  SparseRow measured;
  double right = 0;
  int origin = 0;  ///< index of the constraint it came from
};

/// An unmeasured variable, solved for: du[wanted] = row.right - row.measured * z - row.wanted * du.
/// The wanted columns of its row are solved by later pivots, or are free.
struct Pivot {
  int wanted;
  LinearRow row;
};

struct Eliminated {
  std::vector<Pivot> pivots;       ///< in the order of elimination
  std::vector<int> pivot_of;       ///< by wanted column: index into pivots, or -1 for a free one
  std::vector<LinearRow> reduced;  ///< rows without wanted entries
  std::vector<bool> determined;    ///< by wanted column
};

Eliminated eliminate(std::vector<LinearRow> rows, int wanted_columns);

/// The steps of the wanted variables that belong to `z`; free ones do not move.
std::vector<double> back_substitute(const Eliminated& eliminated, const std::vector<double>& z);

/// The determined variable `wanted` as a combination of z. Requires: determined.
SparseRow combination_of(const Eliminated& eliminated, int wanted);

}  // namespace sash::workings::inner
