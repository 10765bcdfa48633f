// The icons of signs.h.

#include "desk/draw/kit/inner/sketch.h"
#include "desk/draw/kit/signs.h"

namespace sash::desk {
namespace {

using inner::Sketch;

void draw_transport(Sketch& s, Icon i) {
  switch (i) {
    case Icon::play:
      s.fill({{0.2F, 0.08F}, {0.9F, 0.5F}, {0.2F, 0.92F}});
      return;
    case Icon::pause:
      s.box({0.18F, 0.1F}, {0.4F, 0.9F}, 0.03F);
      s.box({0.6F, 0.1F}, {0.82F, 0.9F}, 0.03F);
      return;
    case Icon::stop:
      s.box({0.14F, 0.14F}, {0.86F, 0.86F}, 0.05F);
      return;
    case Icon::step_back:
      s.fill({{0.62F, 0.12F}, {0.62F, 0.88F}, {0.06F, 0.5F}});
      s.box({0.74F, 0.12F}, {0.9F, 0.88F});
      return;
    case Icon::step_forward:
      s.fill({{0.38F, 0.12F}, {0.94F, 0.5F}, {0.38F, 0.88F}});
      s.box({0.1F, 0.12F}, {0.26F, 0.88F});
      return;
    case Icon::jump_back:
      s.fill({{0.54F, 0.14F}, {0.54F, 0.86F}, {0.06F, 0.5F}});
      s.fill({{0.98F, 0.14F}, {0.98F, 0.86F}, {0.5F, 0.5F}});
      return;
    case Icon::jump_forward:
      s.fill({{0.46F, 0.14F}, {0.94F, 0.5F}, {0.46F, 0.86F}});
      s.fill({{0.02F, 0.14F}, {0.5F, 0.5F}, {0.02F, 0.86F}});
      return;
    case Icon::loop:
      s.arc({0.5F, 0.5F}, 0.36F, -60, 200);
      s.fill({{0.5F, 0.0F}, {0.82F, 0.16F}, {0.54F, 0.36F}});
      return;
    case Icon::speed:
      s.arc({0.5F, 0.6F}, 0.4F, 170, 370);
      s.stroke({{0.5F, 0.62F}, {0.74F, 0.3F}});
      return;
    default:
      return;
  }
}

void draw_arrow_round(Sketch& s, bool forward) {
  const auto x = [forward](float v) { return forward ? 1 - v : v; };
  s.curve({x(0.2F), 0.36F}, {x(0.9F), 0.26F}, {x(1.0F), 0.84F}, {x(0.36F), 0.84F});
  s.stroke({{x(0.42F), 0.1F}, {x(0.14F), 0.36F}, {x(0.42F), 0.62F}});
}

void draw_chevron(Sketch& s, Icon i) {
  switch (i) {
    case Icon::chevron_left:
      s.stroke({{0.64F, 0.18F}, {0.34F, 0.5F}, {0.64F, 0.82F}});
      return;
    case Icon::chevron_right:
      s.stroke({{0.36F, 0.18F}, {0.66F, 0.5F}, {0.36F, 0.82F}});
      return;
    case Icon::chevron_up:
      s.stroke({{0.18F, 0.64F}, {0.5F, 0.34F}, {0.82F, 0.64F}});
      return;
    default:
      s.stroke({{0.18F, 0.36F}, {0.5F, 0.66F}, {0.82F, 0.36F}});
      return;
  }
}

void draw_sun(Sketch& s) {
  s.disc({0.5F, 0.5F}, 0.2F);
  for (int k = 0; k < 8; ++k) {
    const auto in = Sketch::regular(8, {0.5F, 0.5F}, 0.32F, 0)[static_cast<std::size_t>(k)];
    const auto out = Sketch::regular(8, {0.5F, 0.5F}, 0.46F, 0)[static_cast<std::size_t>(k)];
    s.stroke({{in.x, in.y}, {out.x, out.y}});
  }
}

void draw_gear(Sketch& s) {
  s.ring({0.5F, 0.5F}, 0.27F);
  for (int k = 0; k < 8; ++k) {
    const auto in = Sketch::regular(8, {0.5F, 0.5F}, 0.3F, 22.5F)[static_cast<std::size_t>(k)];
    const auto out = Sketch::regular(8, {0.5F, 0.5F}, 0.47F, 22.5F)[static_cast<std::size_t>(k)];
    s.stroke({{in.x, in.y}, {out.x, out.y}});
  }
}

void draw_keyboard(Sketch& s) {
  s.stroke({{0.04F, 0.22F}, {0.96F, 0.22F}, {0.96F, 0.78F}, {0.04F, 0.78F}}, true);
  for (const float x : {0.18F, 0.38F, 0.58F, 0.78F}) s.box({x, 0.34F}, {x + 0.07F, 0.43F});
  s.box({0.26F, 0.56F}, {0.74F, 0.66F});
}

void draw_things(Sketch& s, Icon i) {
  switch (i) {
    case Icon::folder:
      s.stroke({{0.06F, 0.84F}, {0.06F, 0.18F}, {0.38F, 0.18F}, {0.48F, 0.32F}, {0.94F, 0.32F}, {0.94F, 0.84F}}, true);
      return;
    case Icon::film:
      s.stroke({{0.06F, 0.16F}, {0.94F, 0.16F}, {0.94F, 0.84F}, {0.06F, 0.84F}}, true);
      for (const float y : {0.27F, 0.47F, 0.67F}) {
        s.box({0.15F, y}, {0.24F, y + 0.09F});
        s.box({0.76F, y}, {0.85F, y + 0.09F});
      }
      return;
    case Icon::lines:
      s.stroke({{0.08F, 0.22F}, {0.92F, 0.22F}});
      s.stroke({{0.08F, 0.5F}, {0.92F, 0.5F}});
      s.stroke({{0.08F, 0.78F}, {0.6F, 0.78F}});
      return;
    case Icon::figure:  // a dial scale with its pointer
      s.stroke({{0.06F, 0.84F}, {0.94F, 0.84F}});
      for (const float x : {0.1F, 0.37F, 0.63F, 0.9F}) s.stroke({{x, 0.84F}, {x, 0.62F}});
      s.fill({{0.5F, 0.54F}, {0.34F, 0.16F}, {0.66F, 0.16F}});
      return;
    case Icon::hazard:
      s.stroke({{0.5F, 0.08F}, {0.96F, 0.9F}, {0.04F, 0.9F}}, true);
      s.box({0.455F, 0.36F}, {0.545F, 0.64F});
      s.disc({0.5F, 0.76F}, 0.06F);
      return;
    case Icon::callout:
      s.stroke({{0.06F, 0.14F},
                {0.94F, 0.14F},
                {0.94F, 0.68F},
                {0.46F, 0.68F},
                {0.28F, 0.9F},
                {0.28F, 0.68F},
                {0.06F, 0.68F}},
               true);
      return;
    case Icon::note:
      s.stroke({{0.14F, 0.08F}, {0.86F, 0.08F}, {0.86F, 0.66F}, {0.6F, 0.92F}, {0.14F, 0.92F}}, true);
      s.stroke({{0.6F, 0.92F}, {0.6F, 0.66F}, {0.86F, 0.66F}});
      return;
    case Icon::chapter:
      s.stroke({{0.22F, 0.06F}, {0.78F, 0.06F}, {0.78F, 0.94F}, {0.5F, 0.7F}, {0.22F, 0.94F}}, true);
      return;
    case Icon::yield:  // what was got against what could be
      s.stroke({{0.14F, 0.94F}, {0.14F, 0.1F}, {0.42F, 0.1F}, {0.42F, 0.94F}}, true);
      s.box({0.58F, 0.4F}, {0.88F, 0.98F});
      return;
    case Icon::relation:
      s.ring({0.2F, 0.5F}, 0.16F);
      s.ring({0.8F, 0.22F}, 0.14F);
      s.ring({0.8F, 0.78F}, 0.14F);
      s.stroke({{0.35F, 0.43F}, {0.67F, 0.28F}});
      s.stroke({{0.35F, 0.57F}, {0.67F, 0.72F}});
      return;
    case Icon::script:
      s.stroke({{0.16F, 0.06F}, {0.84F, 0.06F}, {0.84F, 0.94F}, {0.16F, 0.94F}}, true);
      s.stroke({{0.3F, 0.3F}, {0.46F, 0.3F}});
      s.stroke({{0.3F, 0.5F}, {0.46F, 0.5F}});
      s.stroke({{0.3F, 0.7F}, {0.46F, 0.7F}});
      s.stroke({{0.58F, 0.24F}, {0.58F, 0.76F}});
      return;
    case Icon::pencil:
      s.stroke({{0.1F, 0.9F}, {0.16F, 0.66F}, {0.72F, 0.1F}, {0.9F, 0.28F}, {0.34F, 0.84F}}, true);
      return;
    case Icon::bin:
      s.stroke({{0.18F, 0.28F}, {0.26F, 0.94F}, {0.74F, 0.94F}, {0.82F, 0.28F}});
      s.stroke({{0.06F, 0.24F}, {0.94F, 0.24F}});
      s.stroke({{0.36F, 0.22F}, {0.36F, 0.08F}, {0.64F, 0.08F}, {0.64F, 0.22F}});
      return;
    case Icon::plot:
      s.stroke({{0.1F, 0.06F}, {0.1F, 0.92F}, {0.94F, 0.92F}});
      s.stroke({{0.22F, 0.76F}, {0.44F, 0.4F}, {0.62F, 0.56F}, {0.88F, 0.16F}});
      return;
    case Icon::pin:
      s.disc({0.5F, 0.34F}, 0.28F);
      s.fill({{0.27F, 0.48F}, {0.73F, 0.48F}, {0.5F, 0.98F}});
      return;
    case Icon::filter:
      s.stroke({{0.06F, 0.12F}, {0.94F, 0.12F}, {0.6F, 0.52F}, {0.6F, 0.88F}, {0.4F, 0.76F}, {0.4F, 0.52F}}, true);
      return;
    case Icon::gear:
      draw_gear(s);
      return;
    case Icon::keyboard:
      draw_keyboard(s);
      return;
    default:
      return;
  }
}

void draw_sound(Sketch& s, bool muted) {
  s.box({0.04F, 0.36F}, {0.2F, 0.64F});
  s.fill({{0.18F, 0.36F}, {0.44F, 0.12F}, {0.44F, 0.88F}, {0.18F, 0.64F}});
  if (muted) {
    s.stroke({{0.58F, 0.36F}, {0.9F, 0.66F}});
    s.stroke({{0.9F, 0.36F}, {0.58F, 0.66F}});
    return;
  }
  s.arc({0.46F, 0.5F}, 0.2F, -42, 42);
  s.arc({0.46F, 0.5F}, 0.4F, -42, 42);
}

}  // namespace

void draw_icon(Painter& paint, const Rect& at, Icon i, Colour c) {
  Sketch s(paint, at, c);
  switch (i) {
    case Icon::none:
    case Icon::count_:
      return;
    case Icon::sound:
      draw_sound(s, false);
      return;
    case Icon::muted:
      draw_sound(s, true);
      return;
    case Icon::undo:
      draw_arrow_round(s, false);
      return;
    case Icon::redo:
      draw_arrow_round(s, true);
      return;
    case Icon::search:
      s.ring({0.42F, 0.42F}, 0.31F);
      s.stroke({{0.65F, 0.65F}, {0.94F, 0.94F}});
      return;
    case Icon::plus:
      s.stroke({{0.5F, 0.12F}, {0.5F, 0.88F}});
      s.stroke({{0.12F, 0.5F}, {0.88F, 0.5F}});
      return;
    case Icon::minus:
      s.stroke({{0.12F, 0.5F}, {0.88F, 0.5F}});
      return;
    case Icon::cross:
      s.stroke({{0.2F, 0.2F}, {0.8F, 0.8F}});
      s.stroke({{0.8F, 0.2F}, {0.2F, 0.8F}});
      return;
    case Icon::tick:
      s.stroke({{0.12F, 0.54F}, {0.4F, 0.82F}, {0.9F, 0.2F}});
      return;
    case Icon::sun:
      draw_sun(s);
      return;
    case Icon::moon:
      s.arc({0.46F, 0.5F}, 0.4F, 35, 285);
      s.curve({0.56F, 0.11F}, {0.4F, 0.34F}, {0.46F, 0.78F}, {0.79F, 0.73F});
      return;
    case Icon::chevron_left:
    case Icon::chevron_right:
    case Icon::chevron_up:
    case Icon::chevron_down:
      draw_chevron(s, i);
      return;
    case Icon::link:
    case Icon::broken_link:
      s.arc({0.3F, 0.5F}, 0.22F, 50, 310);
      s.arc({0.7F, 0.5F}, 0.22F, -130, 130);
      if (i == Icon::link) s.stroke({{0.34F, 0.5F}, {0.66F, 0.5F}});
      return;
    case Icon::info:
      s.ring({0.5F, 0.5F}, 0.42F);
      s.disc({0.5F, 0.3F}, 0.06F);
      s.stroke({{0.5F, 0.46F}, {0.5F, 0.74F}});
      return;
    case Icon::clock:
      draw_glyph(paint, at, Family::time, c);
      return;
    default:
      if (i >= Icon::play && i <= Icon::speed) {
        draw_transport(s, i);
      } else {
        draw_things(s, i);
      }
      return;
  }
}

}  // namespace sash::desk
