#include "desk/draw/workings.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/font_measure.h"
#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/field.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/plot_view.h"
#include "desk/draw/kit/signs.h"
#include "desk/draw/kit/text_block.h"
#include "desk/draw/written.h"
#include "desk/shown/words.h"

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

void bar_row(Kit& kit, const std::string& id, const FigureBar& bar, Asks& asks, std::vector<FigureAnchor>& anchors) {
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
  if (r.proposed) {
    draw_icon(paint, square_in(sign, m.px(15)), Icon::relation, t.muted);
  } else {
    draw_mark(paint, square_in(sign, m.px(16)), r.tone, t.of(r.tone));
  }
  const float left = sign.max.x + m.px(2);
  const float right = at.x + whole - tools;
  const float used = paint.text_in({{left, at.y}, {right, at.y + m.tight_row}}, kit.fonts().strong,
                                   r.proposed ? t.muted : t.of(r.tone), r.verdict);
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
    bar_row(kit, id + ".figure." + std::to_string(bar.figure.number), bar, asks, anchors);
  points(kit, "What would settle it", r.missing, t.open);
  points(kit, "", r.culprits, t.bad);
  points(kit, "What would make it agree", r.explanations, t.accent);
  if (!r.tolerance.empty()) paragraph(kit.fonts().small, t.muted, r.tolerance);
  points(kit, "", r.notes, t.faint);
}

// --- putting a relation together

class Wiring {
 public:
  Wiring(Kit& kit, const session::SessionView& view, WorkingsState& state, Asks& asks,
         std::vector<FigureAnchor>& anchors)
      : kit_(kit), view_(view), state_(state), wiring_(*state.wiring), asks_(asks), anchors_(anchors) {}

  void run() {
    const Theme& t = kit_.theme();
    const RelationShape* shape = shape_of(wiring_.relation.type);
    const std::string lack = shape == nullptr ? std::string() : lacking(wiring_.relation);
    if (head(lack)) return;
    type();
    if (shape == nullptr) {
      paragraph(kit_.fonts().small, t.muted, "Relations of this type are made by the program only.");
      return;
    }
    paragraph(kit_.fonts().small, t.muted, shape->says);
    for (const GivenShape& given : shape->given) {
      if (given.key.starts_with("equation")) equation(given);
    }
    paragraph(
        kit_.fonts().small, t.accent,
        "Click figures in the sheet to put them in or take them out; or go to them with \u2191 \u2193 and press W.");
    for (const SlotShape& slot : shape->slots) slot_rows(slot);
    for (const GivenShape& given : shape->given) {
      if (!given.key.starts_with("equation")) given_field(given);
    }
    if (!lack.empty()) paragraph(kit_.fonts().small, t.muted, lack);
  }

 private:
  /// The title and what ends it, always in sight; true when it ended.
  bool head(const std::string& lack) {
    const Metrics& m = kit_.m();
    const float wide = button_width(kit_, "Keep", Icon::tick) + m.row + m.gap * 2;
    const ImVec2 top = ImGui::GetCursorScreenPos();
    const Rect tools = heading(kit_, wiring_.relation.id.known() ? "Change relation" : "New relation", wide);
    const ImVec2 below = ImGui::GetCursorScreenPos();
    ImGui::SetCursorScreenPos({tools.min.x + m.gap, top.y});
    const bool keep = button(kit_, "wire.keep", "Keep",
                             {.icon = Icon::tick,
                              .kind = ButtonKind::primary,
                              .enabled = lack.empty(),
                              .tip = lack,
                              .chord = binding(Action::keep_relation).chord});
    ImGui::SameLine();
    const bool leave = button(
        kit_, "wire.leave", "",
        {.icon = Icon::cross, .kind = ButtonKind::quiet, .tip = "Leave it", .chord = binding(Action::leave).chord});
    ImGui::SetCursorScreenPos(below);
    if (keep) asks_.want(Action::keep_relation);
    if (leave) state_.wiring.reset();
    return leave;
  }

  void type() {
    std::vector<std::string_view> names;
    std::size_t chosen = 0;
    for (const RelationShape& s : relation_shapes()) {
      if (s.type == wiring_.relation.type) chosen = names.size();
      names.push_back(words_of(s.type));
    }
    if (!choice(kit_, "wire.type", names, chosen)) return;
    wiring_.type_chosen = true;
    retype(wiring_, view_.record, relation_shapes()[chosen].type);
  }

  void equation(const GivenShape& given) {
    std::string& text = wiring_.relation.given[std::string(given.key)];
    const std::string id = "wire." + std::string(given.key);
    field(kit_, id, text, {.hint = given.hint, .label = given.words});
    const EquationOffer offer = offer_for(text);
    const Theme& t = kit_.theme();
    switch (offer.state) {
      case EquationOffer::State::empty:
        break;
      case EquationOffer::State::balanced:
        ImGui::PushFont(kit_.fonts().small);
        paragraph(kit_.fonts().small, t.good, "Balanced: " + offer.text);
        ImGui::PopFont();
        break;
      case EquationOffer::State::cannot:
        paragraph(kit_.fonts().small, t.bad, offer.text);
        break;
      case EquationOffer::State::balance_offered:
        Typeset::formula(offer.text).put(kit_.fonts(), t.text);
        if (button(kit_, id + ".balance", "Use it balanced", {.icon = Icon::tick})) text = offer.text;
        break;
    }
  }

  void slot_rows(const SlotShape& slot) {
    const Metrics& m = kit_.m();
    const Theme& t = kit_.theme();
    const bool wanted = wiring_.slot && *wiring_.slot == slot.slot;
    const Rect head = take_place({ImGui::GetContentRegionAvail().x, m.tight_row});
    const Pressed p = area(kit_, "wire.slot." + std::string(slot.slot), head, {.label = slot.words});
    if (p.clicked) wiring_.slot = wanted ? std::nullopt : std::optional(std::string(slot.slot));
    Painter paint;
    if (wanted || p.hovered) paint.fill(head, wanted ? t.selection : t.raised.faded(0.6F), m.radius);
    const bool filled = std::any_of(wiring_.relation.terms.begin(), wiring_.relation.terms.end(),
                                    [&](const auto& term) { return term.slot == slot.slot; });
    const ImVec2 dot{head.min.x + m.px(9), head.centre().y};
    if (filled) {
      paint.list().AddCircleFilled(dot, m.px(4), t.accent.packed());
    } else {
      paint.list().AddCircle(dot, m.px(4), t.faint.packed(), 0, m.hair);
    }
    const float used = paint.text_in({{head.min.x + m.px(20), head.min.y}, head.max}, kit_.fonts().small_strong,
                                     filled ? t.text : t.muted, slot.words);
    paint.text_in({{head.min.x + m.px(26) + used, head.min.y}, head.max}, kit_.fonts().small, t.faint,
                  wanted      ? "next figure goes here"
                  : slot.many ? "any number"
                              : "");
    for (std::size_t i = 0; i < wiring_.relation.terms.size(); ++i) {
      if (wiring_.relation.terms[i].slot == slot.slot && !term_row(slot, i)) return;
    }
  }

  /// False when the term was taken out.
  bool term_row(const SlotShape& slot, std::size_t i) {
    const Metrics& m = kit_.m();
    const Theme& t = kit_.theme();
    model::Term& term = wiring_.relation.terms[i];
    const auto* figure = model::find(view_.record, term.figure);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float whole = ImGui::GetContentRegionAvail().x;
    Painter paint;
    const float left = at.x + m.px(20);
    const float about = slot.about ? std::min(whole * 0.42F, m.px(150)) : 0;
    if (figure != nullptr) {
      draw_glyph(paint, square_in({{left, at.y}, {left + m.px(16), at.y + m.row}}, m.px(13)), family_of(figure->kind),
                 t.of(family_of(figure->kind)));
      paint.text_in({{left + m.px(20), at.y}, {at.x + whole - about - m.row, at.y + m.row}}, kit_.fonts().body, t.text,
                    figure_text(*figure) + (figure->subject.empty() ? "" : "  " + figure->subject));
      anchors_.push_back({figure->id, {at.x, at.y + m.row / 2}});
    }
    const std::string id = "wire.term." + std::to_string(term.figure.number);
    ImGui::SetCursorScreenPos({at.x + whole - about - m.row, at.y});
    if (slot.about) {
      field(kit_, id + ".about", term.about, {.hint = "which, e.g. Cu", .width = about - m.gap});
      ImGui::SameLine();
    }
    ImGui::SetCursorScreenPos({at.x + whole - m.row, at.y});
    if (button(kit_, id + ".out", "", {.icon = Icon::cross, .kind = ButtonKind::quiet, .tip = "Take it out"})) {
      wiring_.relation.terms.erase(wiring_.relation.terms.begin() + static_cast<std::ptrdiff_t>(i));
      return false;
    }
    return true;
  }

  void given_field(const GivenShape& given) {
    const Metrics& m = kit_.m();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float label = m.small * 7.5F;
    Painter().text_in({at, {at.x + label, at.y + m.row}}, kit_.fonts().small, kit_.theme().muted, given.words);
    ImGui::SetCursorScreenPos({at.x + label, at.y});
    std::string& text = wiring_.relation.given[std::string(given.key)];
    field(kit_, "wire." + std::string(given.key), text, {.hint = given.hint});
  }

  Kit& kit_;
  const session::SessionView& view_;
  WorkingsState& state_;
  WiringState& wiring_;
  Asks& asks_;
  std::vector<FigureAnchor>& anchors_;
};

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
    Wiring(kit, view, state, asks, anchors).run();
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
  if (!shown.said_of_all.empty() && shown.findings.empty()) {
    rule(kit);
    paragraph(kit.fonts().small, t.muted, shown.said_of_all);
  }
  ImGui::PopStyleVar();
}

}  // namespace sash::desk
