#include "desk/draw/wiring.h"

#include <algorithm>

#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/field.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/signs.h"
#include "desk/draw/kit/text_block.h"
#include "desk/draw/kit/typeset.h"
#include "desk/shown/wiring.h"
#include "desk/shown/words.h"

namespace sash::desk {
namespace {

class Wiring {
 public:
  Wiring(Kit& kit, const session::SessionView& view, std::optional<WiringState>& holder, Asks& asks,
         std::vector<FigureAnchor>& anchors)
      : kit_(kit), view_(view), holder_(holder), wiring_(*holder), asks_(asks), anchors_(anchors) {}

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
    if (leave) holder_.reset();
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
  std::optional<WiringState>& holder_;
  WiringState& wiring_;
  Asks& asks_;
  std::vector<FigureAnchor>& anchors_;
};

}  // namespace

void draw_wiring(Kit& kit, const session::SessionView& view, std::optional<WiringState>& wiring, Asks& asks,
                 std::vector<FigureAnchor>& anchors) {
  Wiring(kit, view, wiring, asks, anchors).run();
}

}  // namespace sash::desk
