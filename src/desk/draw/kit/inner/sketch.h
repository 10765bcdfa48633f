#pragma once
// Sketch: drawing in a unit square (0..1 across and down) that is laid over a rectangle. For the signs only.

#include <cmath>
#include <initializer_list>
#include <numbers>
#include <vector>

#include "desk/draw/kit/paint.h"

namespace sash::desk::inner {

struct Spot {
  float x;
  float y;
};

class Sketch {
 public:
  Sketch(Painter& paint, const Rect& at, Colour c) : list_(paint.list()), at_(at), c_(c.packed()) {
    thick_ = std::max(1.1F, at.width() * 0.095F);
  }

  void ink(Colour c) { c_ = c.packed(); }
  void pen(float share) { thick_ = std::max(1.0F, at_.width() * share); }

  void stroke(std::initializer_list<Spot> spots, bool closed = false) { stroke(std::vector<Spot>(spots), closed); }
  void stroke(const std::vector<Spot>& spots, bool closed = false) {
    for (const Spot s : spots) list_.PathLineTo(put(s));
    list_.PathStroke(c_, closed ? ImDrawFlags_Closed : 0, thick_);
  }
  void fill(std::initializer_list<Spot> spots) { fill(std::vector<Spot>(spots)); }
  /// Requires: the outline is convex.
  void fill(const std::vector<Spot>& spots) {
    for (const Spot s : spots) list_.PathLineTo(put(s));
    list_.PathFillConvex(c_);
  }
  void disc(Spot s, float r) { list_.AddCircleFilled(put(s), r * at_.width(), c_); }
  void ring(Spot s, float r) { list_.AddCircle(put(s), r * at_.width(), c_, 0, thick_); }
  /// Degrees clockwise from three o'clock.
  void arc(Spot s, float r, float from, float until) {
    constexpr float rad = std::numbers::pi_v<float> / 180;
    list_.PathArcTo(put(s), r * at_.width(), from * rad, until * rad, 20);
    list_.PathStroke(c_, 0, thick_);
  }
  void box(Spot a, Spot b, float round = 0) { list_.AddRectFilled(put(a), put(b), c_, round * at_.width()); }
  void curve(Spot a, Spot b, Spot c, Spot d) { list_.AddBezierCubic(put(a), put(b), put(c), put(d), c_, thick_); }
  /// A word or a mark, centred on `s`.
  void letter(Spot s, float size, const char* utf8, ImFont* font) {
    const float px = size * at_.height();
    const ImVec2 extent = font->CalcTextSizeA(px, FLT_MAX, 0, utf8);
    const ImVec2 p = put(s);
    list_.AddText(font, px, {p.x - extent.x / 2, p.y - extent.y / 2}, c_, utf8);
  }

  static std::vector<Spot> regular(int corners, Spot middle, float r, float turn_degrees) {
    std::vector<Spot> out;
    for (int i = 0; i < corners; ++i) {
      const float a = (turn_degrees + 360.0F * static_cast<float>(i) / static_cast<float>(corners)) *
                      std::numbers::pi_v<float> / 180;
      out.push_back({middle.x + r * std::cos(a), middle.y + r * std::sin(a)});
    }
    return out;
  }

 private:
  ImVec2 put(Spot s) const { return {at_.min.x + s.x * at_.width(), at_.min.y + s.y * at_.height()}; }

  ImDrawList& list_;
  Rect at_;
  ImU32 c_;
  float thick_;
};

}  // namespace sash::desk::inner
