#pragma once
// The rows at the top and foot of the desk, drawn. Main thread only.

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/paint.h"
#include "desk/shown/asks.h"
#include "desk/shown/findings_page.h"
#include "desk/shown/top_page.h"

namespace sash::desk {

/// The record's name, undo and redo, the summary of findings, and what opens a panel.
void draw_top(Kit& kit, const Rect& at, const TopShown& shown, const FindingsShown* findings, Asks& asks);

/// A row that says why nothing can be changed.
void draw_read_only(Kit& kit, const Rect& at, const std::string& why);

void draw_foot(Kit& kit, const Rect& at, const FootShown& shown, Asks& asks);

}  // namespace sash::desk
