#include "desk/draw/findings.h"

#include <algorithm>

#include "desk/draw/font_measure.h"
#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/list.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/signs.h"
#include "desk/draw/kit/text_block.h"
#include "desk/shown/words.h"

namespace sash::desk {
namespace {

constexpr std::array group_marks{Verdict::conflict,  Verdict::conflict, Verdict::unsettled,
                                 Verdict::unsettled, Verdict::agrees,   Verdict::agrees};

// Each count is a switch: only these, or all again.
void counts_row(Kit& kit, const FindingsShown& shown, FindingsState& state) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float right = at.x + ImGui::GetContentRegionAvail().x;
  ImVec2 place = at;
  Painter paint;
  for (std::size_t g = 0; g < finding_groups; ++g) {
    if (shown.counts[g] == 0) continue;
    const auto group = static_cast<FindingGroup>(g);
    const std::string words = group_text(group, shown.counts[g]);
    const float wide = m.px(22) + text_size(kit.fonts().small, words).x + m.px(8);
    if (place.x + wide > right && place.x > at.x) {
      place.x = at.x;
      place.y += m.tight_row + m.px(3);
    }
    const Rect box{place, {place.x + wide, place.y + m.tight_row}};
    const bool on = state.only == group;
    const Pressed p = area(kit, "findings.only." + std::to_string(g), box, {.label = words});
    if (p.clicked) {
      state.only = on ? std::nullopt : std::optional(group);
      state.chosen.forget();
    }
    paint.fill(box, on ? t.selection : p.hovered ? t.raised_over : t.raised, m.radius);
    if (on) paint.frame(box, t.accent, m.hair, m.radius);
    const Rect sign = square_in({{box.min.x + m.px(4), box.min.y}, {box.min.x + m.px(20), box.max.y}}, m.px(13));
    if (group == FindingGroup::cover_gap) {
      draw_icon(paint, sign, Icon::broken_link, t.bad);
    } else {
      draw_mark(paint, sign, group_marks[g], t.of(group_marks[g]));
    }
    paint.text_in({{box.min.x + m.px(22), box.min.y}, {box.max.x, box.max.y}}, kit.fonts().small, t.text, words);
    place.x += wide + m.px(4);
  }
  ImGui::SetCursorScreenPos({at.x, place.y + m.tight_row + m.px(5)});
}

void draw_row(Kit& kit, Painter& paint, const Rect& at, const FindingRow& row) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const float line = FontMeasure(*kit.fonts().small).line_height();
  const float top = at.min.y + m.px(4);
  const Rect sign{{at.min.x + m.px(4), top}, {at.min.x + m.px(22), top + line}};
  const Colour ink = row.group == FindingGroup::cover_gap ? t.bad : t.of(row.mark);
  if (row.safety) {
    draw_sign(paint, square_in(sign, m.px(15)), *row.safety, t);
  } else {
    draw_mark(paint, square_in(sign, m.px(15)), row.mark, ink);
  }
  const float left = sign.max.x + m.px(4);
  float right = at.max.x - m.px(4);
  if (row.film) {
    const std::string when = short_clock_text(*row.film);
    const float wide = text_size(kit.fonts().small_digits, when).x;
    paint.text_in({{right - wide - 1, top}, {right, top + line}}, kit.fonts().small_digits, t.muted, when,
                  Align::right);
    right -= wide + m.px(8);
  }
  const float used = paint.text_in({{left, top}, {right, top + line}}, kit.fonts().small_strong, ink, row.verdict);
  paint.text_in({{left + used + m.px(8), top}, {right, top + line}}, kit.fonts().small, t.muted, row.about);
  const TextBlock sentence(kit.fonts().small, row.sentence, at.max.x - m.px(6) - left, 2);
  sentence.draw(paint, {left, top + line}, t.text);
  paint.hline(at.max.y - m.hair, left, at.max.x, t.line, m.hair);
}

}  // namespace

void go_to_finding(const FindingRow& row, Asks& asks) {
  if (row.thing) asks.go_to(*row.thing, false);
  if (row.look_at) asks.look_at = row.look_at;
}

void draw_findings(Kit& kit, const FindingsShown& shown, FindingsState& state, Asks& asks) {
  const Metrics& m = kit.m();
  if (!shown.rows.empty()) counts_row(kit, shown, state);

  // Rows stand by group, so one group is one stretch of them.
  std::size_t first = 0;
  std::size_t count = shown.rows.size();
  if (state.only) {
    const auto group = static_cast<std::size_t>(*state.only);
    for (std::size_t g = 0; g < group; ++g) first += shown.counts[g];
    count = shown.counts[group];
  }
  std::optional<std::size_t> chosen;
  if (const auto& at = state.chosen.row; at && *at >= first && *at < first + count) chosen = *at - first;
  const float line = FontMeasure(*kit.fonts().small).line_height();
  const ListChange change =
      list(kit, "findings.list", count, chosen,
           {.row_height = line * 3 + m.px(9),
            .follow = std::exchange(state.follow, false),
            .empty_note = "Nothing checked yet. Tie figures together, or pin hazards, and what comes out stands here."},
           [&](Painter& paint, const ListRow& row) { draw_row(kit, paint, row.at, shown.rows[first + row.index]); });
  if ((change.moved || change.activated) && chosen) {
    state.chosen.choose(shown, first + *chosen);
    go_to_finding(shown.rows[first + *chosen], asks);
  }
}

}  // namespace sash::desk
