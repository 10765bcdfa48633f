#pragma once
// The workings pane, drawn: relations of the selection with written-out workings, bars and explanations; or the
// relation being put together. Main thread only.

#include <map>
#include <string>
#include <vector>

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/paint.h"
#include "desk/draw/sheet.h"
#include "desk/shown/asks.h"
#include "desk/shown/wiring.h"
#include "desk/shown/workings_page.h"

namespace sash::desk {

struct WorkingsState {
  std::optional<WiringState> wiring;
  std::optional<model::RelationId> plotted;  ///< the relation whose plot is open
  std::optional<double> plot_reading;        ///< where its reading line stands, 0 to 1
};

/// Draws into `at`; `anchors` gets where figures stand, for the leader lines from the sheet.
void draw_workings(Kit& kit, const Rect& at, const WorkingsShown& shown, const session::SessionView& view,
                   WorkingsState& state, Asks& asks, std::vector<FigureAnchor>& anchors);

/// Begins a new relation, or the change of one there is.
void begin_wiring(WorkingsState& state);
void change_wiring(WorkingsState& state, const model::Relation& relation);

}  // namespace sash::desk
