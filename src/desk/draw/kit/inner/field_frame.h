#pragma once
// FieldFrame: what every text field looks like around its text: label, ground, sign, hint, border and fault. How the
// text in it is edited is the field's own. Main thread only.

#include <string_view>

#include "desk/draw/kit/field.h"

namespace sash::desk::inner {

class FieldFrame {
 public:
  /// Takes its place at the ImGui cursor for a box `height` high; draws the label, the ground and the sign.
  FieldFrame(Kit& kit, const FieldLook& look, float height);

  /// The width a field's text has at the ImGui cursor.
  static float text_width(const Kit& kit, const FieldLook& look);

  const Rect& box() const { return box_; }
  const Rect& inside() const { return inside_; }  ///< where the text goes, across; all of the height
  Painter& paint() { return paint_; }
  void hint(float height);  ///< faint, over the first `height` of the box
  /// Draws the border, the keyboard's ring and the fault; moves the cursor below.
  void close(bool active, bool ring);

 private:
  Kit& kit_;
  const FieldLook& look_;
  ImVec2 top_;
  float width_;
  float label_height_;
  float fault_height_;
  Rect box_;
  Rect inside_;
  Painter paint_;
};

}  // namespace sash::desk::inner
