#pragma once
// Finding the measurement that is most likely wrong: each is tried as unknown.

#include "workings/inner/solve.h"
#include "workings/reconcile.h"

namespace sash::workings::inner {

/// Requires: `solution` is the settled solution of `problem`, with freedom above 0.
Suspicion find_suspects(const Problem& problem, const Solution& solution, double level);

GlobalTest test_of(const Solution& solution);

}  // namespace sash::workings::inner
