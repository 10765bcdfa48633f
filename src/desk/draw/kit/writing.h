#pragma once
// Writing: what a wrapped field remembers while it has the keyboard. The kit keeps one for each such field that was
// drawn in the last frame, so that a field which loses the keyboard can still tell its page. Main thread only.

#include <optional>
#include <string>

#include "desk/draw/kit/focus.h"
#include "desk/shown/text_edit.h"

namespace sash::desk {

struct Writing {
  WidgetHash field = 0;
  TextEdit edit;
  std::string before;           ///< the text on arrival, for Escape
  std::optional<float> column;  ///< where Up and Down keep to, across
  double since = 0;             ///< when the cursor last moved: it does not blink just then
  bool drawn = true;            ///< in this frame
};

}  // namespace sash::desk
