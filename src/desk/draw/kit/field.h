#pragma once
// Text fields: of one line, and of as many rows as a text takes. Our look, our focus order, hints, faults shown in
// place, and the keys a field leaves to the page. Main thread only.

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

struct WrappedLook {
  FieldLook field = {};
  std::size_t least_rows = 1;
  bool enter_commits = true;  ///< then Shift+Enter begins a line; otherwise Enter does. Ctrl+Enter always commits
};

/// Edits `text`, broken into rows, at the ImGui cursor, in flow; the field is as high as the text needs. `digits` and
/// `cursor_at_end` have no meaning here.
FieldEdit wrapped_field(Kit& kit, std::string_view id, std::string& text, const WrappedLook& look = {});

/// How high wrapped_field() will be for this text at the ImGui cursor, label and fault not counted.
float wrapped_height(const Kit& kit, const std::string& text, const WrappedLook& look);

}  // namespace sash::desk
