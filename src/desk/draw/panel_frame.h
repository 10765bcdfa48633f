#pragma once
// What every panel stands in: a floating pane with its title and a cross. Main thread only.

#include "desk/draw/kit/panes.h"
#include "desk/draw/panels.h"

namespace sash::desk {

/// The pane of a panel, while it lives; the rest of the desk stays usable.
class PanelFrameBox {
 public:
  PanelFrameBox(Kit& kit, std::string_view id, const Rect& at, std::string_view title, PanelState& state);
  ~PanelFrameBox();
  PanelFrameBox(const PanelFrameBox&) = delete;
  PanelFrameBox& operator=(const PanelFrameBox&) = delete;

 private:
  Pane pane_;
  Rect at_;
  Kit& kit_;
};

/// A box of that size, or what fits, in the middle of `in`.
Rect middle_of(const Rect& in, float width, float height);

}  // namespace sash::desk
