#pragma once
// Text fields. The editing itself is the toolkit's; around it: our look, our focus order, hints, faults shown in place,
// and the keys a field leaves to the page. Main thread only.

#include <optional>
#include <string>
#include <string_view>

#include "desk/draw/kit/area.h"
#include "desk/draw/kit/signs.h"

namespace sash::desk {

struct FieldLook {
  std::string_view hint = {};   ///< faint text while empty
  std::string_view label = {};  ///< printed small above; empty: none
  std::string_view fault = {};  ///< printed below in the colour of conflict; empty: none
  Icon icon = Icon::none;
  float width = 0;      ///< 0: the pane's
  int lines = 1;        ///< more than one: Enter makes a line, Ctrl+Enter commits
  bool digits = false;  ///< fixed-width face
  bool enabled = true;
  bool select_all = false;     ///< on arrival, so that typing replaces
  bool cursor_at_end = false;  ///< this frame: puts the cursor behind the text (after the page has changed it)
};

struct FieldEdit {
  bool changed = false;    ///< the text
  bool committed = false;  ///< Enter
  bool escaped = false;    ///< Escape; the text is back to what it was on arrival
  bool left = false;       ///< the keyboard went elsewhere
  bool active = false;     ///< has the keyboard
  Rect box;                ///< the field itself, for what hangs from it
  std::size_t cursor = 0;  ///< byte the cursor stands before, while active
};

/// Edits `text` at the ImGui cursor, in flow.
FieldEdit field(Kit& kit, std::string_view id, std::string& text, const FieldLook& look = {});

}  // namespace sash::desk
