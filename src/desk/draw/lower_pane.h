#pragma once
// The lower right pane: the findings of the whole record, or the proposals that wait to be looked at. Main thread only.

#include "desk/draw/findings.h"
#include "desk/draw/proposals.h"

namespace sash::desk {

struct LowerState {
  enum class Page { findings, proposals };
  Page page = Page::findings;
  FindingsState findings;
  bool follow_proposal = false;  ///< bring the selected proposal into sight
};

struct LowerFrame {
  const FindingsShown& findings;
  const ProposalsShown& proposals;
  const Selection& selection;
  bool read_only = false;
};

void draw_lower(Kit& kit, const Rect& at, const LowerFrame& frame, LowerState& state, Asks& asks);

}  // namespace sash::desk
