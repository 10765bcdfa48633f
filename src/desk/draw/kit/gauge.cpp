// Sliders, progress, chips, tags, tips: the controls that mostly show.
#include <algorithm>
#include <array>
#include <cmath>

#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/text_block.h"

namespace sash::desk {

bool slider(Kit& kit, std::string_view id, double& value, double least, double most, double step, float width,
            std::string_view shown) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const Rect at = take_place({width, m.row});
  const Pressed p = area(kit, id, at, {.label = shown, .draggable = true});
  const double before = value;
  const float knob = std::round(m.row * 0.24F);
  const float text_room = shown.empty() ? 0 : std::ceil(text_size(kit.fonts().small, shown).x) + m.gap;
  const Rect track{{at.min.x + knob, at.min.y}, {at.max.x - knob - text_room, at.max.y}};
  if (p.held) {
    const double share = std::clamp((p.mouse.x - knob) / std::max(track.width(), 1.0F), 0.0F, 1.0F);
    value = least + std::round(share * (most - least) / step) * step;
  }
  if (p.focused) {
    if (kit.keys().take({Key::left, no_mods}, true)) value -= step;
    if (kit.keys().take({Key::right, no_mods}, true)) value += step;
    if (kit.keys().take({Key::home, no_mods})) value = least;
    if (kit.keys().take({Key::end, no_mods})) value = most;
  }
  value = std::clamp(value, least, most);
  const float share = static_cast<float>((value - least) / (most - least));
  const float x = track.min.x + share * track.width();
  const float y = at.centre().y;
  const float half = std::max(1.0F, m.px(2));
  Painter paint;
  paint.fill({{track.min.x, y - half}, {track.max.x, y + half}}, t.strong_line, half);
  paint.fill({{track.min.x, y - half}, {x, y + half}}, t.accent, half);
  paint.list().AddCircleFilled({x, y}, knob, (p.hovered || p.held ? t.text : t.accent).packed());
  if (text_room > 0) {
    paint.text_in({{track.max.x + knob + m.gap, at.min.y}, {at.max.x + 1, at.max.y}}, kit.fonts().small, t.muted, shown,
                  Align::right);
  }
  return value != before;
}

void progress_bar(Kit& kit, std::optional<double> share, float width, float height) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const float h = height > 0 ? height : m.px(6);
  const Rect at = take_place({width, h});
  Painter paint;
  paint.fill(at, t.sunken, h / 2);
  if (share) {
    const float w = std::max(h, at.width() * static_cast<float>(std::clamp(*share, 0.0, 1.0)));
    paint.fill({at.min, {at.min.x + w, at.max.y}}, t.accent, h / 2);
  } else {
    const float w = at.width() / 4;
    const float x = at.min.x + (at.width() - w) * static_cast<float>(0.5 - 0.5 * std::cos(kit.now() * 3));
    paint.fill({{x, at.min.y}, {x + w, at.max.y}}, t.accent, h / 2);
    kit.wake_in(1.0 / 15);
  }
  paint.frame(at, t.strong_line.faded(0.6F), m.hair, h / 2);
}

float paint_key_chip(Kit& kit, Painter& paint, ImVec2 at, Chord chord) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  ImFont* font = kit.fonts().small;
  const float height = m.small + m.px(6);
  const std::array<std::pair<bool, std::string_view>, 5> caps = {{{chord.mods.ctrl, "Ctrl"},
                                                                  {chord.mods.alt, "Alt"},
                                                                  {chord.mods.super, "Super"},
                                                                  {chord.mods.shift, "Shift"},
                                                                  {true, key_name(chord.key)}}};
  float x = at.x;
  for (const auto& [there, word] : caps) {
    if (!there) continue;
    if (x > at.x) x += m.px(3);
    const float width = std::max(height, std::ceil(text_size(font, word).x) + m.px(10));
    const Rect cap{{x, at.y}, {x + width, at.y + height}};
    paint.fill({{cap.min.x, cap.min.y + m.px(1.5F)}, {cap.max.x, cap.max.y + m.px(1.5F)}}, t.strong_line,
               m.radius * 0.7F);
    paint.fill(cap, t.raised, m.radius * 0.7F);
    paint.frame(cap, t.strong_line, m.hair, m.radius * 0.7F);
    paint.text_in(cap, font, t.text, word, Align::centre);
    x += width;
  }
  return x - at.x;
}

void key_chip(Kit& kit, Chord chord) {
  Painter paint;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = paint_key_chip(kit, paint, at, chord);
  ImGui::Dummy({width, kit.m().small + kit.m().px(8)});
}

void tag(Kit& kit, std::string_view label, const TagLook& look) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const bool sign = look.safety || look.verdict || look.family;
  const float side = std::round(m.small);
  const float height = m.small + m.px(8);
  const float text_width = std::ceil(text_size(kit.fonts().small, label).x);
  const float sign_width = sign ? side + m.px(5) : 0;
  const Rect at = take_place({text_width + sign_width + m.px(14), height});
  const Colour hue = look.safety    ? t.of(*look.safety).ink
                     : look.verdict ? t.of(*look.verdict)
                     : look.family  ? t.of(*look.family)
                                    : t.muted;
  Painter paint;
  paint.fill(at, mix(t.panel, hue, 0.14F), height / 2);
  paint.frame(at, mix(t.panel, hue, 0.45F), m.hair, height / 2);
  const float x = at.min.x + m.px(7);
  const Rect spot = square_in({{x, at.min.y}, {x + side, at.max.y}}, side);
  if (look.safety) draw_sign(paint, spot, *look.safety, t);
  if (look.verdict) draw_mark(paint, spot.shrunk(1), *look.verdict, hue);
  if (look.family) draw_glyph(paint, spot, *look.family, hue);
  paint.text_in({{x + sign_width, at.min.y}, {at.max.x, at.max.y}}, kit.fonts().small, t.text, label);
}

void signal_panel(Kit& kit, Safety level, float width) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const SafetyColours& c = t.of(level);
  const std::string_view word = word_of(level);
  const float side = m.body;
  const float natural = std::ceil(text_size(kit.fonts().strong, word).x) + side + m.gap + 2 * m.inset;
  const Rect at = take_place({width > 0 ? width : natural, m.tight_row + m.px(2)});
  Painter paint;
  paint.fill(at, c.fill, m.radius * 0.6F);
  const float x = at.min.x + m.inset;
  // The sign stands on its own colour: turned around, printed colour on the panel.
  Theme turned = t;
  SafetyColours& own = turned.safety[static_cast<std::size_t>(level)];
  std::swap(own.fill, own.on);
  draw_sign(paint, square_in({{x, at.min.y}, {x + side, at.max.y}}, side), level, turned);
  paint.text_in({{x + side + m.gap, at.min.y}, {at.max.x, at.max.y}}, kit.fonts().strong, c.on, word);
}

void tip(Kit& kit, const Rect& at, std::string_view text, Chord chord) {
  const ImGuiIO& io = ImGui::GetIO();
  if (!at.holds(io.MousePos) || io.MouseDown[0] ||
      !ImGui::IsWindowHovered(ImGuiHoveredFlags_AllowWhenBlockedByActiveItem)) {
    return;
  }
  constexpr double rest = 0.5;
  const double rested = kit.rested_at(at.centre());
  if (rested < rest) {
    kit.wake_in(rest - rested);
    return;
  }
  kit.later([&kit, at, said = std::string(text), chord] {
    const Metrics& m = kit.m();
    const Theme& t = kit.theme();
    const TextBlock block(kit.fonts().small, said, m.px(280));
    const bool has_chord = chord.key != Key::none;
    Painter paint(ImGui::GetForegroundDrawList());
    const float chip = has_chord ? m.small + m.px(8) : 0;
    const float between = has_chord && !said.empty() ? m.px(4) : 0;
    const float text_height = said.empty() ? 0 : block.height();
    float chord_width = 0;
    if (has_chord) {
      Painter nowhere(ImGui::GetForegroundDrawList());
      nowhere.clip({{0, 0}, {0, 0}});
      chord_width = paint_key_chip(kit, nowhere, {0, 0}, chord);
      nowhere.unclip();
    }
    const ImVec2 size{std::max(block.widest(), chord_width) + 2 * m.inset, text_height + between + chip + m.px(10)};
    const ImVec2 screen = ImGui::GetIO().DisplaySize;
    ImVec2 corner{std::round(std::clamp(at.min.x, 4.0F, std::max(4.0F, screen.x - size.x - 4))), at.max.y + m.px(6)};
    if (corner.y + size.y > screen.y) corner.y = at.min.y - size.y - m.px(6);
    const Rect card{corner, {corner.x + size.x, corner.y + size.y}};
    paint.card(card, t.raised, t.strong_line, t.shadow, m.radius);
    if (!said.empty()) block.draw(paint, {corner.x + m.inset, corner.y + m.px(5)}, t.text);
    if (has_chord) paint_key_chip(kit, paint, {corner.x + m.inset, corner.y + m.px(5) + text_height + between}, chord);
  });
}

}  // namespace sash::desk
