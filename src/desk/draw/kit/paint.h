#pragma once
// Painter: the strokes everything on the desk is drawn with, over one ImDrawList. Coordinates are window pixels; text
// stands on whole pixels. Not a widget: nothing here answers the mouse. Main thread only.

#include <imgui.h>

#include <string_view>

#include "desk/draw/kit/colour.h"
#include "desk/draw/kit/registry.h"

namespace sash::desk {

/// Where a text stands in its rectangle, across; it is always centred down.
enum class Align { left, centre, right };

class Painter {
 public:
  /// Paints into the pane being drawn.
  Painter() : list_(ImGui::GetWindowDrawList()) {}
  explicit Painter(ImDrawList* list) : list_(list) {}

  ImDrawList& list() { return *list_; }

  void fill(const Rect& at, Colour c, float radius = 0) { list_->AddRectFilled(at.min, at.max, c.packed(), radius); }
  void frame(const Rect& at, Colour c, float thick = 1, float radius = 0);
  void line(ImVec2 from, ImVec2 to, Colour c, float thick = 1);
  void hline(float y, float x0, float x1, Colour c, float thick = 1) { fill({{x0, y}, {x1, y + thick}}, c); }
  void vline(float x, float y0, float y1, Colour c, float thick = 1) { fill({{x, y0}, {x + thick, y1}}, c); }

  /// Text with its upper left corner at `at`.
  void text(ImVec2 at, ImFont* font, Colour c, std::string_view utf8);
  /// One line inside `in`, cut with an ellipsis where it does not fit; gives the width used.
  float text_in(const Rect& in, ImFont* font, Colour c, std::string_view utf8, Align align = Align::left);

  /// A span along the edge of a column: a wash, a solid edge on its left; open ends (`no_end`) fade out.
  void band(const Rect& at, Colour wash, Colour edge, float edge_width, bool no_end = false);
  /// A panel with border and a soft shadow under it, for what floats.
  void card(const Rect& at, Colour fill, Colour border, Colour shadow, float radius);
  /// Diagonal stripes, for what is uncertain or uncovered.
  void hatch(const Rect& at, Colour c, float step, float thick);

  void clip(const Rect& to) { list_->PushClipRect(to.min, to.max, true); }
  void unclip() { list_->PopClipRect(); }

 private:
  ImDrawList* list_;
};

/// Size of one line.
ImVec2 text_size(ImFont* font, std::string_view utf8);
/// `utf8`, or its beginning with an ellipsis, so that it is at most `width` wide.
std::string_view::size_type fitting_bytes(ImFont* font, std::string_view utf8, float width);

}  // namespace sash::desk
