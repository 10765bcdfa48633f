#pragma once
// Panes: the whole window, the regions in it, scrolling, and the splitters between them. Main thread only.

#include <optional>
#include <string_view>

#include "desk/draw/kit/area.h"

namespace sash::desk {

/// The window's one root; everything is drawn while it lives.
class Root {
 public:
  explicit Root(Kit& kit);
  ~Root();
  Root(const Root&) = delete;
  Root& operator=(const Root&) = delete;
  const Rect& rect() const { return rect_; }

 private:
  Rect rect_;
};

struct PaneLook {
  bool scrolls = true;
  bool padded = true;
  bool ground = true;  ///< false: see-through
};

/// A clipped region at `at`; what is drawn while it lives is inside it. It scrolls by the wheel and, when what has the
/// keyboard is in it, by Page Up and Page Down.
class Pane {
 public:
  Pane(Kit& kit, std::string_view id, const Rect& at, const PaneLook& look = {});
  ~Pane();
  Pane(const Pane&) = delete;
  Pane& operator=(const Pane&) = delete;
  /// The room inside the padding, as seen (not scrolled).
  const Rect& inside() const { return inside_; }
  bool hovered() const { return hovered_; }

 private:
  Rect inside_;
  bool hovered_ = false;
};

/// A card above everything else at `at`, for what must not be hidden: notices, open lists, overlays. Not modal: what
/// lies under it keeps working where it is not covered.
class Floating {
 public:
  Floating(Kit& kit, std::string_view id, const Rect& at, float padding = 0, std::optional<Colour> border = {});
  ~Floating();
  Floating(const Floating&) = delete;
  Floating& operator=(const Floating&) = delete;
};

/// A heading at the ImGui cursor over the pane's width, with room for controls at its right: gives where they may
/// begin.
Rect heading(Kit& kit, std::string_view title, float room_at_right = 0);
/// A hairline over the pane's width.
void rule(Kit& kit);
/// Moves the cursor down by `px_at_scale_one`.
void gap(Kit& kit, float px_at_scale_one);

enum class Axis { upright, level };  ///< an upright bar moves left and right

/// A bar between two panes over `bar`; `place` is what it moves, in pixels from wherever the page counts, kept within
/// `least`..`most`. Dragged, or moved by the arrows when it has the keyboard; a double click gives `usual`. True when
/// moved.
bool splitter(Kit& kit, std::string_view id, Axis axis, const Rect& bar, float& place, float least, float most,
              float usual);

}  // namespace sash::desk
