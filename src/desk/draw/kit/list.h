#pragma once
// List: many rows of one height, of which only those in sight are drawn, with a chosen row that the mouse and the
// arrows move. For the running sheet's elastic rows see the page itself. Main thread only.

#include <functional>
#include <optional>
#include <string_view>

#include "desk/draw/kit/area.h"

namespace sash::desk {

struct ListRow {
  std::size_t index = 0;
  Rect at;
  bool chosen = false;
  bool hovered = false;
};

struct ListChange {
  bool moved = false;      ///< `chosen` is another row
  bool activated = false;  ///< double click or Enter on the chosen row
  std::optional<std::size_t> right_clicked;
};

struct ListLook {
  float row_height = 0;              ///< 0: a row
  bool follow = false;               ///< this frame: bring the chosen row into sight (the page moved it)
  std::string_view empty_note = {};  ///< said when there are no rows
};

/// Draws `count` rows at the cursor into the rest of the pane; each row is `id.INDEX` in the registry.
ListChange list(Kit& kit, std::string_view id, std::size_t count, std::optional<std::size_t>& chosen,
                const ListLook& look, const std::function<void(Painter&, const ListRow&)>& draw_row);

}  // namespace sash::desk
