#pragma once
// The running sheet, drawn: only what is in sight, whatever the length of the film. Answers the mouse for the whole
// sheet: a click goes there, a drag scrubs, a drag along words selects them, a drag of a pin, of an end of its span or
// of a line's edge moves it, a double click edits. Main thread only.

#include <optional>
#include <string>
#include <vector>

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/paint.h"
#include "desk/draw/surfaces.h"
#include "desk/shown/asks.h"
#include "desk/shown/pin_drag.h"
#include "desk/shown/sheet.h"

namespace sash::desk {

/// What the sheet remembers between frames.
struct SheetState {
  double top = -12;                ///< sheet pixel at the upper edge
  bool follow = true;              ///< keeps the playhead in sight
  std::optional<double> glide_to;  ///< where `top` is moving
  std::string search;
  bool to_search = false;  ///< the search field wants the keyboard

  enum class Drag { none, pressed, scrub, words, pin };
  Drag drag = Drag::none;
  ImVec2 press{};  ///< where the mouse went down
  std::optional<std::uint32_t> pressed_block;
  std::size_t pressed_byte = 0;         ///< of the line that was pressed
  std::optional<PinGrip> grip;          ///< what a drag would move
  std::optional<model::Place> dragged;  ///< where the dragged pin lies by now
  bool given_up = false;                ///< the drag was left with Escape; the hand still presses

  struct LineEdit {
    model::LineId line;  ///< unknown: narration that is being written at the playhead
    std::string text;
    bool fresh = true;
  };
  std::optional<LineEdit> editing;
};

/// Where figures stood, for the leader lines to the workings.
struct FigureAnchor {
  model::FigureId figure;
  ImVec2 at;
};

struct SheetFrame {
  const SheetShown& shown;
  const session::SessionView& view;
  const Selection& selection;
  Moment now;            ///< playhead, film time
  bool picking = false;  ///< figures are being picked for a relation: a click hands one over instead of going there
};

/// Draws into `at`; `anchors` gets the selected figures in sight.
void draw_sheet(Kit& kit, const Rect& at, const SheetFrame& frame, SheetState& state, Surfaces& surfaces, Asks& asks,
                std::vector<FigureAnchor>& anchors);

/// Brings the moment into sight, gliding.
void show_moment(SheetState& state, const SheetShown& shown, Moment film, float height);

}  // namespace sash::desk
