#pragma once
// The rows of the pin editor: one property each, for whatever kind of pin is selected. Main thread only.

#include "desk/draw/editor.h"

namespace sash::desk {

/// Draws the form of the selected pin at the ImGui cursor; what a row changes is asked for.
/// Requires: `state` holds the texts of `shown.thing`.
void draw_form(Kit& kit, const EditorShown& shown, EditorState& state, Asks& asks);

}  // namespace sash::desk
