#pragma once
// What stands above the running sheet: the search, what walks pins and proposals, and the heads of the columns. Main
// thread only.

#include "desk/draw/sheet.h"

namespace sash::desk {

void draw_sheet_tools(Kit& kit, const Rect& at, const SheetFrame& frame, SheetState& state, Asks& asks);
void draw_column_heads(Kit& kit, const Rect& at, const SheetColumns& columns);

}  // namespace sash::desk
