#pragma once
// A narration line edited where it stands in the sheet, or new narration written at the playhead. Main thread only.

#include <optional>

#include "desk/draw/sheet.h"

namespace sash::desk {

/// Draws the editor over `place`, inside the sheet `at`. What is kept is asked for; `editing` is emptied when it is
/// done with, and when the line is no longer there or not shown (`place` is nothing).
void draw_line_edit(Kit& kit, const Rect& at, const std::optional<Rect>& place, const model::Record& record,
                    std::optional<SheetState::LineEdit>& editing, Asks& asks);

}  // namespace sash::desk
