#include "desk/shown/pin_drag.h"

#include <algorithm>

#include "desk/shown/editor.h"

namespace sash::desk {
namespace {

constexpr std::int64_t least_span_ms = 100;

// The start of the frame nearest to `at`; whole hundredths of a second where the frames are not known.
Moment on_frame(const session::SessionView& view, model::FootageId footage, Moment at) {
  const auto state = view.footage.find(footage);
  if (state == view.footage.end() || state->second.index == nullptr || state->second.index->empty())
    return Moment::millis(at.in_millis() / 10 * 10);
  const auto& index = *state->second.index;
  const auto& frame = index.frame(*index.frame_at(at));
  const bool nearer_next = at - frame.at > frame.at + frame.lasts - at;
  return nearer_next && index.next(at) ? frame.at + frame.lasts : frame.at;
}

}  // namespace

std::optional<model::Place> dragged_place(const session::SessionView& view, const Film& film_axis, const PinGrip& grip,
                                          Moment film) {
  auto place = place_of(view.record, grip.thing);
  if (!place) return std::nullopt;
  const Film::Reel* reel = film_axis.reel(place->footage);
  if (reel == nullptr) return std::nullopt;
  const Moment by = film - grip.held;
  const Moment least = Moment::millis(least_span_ms);
  const auto lands = [&](Moment from) {
    return on_frame(view, place->footage, std::clamp(from + by, Moment(), std::max(Moment(), reel->length)));
  };
  switch (grip.part) {
    case PinPart::whole: {
      const Moment from = lands(place->from);
      if (place->until) place->until = from + (*place->until - place->from);
      place->from = from;
      break;
    }
    case PinPart::start:
      place->from = lands(place->from);
      if (place->until) place->from = std::min(place->from, std::max(Moment(), *place->until - least));
      break;
    case PinPart::end:
      place->until = std::max(lands(place->until.value_or(reel->length)), place->from + least);
      break;
  }
  return place;
}

std::optional<session::Intent> drop_of(const session::SessionView& view, const PinGrip& grip,
                                       const model::Place& place) {
  const auto before = place_of(view.record, grip.thing);
  auto thing = thing_of(view.record, grip.thing);
  if (!before || !thing || *before == place) return std::nullopt;
  if (grip.part == PinPart::whole) return session::MovePin{grip.thing, place.from};
  const bool pinned = std::visit(
      [&](auto& t) {
        if constexpr (requires { t.place; }) {
          t.place = place;
          return true;
        } else {
          return false;
        }
      },
      *thing);
  if (!pinned) return std::nullopt;
  return session::PutThing{*thing, edit_name(*thing)};
}

}  // namespace sash::desk
