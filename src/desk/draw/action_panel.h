#pragma once
// The panel that finds an action by its words and does it. Main thread only.

#include "desk/draw/panels.h"

namespace sash::desk {

/// Draws the panel inside `at`; what is chosen is asked for, and the panel closes.
void draw_action_panel(Kit& kit, const Rect& at, PanelState& state, Asks& asks);

}  // namespace sash::desk
