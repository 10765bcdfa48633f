#pragma once
// Where the search starts: the unmeasured values that follow, one equation at a time, from the measured ones.

#include <vector>

#include "workings/inner/coordinates.h"

namespace sash::workings::inner {

/// Values for all nodes of the problem. What cannot be propagated starts at its hint, or at a value of ordinary size.
std::vector<double> starting_values(const Problem& problem, const Coordinates& coordinates);

}  // namespace sash::workings::inner
