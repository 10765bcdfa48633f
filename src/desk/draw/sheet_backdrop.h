#pragma once
// What lies behind the blocks of the running sheet and over them: the scale of true time, stills, waveform, hazard
// bands, the loop; and the playhead. Only what is in sight is looked at. Answers nothing. For sheet.cpp; main thread
// only.

#include "desk/draw/sheet.h"

namespace sash::desk {

class Backdrop {
 public:
  /// `top`: the sheet pixel at the upper edge of `at`. What is given is borrowed for the frame.
  Backdrop(Kit& kit, Painter& paint, const Rect& at, const SheetFrame& frame, double top)
      : kit_(kit), paint_(paint), at_(at), frame_(frame), shown_(frame.shown), top_(top) {}

  void behind(Surfaces& surfaces) const;
  void playhead() const;

 private:
  void scale_and_rules() const;
  void stills(Surfaces& surfaces) const;
  void wave() const;
  void bands() const;
  void loop() const;

  const Theme& t() const { return kit_.theme(); }
  const Metrics& m() const { return kit_.m(); }
  double view_height() const { return static_cast<double>(at_.height()); }
  float to_window(double y) const { return at_.min.y + static_cast<float>(y - top_); }
  float x(const SheetColumns::Column& c) const { return at_.min.x + c.x; }
  float content_right() const { return at_.min.x + shown_.columns.safety.right(); }

  Kit& kit_;
  Painter& paint_;
  Rect at_;
  const SheetFrame& frame_;
  const SheetShown& shown_;
  double top_;
};

}  // namespace sash::desk
