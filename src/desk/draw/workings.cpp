#include "desk/draw/workings.h"

#include "desk/draw/figure_bar.h"
#include "desk/draw/font_measure.h"
#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/plot_view.h"
#include "desk/draw/kit/signs.h"
#include "desk/draw/kit/text_block.h"
#include "desk/draw/wiring.h"
#include "desk/draw/written.h"
#include "desk/shown/words.h"

namespace sash::desk {
namespace {

void points(Kit& kit, std::string_view title, const std::vector<std::string>& list, Colour c) {
  if (list.empty()) return;
  if (!title.empty()) paragraph(kit.fonts().small_strong, c, title);
  const Metrics& m = kit.m();
  for (const std::string& words : list) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float line = FontMeasure(*kit.fonts().small).line_height();
    Painter().list().AddCircleFilled({at.x + m.px(5), at.y + line / 2 - m.px(1)}, m.px(2), c.packed());
    ImGui::Indent(m.px(14));
    paragraph(kit.fonts().small, kit.theme().text, words);
    ImGui::Unindent(m.px(14));
  }
}

void relation_head(Kit& kit, const RelationShown& r, const std::string& id, const session::SessionView& view,
                   WorkingsState& state, Asks& asks) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float whole = ImGui::GetContentRegionAvail().x;
  const bool may_change = r.relation && !view.read_only;
  const float tools = may_change ? m.tight_row * 2 + m.gap : 0;
  Painter paint;
  const Rect sign{at, {at.x + m.px(20), at.y + m.tight_row}};
  if (!r.judged) {
    draw_icon(paint, square_in(sign, m.px(15)), Icon::relation, t.muted);
  } else {
    draw_mark(paint, square_in(sign, m.px(16)), r.tone, t.of(r.tone));
  }
  const float left = sign.max.x + m.px(2);
  const float right = at.x + whole - tools;
  const float used = paint.text_in({{left, at.y}, {right, at.y + m.tight_row}}, kit.fonts().strong,
                                   r.judged ? t.of(r.tone) : t.muted, r.verdict);
  const bool beside = left + used + m.px(8) + text_size(kit.fonts().body, r.title).x <= right;
  if (beside)
    paint.text_in({{left + used + m.px(8), at.y}, {right, at.y + m.tight_row}}, kit.fonts().body, t.text, r.title);
  ImGui::SetCursorScreenPos({right, at.y});
  const auto title_below = [&] {
    if (!beside) paragraph(kit.fonts().strong, t.text, r.title);
  };
  if (!may_change) {
    take_place({1, m.tight_row});
    return title_below();
  }
  if (button(kit, id + ".change", "",
             {.icon = Icon::pencil, .kind = ButtonKind::quiet, .tip = "Change this relation", .height = m.tight_row})) {
    if (const auto* relation = model::find(view.record, *r.relation)) change_wiring(state, *relation);
  }
  ImGui::SameLine(0, m.px(2));
  if (button(kit, id + ".remove", "",
             {.icon = Icon::bin, .kind = ButtonKind::quiet, .tip = "Remove this relation", .height = m.tight_row})) {
    asks.want(session::RemoveThings{{*r.relation}});
    asks.select = Selection{};
  }
  title_below();
}

// Opened and closed by its button; one plot is open at a time.
void plot_of_relation(Kit& kit, const RelationShown& r, const std::string& id, WorkingsState& state) {
  if (!r.plot || !r.relation) return;
  const bool open = state.plotted == r.relation;
  bool opened = false;
  if (button(kit, id + ".plot", open ? "Hide plot" : "Plot",
             {.icon = Icon::plot, .kind = ButtonKind::quiet, .on = open, .tip = r.plot->title})) {
    state.plotted = open ? std::nullopt : r.relation;
    state.plot_reading.reset();
    opened = !open;
  }
  if (state.plotted != r.relation) return;
  paragraph(kit.fonts().small_strong, kit.theme().text, r.plot->title);
  plot_view(kit, id + ".plot.view", *r.plot, state.plot_reading);
  paragraph(kit.fonts().small, kit.theme().muted, r.plot->reading);
  if (opened) ImGui::SetScrollHereY(1);  // all of it comes into sight
}

void draw_relation(Kit& kit, const RelationShown& r, std::size_t number, const WorkingsShown& shown,
                   const session::SessionView& view, WorkingsState& state, Asks& asks,
                   std::vector<FigureAnchor>& anchors) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const std::string id = "workings." + std::to_string(number);
  relation_head(kit, r, id, view, state, asks);
  paragraph(kit.fonts().body, t.text, r.sentence);
  if (r.proposed && !view.read_only && r.relation) {
    if (button(kit, id + ".accept", "Accept", {.icon = Icon::tick, .kind = ButtonKind::primary}))
      asks.want(session::Accept{{*r.relation}});
    ImGui::SameLine();
    if (button(kit, id + ".refuse", "Refuse", {.icon = Icon::cross})) asks.want(session::Refuse{{*r.relation}});
  }
  if (!r.lines.empty()) {
    const ImVec2 top = ImGui::GetCursorScreenPos();
    ImGui::Indent(m.px(8));
    draw_written(kit, id + ".line", r.lines, shown.constants, asks);
    ImGui::Unindent(m.px(8));
    Painter().vline(top.x, top.y, ImGui::GetCursorScreenPos().y - m.gap, t.line, m.px(2));
  }
  plot_of_relation(kit, r, id, state);
  for (const FigureBar& bar : r.bars)
    draw_figure_bar(kit, id + ".figure." + std::to_string(bar.figure.number), bar, asks, anchors);
  points(kit, "What would settle it", r.missing, t.open);
  points(kit, "", r.culprits, t.bad);
  points(kit, "What would make it agree", r.explanations, t.accent);
  if (!r.tolerance.empty()) paragraph(kit.fonts().small, t.muted, r.tolerance);
  points(kit, "", r.notes, t.faint);
}

}  // namespace

void begin_wiring(WorkingsState& state) { state.wiring = WiringState{}; }

void change_wiring(WorkingsState& state, const model::Relation& relation) {
  state.wiring = WiringState{.relation = relation, .type_chosen = true};
}

void draw_workings(Kit& kit, const Rect& at, const WorkingsShown& shown, const session::SessionView& view,
                   WorkingsState& state, Asks& asks, std::vector<FigureAnchor>& anchors) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const Pane pane(kit, "workings", at, {});
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {m.gap, m.px(4)});
  if (state.wiring) {
    draw_wiring(kit, view, state.wiring, asks, anchors);
    ImGui::PopStyleVar();
    return;
  }
  const float wide = view.read_only ? 0 : button_width(kit, "Tie", Icon::link);
  const ImVec2 top = ImGui::GetCursorScreenPos();
  const Rect tools = heading(kit, shown.heading, wide + m.gap);
  if (wide > 0) {
    const ImVec2 below = ImGui::GetCursorScreenPos();
    ImGui::SetCursorScreenPos({tools.min.x + m.gap, top.y});
    if (button(kit, "workings.wire", "Tie",
               {.icon = Icon::link, .tip = binding(Action::wire).words, .chord = binding(Action::wire).chord}))
      asks.want(Action::wire);
    ImGui::SetCursorScreenPos(below);
  }
  for (const std::string& remark : shown.remarks) paragraph(kit.fonts().body, t.muted, remark);
  points(kit, "", shown.findings, t.accent);
  for (std::size_t i = 0; i < shown.relations.size(); ++i) {
    if (i > 0) rule(kit);
    draw_relation(kit, shown.relations[i], i, shown, view, state, asks, anchors);
  }
  if (!shown.sources.empty()) rule(kit);
  points(kit, "Constants", shown.sources, t.muted);
  if (!shown.said_of_all.empty() && shown.findings.empty()) {
    rule(kit);
    paragraph(kit.fonts().small, t.muted, shown.said_of_all);
  }
  ImGui::PopStyleVar();
}

}  // namespace sash::desk
