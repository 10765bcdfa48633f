#pragma once
// What the whole network adds to the findings: conflicts that show only in several relations together, and who is most
// likely wrong.

#include <vector>

#include "workings/inner/judge.h"

namespace sash::workings::inner {

/// Adds culprits to the conflicting findings, and a finding of its own for each part of the network that cannot all be
/// true although each relation by itself could.
void explain_conflicts(std::vector<Finding>& findings, const std::vector<Drafted>& drafted, const FigureBook& book,
                       const Network& network, const Reconciliation& reconciliation);

}  // namespace sash::workings::inner
