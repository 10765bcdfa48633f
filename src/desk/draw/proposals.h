#pragma once
// The list of proposals, drawn: each with its reason and one press to accept or refuse it. Main thread only.

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/paint.h"
#include "desk/shown/asks.h"
#include "desk/shown/proposals_page.h"

namespace sash::desk {

/// Draws the list into the rest of the pane. `follow`: bring the selected row into sight.
void draw_proposals(Kit& kit, const ProposalsShown& shown, const Selection& selection, bool read_only, bool follow,
                    Asks& asks);

}  // namespace sash::desk
