#pragma once
// Where the hand can take hold of pins in the running sheet: the ends of hazard bands and of the selected pin's span,
// the left edge of narration lines; and what is seen while a pin is dragged. Asks for nothing itself: sheet.cpp does.
// Main thread only.

#include "desk/draw/sheet.h"

namespace sash::desk {

class Grips {
 public:
  /// `top`: the sheet pixel at the upper edge of `at`. What is given is borrowed for the frame.
  Grips(Kit& kit, const Rect& at, const SheetFrame& frame, double top)
      : kit_(kit), at_(at), frame_(frame), shown_(frame.shown), top_(top) {}

  /// The end of a span at this spot of the window, if one is there; `held` is left to the caller.
  std::optional<PinGrip> end_at(ImVec2 spot) const;
  /// The hazard whose band is at this spot.
  std::optional<model::HazardId> band_at(ImVec2 spot) const;
  /// Whether the spot is on the edge of a line's block by which the line slides.
  bool on_line_edge(const Rect& line, ImVec2 spot) const;

  /// The bracket of the selected pin's span, with its two ends.
  void paint_selected(Painter& paint) const;
  /// Where the dragged pin would lie: lines over the sheet with their times.
  void paint_dragged(Painter& paint, const PinGrip& grip, const model::Place& place) const;

 private:
  struct Bracket {
    session::ThingRef thing;
    Stretch span;  ///< film time
  };
  std::optional<Bracket> bracket() const;

  const Metrics& m() const { return kit_.m(); }
  float y(Moment film) const { return at_.min.y + static_cast<float>(shown_.elastic.y(film) - top_); }
  float right() const { return at_.min.x + shown_.columns.safety.right(); }
  Rect band(const HazardShown& hazard) const;
  void time_line(Painter& paint, Moment film, float thick) const;

  Kit& kit_;
  Rect at_;
  const SheetFrame& frame_;
  const SheetShown& shown_;
  double top_;
};

}  // namespace sash::desk
