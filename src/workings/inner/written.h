#pragma once
// Writes out how one variable of a network follows from what was stated: m = ρ V = 1.42 g/mL × 20.0 mL = 28.4 g.

#include <map>
#include <string>

#include "workings/inner/network.h"
#include "workings/reconcile.h"
#include "workings/writing.h"

namespace sash::workings::inner {

/// Index in Report::constants by Quantity::key.
using ConstantIndex = std::map<std::string, std::size_t>;

/// The lines that lead to all of `wanted`, and none that do not; empty when none follows step by step. `estimates` are
/// of the network's variables: their uncertainties tell how many digits to show.
Workings written_out(const Network& network, const std::vector<Estimate>& estimates, const FigureBook& book,
                     const std::vector<VariableIndex>& wanted, const ConstantIndex& constants);

}  // namespace sash::workings::inner
