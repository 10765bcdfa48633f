#pragma once
// The list of findings, drawn: counts that narrow the list, and rows that lead to their moment and their workings.
// Main thread only.

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/paint.h"
#include "desk/shown/asks.h"
#include "desk/shown/findings_page.h"

namespace sash::desk {

struct FindingsState {
  ChosenFinding chosen;
  std::optional<FindingGroup> only;
  bool follow = false;  ///< bring the chosen row into sight
};

/// Draws the list into the rest of the pane.
void draw_findings(Kit& kit, const FindingsShown& shown, FindingsState& state, Asks& asks);

/// Selects what the row is about and goes to its moment.
void go_to_finding(const FindingRow& row, Asks& asks);

}  // namespace sash::desk
