#include "desk/draw/figure_bar.h"

#include <algorithm>

#include "desk/draw/font_measure.h"
#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/signs.h"

namespace sash::desk {
namespace {

// Said above, reconciled below, on one scale: a bar one standard uncertainty to each side and a stroke at the value.
void reach(Painter& paint, const Rect& track, const FigureBar::Reach& r, Colour c, float thick, bool hollow) {
  const auto x = [&](double share) {
    return track.min.x + static_cast<float>(std::clamp(share, 0.0, 1.0)) * track.width();
  };
  const Rect bar{{x(r.from), track.min.y}, {std::max(x(r.until), x(r.from) + 1), track.max.y}};
  if (hollow) {
    paint.frame(bar, c.faded(0.8F), thick);
  } else {
    paint.fill(bar, c.faded(0.55F));
  }
  paint.vline(x(r.at) - thick, track.min.y - thick, track.max.y + thick, c, thick * 2);
}

}  // namespace

void draw_figure_bar(Kit& kit, const std::string& id, const FigureBar& bar, Asks& asks,
                     std::vector<FigureAnchor>& anchors) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const float line = FontMeasure(*kit.fonts().small).line_height();
  const float bars = bar.said || bar.best ? m.px(14) : 0;
  const Rect at = take_place({ImGui::GetContentRegionAvail().x, line * 2 + bars + m.px(4)});
  const Pressed p = area(kit, id, at, {.label = bar.said_text, .by_keyboard = false});
  Painter paint;
  if (p.hovered) paint.fill(at, t.raised.faded(0.6F), m.radius);
  if (p.clicked) asks.go_to(bar.figure);
  anchors.push_back({bar.figure, {at.min.x, at.min.y + line}});
  const float left = at.min.x + m.px(22);
  draw_glyph(paint, square_in({{at.min.x + m.px(3), at.min.y}, {at.min.x + m.px(19), at.min.y + line}}, m.px(13)),
             bar.family, t.of(bar.family));
  const Colour ink = bar.suspect ? t.bad : t.text;
  float right = at.max.x - m.px(4);
  if (bar.suspect) {
    const std::string_view words = bar.tied ? "may be wrong" : "most likely wrong";
    const float wide = text_size(kit.fonts().small_strong, words).x;
    paint.text_in({{right - wide - 1, at.min.y}, {right, at.min.y + line}}, kit.fonts().small_strong, t.bad, words);
    right -= wide + m.px(6);
  } else if (bar.unchecked) {
    const float wide = text_size(kit.fonts().small, "unchecked").x;
    paint.text_in({{right - wide - 1, at.min.y}, {right, at.min.y + line}}, kit.fonts().small, t.muted, "unchecked");
    right -= wide + m.px(6);
  }
  const float used =
      paint.text_in({{left, at.min.y}, {right, at.min.y + line}}, kit.fonts().small_strong, ink, bar.name);
  paint.text_in({{left + used + m.px(6), at.min.y}, {right, at.min.y + line}}, kit.fonts().small, t.muted, bar.slot);
  const std::string values = bar.said_text + (bar.best_text.empty() ? "" : "   →   " + bar.best_text);
  paint.text_in({{left, at.min.y + line}, {at.max.x - m.px(4), at.min.y + line * 2}}, kit.fonts().small, t.text,
                values);
  if (bars > 0) {
    const float y = at.min.y + line * 2 + m.px(1);
    const float right_end = at.max.x - m.px(8);
    paint.hline(y + m.px(6), left, right_end, t.line, m.hair);
    if (bar.said)
      reach(paint, {{left, y}, {right_end, y + m.px(5)}}, *bar.said, bar.suspect ? t.bad : t.of(bar.family), m.hair,
            false);
    if (bar.best) reach(paint, {{left, y + m.px(8)}, {right_end, y + m.px(13)}}, *bar.best, t.accent, m.hair, true);
  }
  tip(kit, at,
      "Above, filled: as said. Below, outlined: what everything together gives. One standard uncertainty to each "
      "side.\n" +
          bar.doubt);
}

}  // namespace sash::desk
