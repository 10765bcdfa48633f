#include "desk/draw/kit/signs.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/kit/inner/sketch.h"

namespace sash::desk {
namespace {

using inner::Sketch;
using inner::Spot;

/// The upright stroke and its dot, drawn so that it is crisp at 14 pixels and at 140.
void exclamation(Sketch& s, float top, float bottom) {
  const float length = bottom - top;
  s.fill({{0.435F, top}, {0.565F, top}, {0.54F, top + length * 0.64F}, {0.46F, top + length * 0.64F}});
  s.disc({0.5F, bottom - length * 0.11F}, length * 0.125F);
}

}  // namespace

Rect square_in(const Rect& in, float side) {
  const float s = std::floor(std::min({side, in.width(), in.height()}));
  const ImVec2 at{std::round(in.centre().x - s / 2), std::round(in.centre().y - s / 2)};
  return {at, {at.x + s, at.y + s}};
}

void draw_sign(Painter& paint, const Rect& at, Safety safety, const Theme& t) {
  const SafetyColours& colours = t.of(safety);
  Sketch s(paint, at, colours.fill);
  switch (safety) {
    case Safety::danger:
      s.fill(Sketch::regular(8, {0.5F, 0.5F}, 0.53F, 22.5F));
      s.ink(colours.on);
      exclamation(s, 0.2F, 0.82F);
      return;
    case Safety::warning:
      s.fill({{0.5F, 0.03F}, {1.0F, 0.93F}, {0.0F, 0.93F}});
      s.ink(colours.on);
      exclamation(s, 0.32F, 0.85F);
      return;
    case Safety::caution:
      s.fill({{0.5F, 0.0F}, {1.0F, 0.5F}, {0.5F, 1.0F}, {0.0F, 0.5F}});
      s.ink(colours.on);
      exclamation(s, 0.2F, 0.8F);
      return;
    case Safety::notice:
      s.disc({0.5F, 0.5F}, 0.48F);
      s.ink(colours.on);
      s.disc({0.5F, 0.27F}, 0.08F);
      s.box({0.435F, 0.42F}, {0.565F, 0.78F});
      return;
    case Safety::safe:
      s.box({0.04F, 0.04F}, {0.96F, 0.96F}, 0.12F);
      s.ink(colours.on);
      s.pen(0.13F);
      s.stroke({{0.25F, 0.52F}, {0.43F, 0.71F}, {0.76F, 0.3F}});
      return;
  }
}

void draw_mark(Painter& paint, const Rect& at, Verdict v, Colour c) {
  Sketch s(paint, at, c);
  switch (v) {
    case Verdict::agrees:
      s.pen(0.14F);
      s.stroke({{0.12F, 0.54F}, {0.39F, 0.82F}, {0.9F, 0.2F}});
      return;
    case Verdict::agrees_rounded:
      s.pen(0.14F);
      s.stroke({{0.14F, 0.4F}, {0.39F, 0.64F}, {0.88F, 0.08F}});
      s.pen(0.1F);
      s.curve({0.1F, 0.88F}, {0.35F, 0.66F}, {0.6F, 1.08F}, {0.9F, 0.84F});
      return;
    case Verdict::conflict:
      s.pen(0.15F);
      s.stroke({{0.16F, 0.16F}, {0.84F, 0.84F}});
      s.stroke({{0.84F, 0.16F}, {0.16F, 0.84F}});
      return;
    case Verdict::unsettled:
      s.pen(0.09F);
      s.ring({0.5F, 0.5F}, 0.44F);
      s.arc({0.5F, 0.4F}, 0.14F, 180, 400);
      s.stroke({{0.607F, 0.49F}, {0.5F, 0.58F}, {0.5F, 0.64F}});
      s.disc({0.5F, 0.77F}, 0.06F);
      return;
  }
}

void draw_glyph(Painter& paint, const Rect& at, Family f, Colour c) {
  Sketch s(paint, at, c);
  switch (f) {
    case Family::mass:  // a balance weight
      s.fill({{0.28F, 0.34F}, {0.72F, 0.34F}, {0.92F, 0.92F}, {0.08F, 0.92F}});
      s.ring({0.5F, 0.21F}, 0.12F);
      return;
    case Family::volume:  // a drop
      s.disc({0.5F, 0.64F}, 0.3F);
      s.fill({{0.5F, 0.04F}, {0.765F, 0.5F}, {0.235F, 0.5F}});
      return;
    case Family::amount:  // a hexagon: particles counted
      s.fill(Sketch::regular(6, {0.5F, 0.5F}, 0.46F, 30));
      return;
    case Family::strength:  // a cylinder, part full
      s.stroke({{0.22F, 0.06F}, {0.22F, 0.92F}, {0.78F, 0.92F}, {0.78F, 0.06F}});
      s.box({0.3F, 0.46F}, {0.7F, 0.86F});
      return;
    case Family::temperature:  // a thermometer
      s.disc({0.5F, 0.78F}, 0.19F);
      s.box({0.42F, 0.06F}, {0.58F, 0.72F}, 0.08F);
      s.stroke({{0.68F, 0.16F}, {0.84F, 0.16F}});
      s.stroke({{0.68F, 0.38F}, {0.84F, 0.38F}});
      return;
    case Family::time:  // a clock
      s.ring({0.5F, 0.5F}, 0.41F);
      s.stroke({{0.5F, 0.24F}, {0.5F, 0.52F}, {0.68F, 0.62F}});
      return;
    case Family::pressure:  // a gauge
      s.arc({0.5F, 0.58F}, 0.4F, 160, 380);
      s.stroke({{0.5F, 0.6F}, {0.72F, 0.34F}});
      s.disc({0.5F, 0.6F}, 0.09F);
      return;
    case Family::share:  // part of a whole
      s.ring({0.5F, 0.5F}, 0.41F);
      s.fill({{0.5F, 0.5F}, {0.5F, 0.12F}, {0.68F, 0.165F}, {0.83F, 0.31F}, {0.88F, 0.5F}});
      return;
    case Family::gas:  // bubbles
      s.ring({0.36F, 0.66F}, 0.25F);
      s.ring({0.74F, 0.36F}, 0.16F);
      s.disc({0.3F, 0.18F}, 0.1F);
      return;
    case Family::ratio:  // two bars, one long
      s.box({0.08F, 0.24F}, {0.92F, 0.42F});
      s.box({0.08F, 0.58F}, {0.56F, 0.76F});
      return;
    case Family::acidity:  // a strip, half dipped
      s.stroke({{0.34F, 0.06F}, {0.66F, 0.06F}, {0.66F, 0.94F}, {0.34F, 0.94F}}, true);
      s.box({0.34F, 0.5F}, {0.66F, 0.94F});
      return;
    case Family::energy:  // a zigzag
      s.fill({{0.58F, 0.02F}, {0.2F, 0.56F}, {0.5F, 0.56F}});
      s.fill({{0.42F, 0.98F}, {0.8F, 0.44F}, {0.5F, 0.44F}});
      return;
    case Family::other:
      s.disc({0.5F, 0.5F}, 0.26F);
      return;
  }
}

void draw_harm(Painter& paint, const Rect& at, Harm h, Colour c) {
  Sketch s(paint, at, c);
  switch (h) {
    case Harm::inhalation:  // drifting fume
      for (const float y : {0.24F, 0.5F, 0.76F}) s.curve({0.06F, y}, {0.35F, y - 0.24F}, {0.6F, y + 0.24F}, {0.94F, y});
      return;
    case Harm::skin:  // a drop on a surface
      s.disc({0.5F, 0.44F}, 0.19F);
      s.fill({{0.5F, 0.04F}, {0.66F, 0.34F}, {0.34F, 0.34F}});
      s.curve({0.04F, 0.78F}, {0.3F, 0.78F}, {0.36F, 0.92F}, {0.5F, 0.92F});
      s.curve({0.5F, 0.92F}, {0.64F, 0.92F}, {0.7F, 0.78F}, {0.96F, 0.78F});
      return;
    case Harm::eyes:
      s.curve({0.04F, 0.5F}, {0.3F, 0.14F}, {0.7F, 0.14F}, {0.96F, 0.5F});
      s.curve({0.04F, 0.5F}, {0.3F, 0.86F}, {0.7F, 0.86F}, {0.96F, 0.5F});
      s.disc({0.5F, 0.5F}, 0.15F);
      return;
    case Harm::ingestion:  // a cup, struck out
      s.stroke({{0.2F, 0.24F}, {0.27F, 0.88F}, {0.67F, 0.88F}, {0.74F, 0.24F}}, true);
      s.stroke({{0.06F, 0.92F}, {0.94F, 0.08F}});
      return;
    case Harm::burn:  // heat over a surface
      for (const float x : {0.22F, 0.5F, 0.78F}) s.curve({x, 0.66F}, {x - 0.16F, 0.5F}, {x + 0.16F, 0.28F}, {x, 0.08F});
      s.box({0.06F, 0.8F}, {0.94F, 0.92F});
      return;
    case Harm::cold:
      for (const float a : {0.0F, 60.0F, 120.0F}) {
        const auto ends = Sketch::regular(2, {0.5F, 0.5F}, 0.46F, a + 90);
        s.stroke(ends);
      }
      s.ring({0.5F, 0.5F}, 0.2F);
      return;
    case Harm::fire:
      s.disc({0.5F, 0.66F}, 0.29F);
      s.fill({{0.54F, 0.02F}, {0.78F, 0.58F}, {0.23F, 0.58F}});
      s.fill({{0.24F, 0.26F}, {0.45F, 0.6F}, {0.21F, 0.62F}});
      return;
    case Harm::blast:
      for (int i = 0; i < 8; ++i) {
        const auto out = Sketch::regular(8, {0.5F, 0.5F}, 0.48F, 22.5F)[static_cast<std::size_t>(i)];
        const auto in = Sketch::regular(8, {0.5F, 0.5F}, 0.27F, 22.5F)[static_cast<std::size_t>(i)];
        s.stroke({{in.x, in.y}, {out.x, out.y}});
      }
      s.disc({0.5F, 0.5F}, 0.16F);
      return;
    case Harm::pressure:
      draw_glyph(paint, at, Family::pressure, c);
      return;
    case Harm::cut:  // a shard
      s.fill({{0.82F, 0.04F}, {0.62F, 0.72F}, {0.14F, 0.88F}});
      s.stroke({{0.06F, 0.95F}, {0.6F, 0.95F}});
      return;
    case Harm::electric:
      draw_glyph(paint, at, Family::energy, c);
      return;
    case Harm::noise:
      s.fill({{0.06F, 0.36F}, {0.24F, 0.36F}, {0.24F, 0.64F}, {0.06F, 0.64F}});
      s.fill({{0.24F, 0.36F}, {0.48F, 0.14F}, {0.48F, 0.86F}, {0.24F, 0.64F}});
      s.arc({0.5F, 0.5F}, 0.2F, -45, 45);
      s.arc({0.5F, 0.5F}, 0.4F, -45, 45);
      return;
    case Harm::environment:  // a leaf
      s.curve({0.14F, 0.86F}, {0.0F, 0.3F}, {0.4F, 0.08F}, {0.9F, 0.1F});
      s.curve({0.14F, 0.86F}, {0.7F, 0.96F}, {0.9F, 0.6F}, {0.9F, 0.1F});
      s.stroke({{0.06F, 0.96F}, {0.6F, 0.4F}});
      return;
    case Harm::other:
      s.stroke({{0.5F, 0.06F}, {0.95F, 0.9F}, {0.05F, 0.9F}}, true);
      return;
  }
}

}  // namespace sash::desk
