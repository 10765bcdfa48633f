#include "desk/draw/proposals.h"

#include <array>
#include <utility>

#include "desk/draw/font_measure.h"
#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/list.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/signs.h"
#include "desk/draw/kit/text_block.h"
#include "desk/shown/words.h"

namespace sash::desk {
namespace {

void draw_row(Kit& kit, Painter& paint, const Rect& at, const ProposalRow& row) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const float line = FontMeasure(*kit.fonts().small).line_height();
  const float top = at.min.y + m.px(4);
  const Rect sign = square_in({{at.min.x + m.px(4), top}, {at.min.x + m.px(22), top + line}}, m.px(14));
  if (row.family) {
    draw_glyph(paint, sign, *row.family, t.of(*row.family));
  } else if (row.safety && row.icon == Icon::hazard) {
    draw_sign(paint, sign, *row.safety, t);
  } else {
    draw_icon(paint, sign, row.icon, row.safety ? t.of(*row.safety).ink : t.accent);
  }
  const float left = at.min.x + m.px(26);
  float right = at.max.x - m.px(4);
  const std::string when = short_clock_text(row.film);
  const float wide = text_size(kit.fonts().small_digits, when).x;
  paint.text_in({{right - wide - 1, top}, {right, top + line}}, kit.fonts().small_digits, t.muted, when, Align::right);
  right -= wide + m.px(8);
  if (row.wrong) {
    const Rect mark{{right - line, top}, {right, top + line}};
    draw_mark(paint, square_in(mark, m.px(13)), Verdict::conflict, t.bad);
    right = mark.min.x - m.px(4);
  }
  const float used = paint.text_in({{left, top}, {right, top + line}}, kit.fonts().small_strong,
                                   row.wrong ? t.bad : t.text, row.title);
  paint.text_in({{left + used + m.px(8), top}, {right, top + line}}, kit.fonts().small, t.text, row.about);
  paint.text_in({{left, top + line}, {at.max.x - m.px(4), top + line * 2}}, kit.fonts().small, t.muted, row.why);
  paint.hline(at.max.y - m.hair, left, at.max.x, t.line, m.hair);
}

// In one row where there is room, with large text in two.
void settle_buttons(Kit& kit, const ProposalsShown& shown, Asks& asks) {
  struct Choice {
    std::string_view id;
    std::string_view label;
    Icon icon;
    Action action;
  };
  const std::array choices{Choice{"proposals.accept_all", shown.accept_all, Icon::tick, Action::accept_all},
                           Choice{"proposals.accept", "Accept", Icon::none, Action::accept},
                           Choice{"proposals.refuse", "Refuse", Icon::none, Action::refuse}};
  const float right = ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x;
  bool first = true;
  for (const Choice& c : choices) {
    const float wide = button_width(kit, c.label, c.icon);
    if (!std::exchange(first, false) && ImGui::GetItemRectMax().x + kit.m().gap + wide <= right) ImGui::SameLine();
    const bool all = c.action == Action::accept_all;
    if (button(kit, c.id, c.label,
               {.icon = c.icon,
                .kind = all ? ButtonKind::primary : ButtonKind::plain,
                .enabled = !all || !shown.sure.empty(),
                .tip = binding(c.action).words,
                .chord = binding(c.action).chord}))
      asks.want(c.action);
  }
}

}  // namespace

void draw_proposals(Kit& kit, const ProposalsShown& shown, const Selection& selection, bool read_only, bool follow,
                    Asks& asks) {
  const Metrics& m = kit.m();
  if (!read_only && !shown.rows.empty()) settle_buttons(kit, shown, asks);
  const float line = FontMeasure(*kit.fonts().small).line_height();
  if (!shown.outlook.empty()) {
    const Rect place = take_place({ImGui::GetContentRegionAvail().x, std::round(line * 1.2F)});
    const Rect sign{place.min, {place.min.x + m.px(20), place.max.y}};
    const Colour ink = shown.outlook_bad ? kit.theme().bad : kit.theme().muted;
    const Pressed p = area(kit, "proposals.outlook", place, {.label = shown.outlook});
    if (p.clicked) asks.want(Action::next_finding);
    Painter paint;
    if (p.hovered) paint.fill(place, kit.theme().raised, m.radius);
    draw_mark(paint, square_in(sign, m.px(13)), shown.outlook_bad ? Verdict::conflict : Verdict::agrees, ink);
    paint.text_in({{sign.max.x, place.min.y}, place.max}, kit.fonts().small, ink, shown.outlook);
    tip(kit, place, binding(Action::next_finding).words, binding(Action::next_finding).chord);
  }
  std::optional<std::size_t> chosen = row_of(shown, selection);
  const ListChange change =
      list(kit, "proposals.list", shown.rows.size(), chosen,
           {.row_height = line * 2 + m.px(9),
            .follow = follow,
            .empty_note = "Every proposal has been looked at. R reads the narration again."},
           [&](Painter& paint, const ListRow& row) { draw_row(kit, paint, row.at, shown.rows[row.index]); });
  if (!chosen) return;
  if (change.moved) asks.go_to(shown.things[*chosen]);
  if (change.activated) {
    asks.go_to(shown.things[*chosen]);
    asks.edit = true;
  }
}

}  // namespace sash::desk
