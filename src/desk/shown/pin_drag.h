#pragma once
// Dragging a pin in the running sheet: where it would come to lie, and what is asked for when it is let go. Pins stay
// on their footage and on its frames. Pure.

#include <optional>

#include "desk/shown/film.h"
#include "desk/shown/selection.h"
#include "session/view.h"

namespace sash::desk {

/// What of a pin the hand holds.
enum class PinPart { whole, start, end };

struct PinGrip {
  session::ThingRef thing;
  PinPart part = PinPart::whole;
  Moment held;  ///< film time under the pointer when it was pressed
  bool operator==(const PinGrip&) const = default;
};

/// Where the pin lies with the pointer at `film` time: on whole frames where the footage's frames are known, inside its
/// footage, a span at least a tenth of a second long. Nothing for what is not pinned.
std::optional<model::Place> dragged_place(const session::SessionView& view, const Film& film_axis, const PinGrip& grip,
                                          Moment film);

/// What letting go there asks for; nothing when the pin lies where it lay.
std::optional<session::Intent> drop_of(const session::SessionView& view, const PinGrip& grip,
                                       const model::Place& place);

}  // namespace sash::desk
