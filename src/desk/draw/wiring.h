#pragma once
// A relation being put together: its type, its slots, what was put into them, and what it is given besides. Main thread
// only.

#include <optional>
#include <vector>

#include "desk/draw/kit/kit.h"
#include "desk/draw/sheet.h"
#include "desk/shown/asks.h"
#include "desk/shown/wiring.h"
#include "session/view.h"

namespace sash::desk {

/// Draws at the ImGui cursor over the pane's width. Requires: `wiring` holds one; it is gone when the person left it.
void draw_wiring(Kit& kit, const session::SessionView& view, std::optional<WiringState>& wiring, Asks& asks,
                 std::vector<FigureAnchor>& anchors);

}  // namespace sash::desk
