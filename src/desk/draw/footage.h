#pragma once
// The footage pane: the picture with the callouts a viewer will read over it, the position bar, the transport.
// Main thread only.

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/paint.h"
#include "desk/draw/surfaces.h"
#include "desk/shown/asks.h"
#include "desk/shown/footage_page.h"

namespace sash::desk {

struct FootageState {
  bool scrubbing = false;  ///< the mouse is down on the position bar
  std::string find_path;   ///< typed for missing footage
};

struct FootageFrame {
  const TransportShown& shown;
  const BarShown& bar;
  const Film& film;
  const session::SessionView& view;
  const Selection& selection;
};

/// Draws into `at` from its top; gives where the rest of the pane begins (below the transport).
float draw_footage(Kit& kit, const Rect& at, const FootageFrame& frame, FootageState& state, Surfaces& surfaces,
                   Asks& asks);

/// How many figures the bar can show side by side at this width.
std::size_t bar_slots(const Metrics& m, float width);

}  // namespace sash::desk
