#include "desk/draw/action_panel.h"

#include <algorithm>

#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/field.h"
#include "desk/draw/panel_frame.h"

namespace sash::desk {
namespace {

constexpr std::size_t most_rows = 12;

void walk(FrameKeys& keys, std::size_t count, std::size_t& chosen) {
  if (keys.take({Key::down, no_mods}, true)) ++chosen;
  if (keys.take({Key::up, no_mods}, true) && chosen > 0) --chosen;
  chosen = std::min(chosen, count == 0 ? 0 : count - 1);
}

}  // namespace

void draw_action_panel(Kit& kit, const Rect& in, PanelState& state, Asks& asks) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const float rows = m.tight_row * static_cast<float>(most_rows);
  const Rect at = middle_of(in, m.px(520), m.row * 2 + rows + m.pad * 2 + m.gap * 3);
  const PanelFrameBox box(kit, "panel.actions", at, "What do you want to do?", state);
  if (std::exchange(state.fresh, false)) {
    state.action_words.clear();
    state.action = 0;
    kit.focus().move_to("actions.words", false);
  }
  std::vector<Action> found = find_actions(state.action_words);
  walk(kit.keys(), found.size(), state.action);
  const FieldEdit e =
      field(kit, "actions.words", state.action_words, {.hint = "pin, export, proposal, theme…", .icon = Icon::search});
  if (e.changed) {
    found = find_actions(state.action_words);
    state.action = 0;
  }
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {m.gap, 0});
  // The chosen row stays in sight.
  const std::size_t first = state.action >= most_rows ? state.action - most_rows + 1 : 0;
  std::optional<Action> taken;
  if (e.committed && state.action < found.size()) taken = found[state.action];
  for (std::size_t i = first; i < std::min(found.size(), first + most_rows); ++i) {
    const KeyBinding& b = binding(found[i]);
    const Rect row = take_place({ImGui::GetContentRegionAvail().x, m.tight_row});
    const Pressed p = area(kit, "actions." + std::to_string(i), row, {.label = b.words, .by_keyboard = false});
    Painter paint;
    if (i == state.action || p.hovered) paint.fill(row, i == state.action ? t.selection : t.raised_over, m.radius);
    const std::string chord = chord_text(found[i]);
    const float wide = text_size(kit.fonts().small_strong, chord).x;
    paint.text_in({{row.min.x + m.px(8), row.min.y}, {row.max.x - wide - m.gap, row.max.y}}, kit.fonts().body, t.text,
                  b.words);
    paint.text_in({{row.max.x - wide - m.px(9), row.min.y}, {row.max.x - m.px(8), row.max.y}}, kit.fonts().small_strong,
                  t.muted, chord);
    if (p.clicked) taken = found[i];
  }
  ImGui::PopStyleVar();
  if (!taken) return;
  state.open = Panel::none;
  kit.focus().let_go();
  asks.want(*taken);
}

}  // namespace sash::desk
