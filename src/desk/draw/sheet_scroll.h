#pragma once
// SheetScroll: where the running sheet stands: moved by the wheel and its bar, or following the playhead, gliding. It
// moves SheetState::top and nothing else. Main thread only.

#include "desk/draw/sheet.h"

namespace sash::desk {

class SheetScroll {
 public:
  SheetScroll(Kit& kit, const Rect& at, const SheetFrame& frame, SheetState& state)
      : kit_(kit), at_(at), frame_(frame), shown_(frame.shown), state_(state) {}

  /// Takes the wheel where the mouse is over the sheet, the bar, and the playhead's movement.
  void move(bool hovered);
  void paint_bar(Painter& paint) const;

 private:
  double height() const { return static_cast<double>(at_.height()); }
  double least_top() const;
  double most_top() const;
  void wheel();
  void bar();
  void follow();

  Kit& kit_;
  Rect at_;
  const SheetFrame& frame_;
  const SheetShown& shown_;
  SheetState& state_;
  Rect thumb_{};
  bool hot_ = false;
};

}  // namespace sash::desk
