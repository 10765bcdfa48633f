#include "desk/draw/sheet_tools.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/field.h"
#include "desk/draw/kit/panes.h"
#include "desk/shown/words.h"

namespace sash::desk {

void draw_column_heads(Kit& kit, const Rect& at, const SheetColumns& c) {
  Painter p;
  const Theme& t = kit.theme();
  p.fill(at, t.panel);
  p.hline(at.max.y - kit.m().hair, at.min.x, at.max.x, t.line, kit.m().hair);
  const auto head = [&](const SheetColumns::Column& column, std::string_view words, float extra = 0) {
    if (column.width <= 0) return;
    const Rect place{{at.min.x + column.x + kit.m().px(5), at.min.y}, {at.min.x + column.right() + extra, at.max.y}};
    p.text_in(place, kit.fonts().small_strong, t.muted, words);
  };
  head(c.scale, "Time");
  head(c.picture, "Picture");
  head(c.wave, "Sound", c.sound.width);
  head(c.figures, "Figures");
  head(c.safety, "Safety");
}

void draw_sheet_tools(Kit& kit, const Rect& at, const SheetFrame& frame, SheetState& state, Asks& asks) {
  const Metrics& m = kit.m();
  const Pane pane(kit, "sheet.tools", at, {.scrolls = false, .padded = false});
  ImGui::SetCursorScreenPos({at.min.x + m.px(6), at.min.y + std::round((at.height() - m.row) / 2)});
  const bool proposals = !frame.shown.proposals.empty();
  const float buttons = m.row * 2 + m.gap * 3;
  const float follow_width = state.follow ? 0 : button_width(kit, "Follow") + m.gap;
  const std::string proposed = count_text(frame.shown.proposals.size(), "proposal", "proposals");
  const float proposal_width = proposals ? button_width(kit, proposed) + m.gap : 0;
  const std::string hits = state.search.empty() ? std::string() : count_text(frame.shown.hits, "hit", "hits");
  const float hits_width = hits.empty() ? 0 : text_size(kit.fonts().small, hits).x + m.gap * 2;
  const float width = std::max(m.px(90), at.width() - buttons - follow_width - proposal_width - hits_width - m.px(14));
  if (std::exchange(state.to_search, false)) kit.focus().move_to("sheet.search", false);
  const FieldEdit e = field(
      kit, "sheet.search", state.search,
      {.hint = "Search: kind, substance, words, conflict…", .icon = Icon::search, .width = width, .select_all = true});
  if (e.escaped) state.search.clear();
  if (e.committed) asks.want(Action::next_pin);
  if (!hits.empty()) {
    ImGui::SameLine();
    const Rect place = take_place({hits_width - m.gap, m.row});
    Painter().text_in(place, kit.fonts().small, kit.theme().muted, hits, Align::centre);
  }
  ImGui::SameLine();
  if (button(kit, "sheet.previous", "",
             {.icon = Icon::chevron_up,
              .kind = ButtonKind::quiet,
              .tip = "Previous pin",
              .chord = binding(Action::previous_pin).chord})) {
    asks.want(Action::previous_pin);
  }
  ImGui::SameLine();
  if (button(kit, "sheet.next", "",
             {.icon = Icon::chevron_down,
              .kind = ButtonKind::quiet,
              .tip = "Next pin",
              .chord = binding(Action::next_pin).chord})) {
    asks.want(Action::next_pin);
  }
  if (proposals) {
    ImGui::SameLine();
    if (button(kit, "sheet.proposals", proposed,
               {.tip = "Walk the proposals: A accepts, X refuses", .chord = binding(Action::next_proposal).chord})) {
      asks.want(Action::next_proposal);
    }
  }
  if (!state.follow) {
    ImGui::SameLine();
    if (button(kit, "sheet.follow", "Follow",
               {.tip = "Keep the playhead in sight", .chord = binding(Action::follow).chord})) {
      asks.want(Action::follow);
    }
  }
}

}  // namespace sash::desk
