#include <algorithm>
#include <cmath>

#include "desk/draw/kit/controls.h"

namespace sash::desk {
namespace {

struct Ink {
  Colour ground;
  Colour border;
  Colour ink;
};

Ink ink_of(const Kit& kit, const ButtonLook& look, const Pressed& p) {
  const Theme& t = kit.theme();
  const Colour none = t.panel.faded(0);
  if (!look.enabled) return {look.kind == ButtonKind::quiet ? none : t.raised.faded(0.5F), none, t.faint};
  if (look.on) return {p.hovered ? mix(t.selection, t.accent, 0.2F) : t.selection, t.accent, t.text};
  switch (look.kind) {
    case ButtonKind::primary: {
      const Colour over = mix(t.accent, t.text, 0.15F);
      return {p.held ? mix(t.accent, t.ground, 0.2F) : p.hovered ? over : t.accent, none, t.on_accent};
    }
    case ButtonKind::quiet:
      return {p.held ? t.raised_down : p.hovered ? t.raised_over : none, none, t.text};
    case ButtonKind::grave:
      return {p.held ? t.raised_down : p.hovered ? t.raised_over : t.raised, t.bad, t.bad};
    case ButtonKind::plain:
      break;
  }
  return {p.held ? t.raised_down : p.hovered ? t.raised_over : t.raised, t.strong_line.faded(0.7F), t.text};
}

}  // namespace

float button_width(const Kit& kit, std::string_view label, Icon icon) {
  const Metrics& m = kit.m();
  if (label.empty()) return m.row;
  const float sign = icon == Icon::none ? 0 : m.icon + m.gap;
  return std::ceil(text_size(kit.fonts().body, label).x) + sign + 2 * m.inset + m.px(4);
}

bool button(Kit& kit, std::string_view id, std::string_view label, const ButtonLook& look) {
  const Metrics& m = kit.m();
  const float height = look.height > 0 ? look.height : m.row;
  const float width = look.width > 0 ? look.width : label.empty() ? height : button_width(kit, label, look.icon);
  const Rect at = take_place({width, height});
  const Pressed p = area(kit, id, at, {.label = label.empty() ? look.tip : label, .enabled = look.enabled});
  const Ink ink = ink_of(kit, look, p);
  Painter paint;
  paint.fill(at, ink.ground, m.radius);
  if (ink.border.a != 0) paint.frame(at, ink.border, m.hair, m.radius);
  if (label.empty()) {
    draw_icon(paint, square_in(at, m.icon), look.icon, ink.ink);
  } else {
    const float text_width = std::ceil(text_size(kit.fonts().body, label).x);
    const float sign = look.icon == Icon::none ? 0 : m.icon + m.gap;
    const float from = std::max(at.min.x + m.inset, at.min.x + std::round((width - text_width - sign) / 2));
    if (sign > 0)
      draw_icon(paint, square_in({{from, at.min.y}, {from + m.icon, at.max.y}}, m.icon), look.icon, ink.ink);
    paint.text_in({{from + sign, at.min.y}, {at.max.x - m.inset / 2, at.max.y}}, kit.fonts().body, ink.ink, label);
  }
  if (!look.tip.empty() || look.chord.key != Key::none) tip(kit, at, look.tip, look.chord);
  return p.clicked;
}

bool tick_box(Kit& kit, std::string_view id, std::string_view label, bool& on, bool enabled) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const float side = std::round(m.icon * 1.05F);
  const float text_width = std::ceil(text_size(kit.fonts().body, label).x);
  const Rect at = take_place({side + m.gap + text_width, m.row});
  const Pressed p = area(kit, id, at, {.label = label, .enabled = enabled});
  if (p.clicked) on = !on;
  Painter paint;
  const Rect box = square_in({at.min, {at.min.x + side, at.max.y}}, side);
  paint.fill(box, on && enabled ? t.accent : p.hovered ? t.raised_over : t.sunken, m.radius * 0.6F);
  paint.frame(box, on && enabled ? t.accent : t.strong_line, m.hair, m.radius * 0.6F);
  if (on) draw_icon(paint, box.shrunk(std::round(side * 0.2F)), Icon::tick, enabled ? t.on_accent : t.faint);
  paint.text_in({{at.min.x + side + m.gap, at.min.y}, {at.max.x + 1, at.max.y}}, kit.fonts().body,
                enabled ? t.text : t.faint, label);
  return p.clicked;
}

}  // namespace sash::desk
