#pragma once
// Film: the footages of a record joined in their order to one time axis, the one the running sheet and the position bar
// use. "Film time" is a Moment on it. A footage whose length is not known yet is as long as what is pinned to it.
// Immutable; const calls are safe from any thread.

#include <optional>
#include <span>
#include <vector>

#include "model/record.h"

namespace sash::desk {

class Film {
 public:
  struct Reel {
    model::FootageId footage;  ///< unknown id: narration and pins without footage
    Moment start;              ///< film time
    Moment length;             ///< never zero
  };
  /// A moment of a footage.
  struct Spot {
    model::FootageId footage;
    Moment at;
    bool operator==(const Spot&) const = default;
  };

  Film() = default;
  explicit Film(const model::Record& record);

  std::span<const Reel> reels() const { return reels_; }
  Moment length() const;
  bool empty() const { return reels_.empty(); }

  Moment to_film(model::FootageId footage, Moment at) const;  ///< an unknown footage counts as the first
  Moment to_film(const model::Place& place) const { return to_film(place.footage, place.from); }
  /// Film time of a place; `until` missing ends with its footage when `open_ended`, else where it starts.
  Stretch stretch(const model::Place& place, bool open_ended = false) const;
  Spot from_film(Moment film) const;  ///< clamped into the film
  const Reel* reel(model::FootageId footage) const;

 private:
  std::vector<Reel> reels_;
};

}  // namespace sash::desk
