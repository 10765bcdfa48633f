#include "desk/draw/editor.h"

#include <array>
#include <cmath>

#include "desk/draw/editor_form.h"
#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/text_block.h"

namespace sash::desk {
namespace {

// What was typed into the pin that is no longer selected, by a key that went elsewhere, is kept all the same.
void keep_typed(const EditorState& state, Asks& asks) {
  if (!state.base) return;
  model::Thing thing = *state.base;
  for (const auto& [field, typed] : state.texts) {
    if (typed == field_text(*state.base, field)) continue;
    if (const auto changed = with_field(thing, field, typed)) thing = *changed;
  }
  if (thing != *state.base) asks.want(session::PutThing{thing, edit_name(thing)});
}

// Takes the fields' texts from the record when another pin is selected or the pin changed under us.
void refresh(const EditorShown& shown, EditorState& state, Asks& asks) {
  const auto ref = shown.thing ? std::optional(ref_of(*shown.thing)) : std::nullopt;
  const bool other = ref != state.on;
  if (!other && shown.thing == state.base) return;
  if (!other) state.fresh = false;
  if (other) {
    if (!shown.read_only) keep_typed(state, asks);
    state.typed.clear();
    state.naming_portion = false;
    state.faults.clear();
  }
  for (int i = 0; i <= static_cast<int>(PinField::until); ++i) {
    const auto field = static_cast<PinField>(i);
    // A field being typed in while another one is committed keeps what was typed.
    const bool untouched = other || !state.base || state.texts[field] == field_text(*state.base, field);
    if (shown.thing && (untouched || !state.faults.contains(field)))
      state.texts[field] = field_text(*shown.thing, field);
  }
  state.on = ref;
  state.base = shown.thing;
}

void head(Kit& kit, const EditorShown& shown, Asks& asks) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float whole = ImGui::GetContentRegionAvail().x;
  Painter paint;
  draw_icon(paint, square_in({at, {at.x + m.icon, at.y + m.row}}, m.icon), shown.icon, t.accent);
  const float accept = shown.proposed && !shown.read_only ? button_width(kit, "Accept", Icon::tick) +
                                                                button_width(kit, "Refuse", Icon::cross) + m.gap * 2
                                                          : 0;
  const float tools = accept + (shown.read_only ? 0 : m.row);
  const float left = at.x + m.icon + m.px(6);
  const float used =
      paint.text_in({{left, at.y}, {at.x + whole - tools, at.y + m.row}}, kit.fonts().strong, t.text, shown.title);
  paint.text_in({{left + used + m.px(8), at.y}, {at.x + whole - tools - m.px(4), at.y + m.row}}, kit.fonts().small,
                t.muted, shown.origin);
  if (!shown.origin.empty()) tip(kit, {{left + used, at.y}, {at.x + whole - tools, at.y + m.row}}, shown.origin);
  ImGui::SetCursorScreenPos({at.x + whole - tools, at.y});
  if (accept > 0) {
    if (button(kit, "pin.accept", "Accept",
               {.icon = Icon::tick, .kind = ButtonKind::primary, .chord = binding(Action::accept).chord}))
      asks.want(Action::accept);
    ImGui::SameLine();
    if (button(kit, "pin.refuse", "Refuse", {.icon = Icon::cross, .chord = binding(Action::refuse).chord}))
      asks.want(Action::refuse);
    ImGui::SameLine();
  }
  if (!shown.read_only && button(kit, "pin.remove", "",
                                 {.icon = Icon::bin,
                                  .kind = ButtonKind::quiet,
                                  .tip = binding(Action::remove_pin).words,
                                  .chord = binding(Action::remove_pin).chord})) {
    asks.want(Action::remove_pin);
  }
  if (shown.read_only) take_place({1, m.row});
}

// Nothing is selected: what can be pinned, as buttons that name their keys.
void pin_buttons(Kit& kit, const EditorShown& shown, Asks& asks) {
  const Metrics& m = kit.m();
  paragraph(kit.fonts().small, kit.theme().muted,
            shown.read_only ? "This record is open for reading only." : "Pin at the playhead:");
  if (shown.read_only) return;
  struct Choice {
    std::string_view id;
    std::string_view label;
    Icon icon;
    Action action;
  };
  static constexpr std::array choices{Choice{"pin.new.figure", "Figure", Icon::figure, Action::pin_figure},
                                      Choice{"pin.new.yield", "Yield", Icon::yield, Action::pin_yield},
                                      Choice{"pin.new.hazard", "Hazard", Icon::hazard, Action::pin_hazard},
                                      Choice{"pin.new.note", "Note", Icon::note, Action::pin_note},
                                      Choice{"pin.new.chapter", "Chapter", Icon::chapter, Action::pin_chapter},
                                      Choice{"pin.new.line", "Narration", Icon::lines, Action::write_line}};
  const float right = ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x;
  bool first = true;
  for (const Choice& c : choices) {
    const float wide = button_width(kit, c.label, c.icon);
    if (!std::exchange(first, false) && ImGui::GetItemRectMax().x + m.gap + wide <= right) ImGui::SameLine();
    if (button(kit, c.id, c.label, {.icon = c.icon, .tip = binding(c.action).words, .chord = binding(c.action).chord}))
      asks.want(c.action);
  }
  gap(kit, 2);
  paragraph(kit.fonts().small, kit.theme().muted,
            "Or select words in the narration and press " + chord_text(Action::pin_figure) + ". " +
                chord_text(Action::show_keys) + " shows every key.");
}

}  // namespace

void draw_editor(Kit& kit, const Rect& at, const EditorShown& shown, EditorState& state, Asks& asks) {
  refresh(shown, state, asks);
  Painter().hline(at.min.y, at.min.x, at.max.x, kit.theme().line, kit.m().hair);
  const Pane pane(kit, "pin", {{at.min.x, at.min.y + kit.m().hair}, at.max}, {});
  if (!shown.thing) {
    pin_buttons(kit, shown, asks);
    state.to_first_field = false;
    return;
  }
  head(kit, shown, asks);
  draw_form(kit, shown, state, asks);
}

}  // namespace sash::desk
