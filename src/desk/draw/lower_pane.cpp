#include "desk/draw/lower_pane.h"

#include <array>

#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/panes.h"

namespace sash::desk {

void draw_lower(Kit& kit, const Rect& at, const LowerFrame& frame, LowerState& state, Asks& asks) {
  const Metrics& m = kit.m();
  const Pane pane(kit, "findings", at, {.scrolls = false});
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {m.gap, m.px(2)});
  if (frame.proposals.rows.empty()) {
    state.page = LowerState::Page::findings;
    heading(kit, "Findings");
  } else {
    const std::array<std::string_view, 2> pages{"Findings", frame.proposals.heading};
    auto page = static_cast<std::size_t>(state.page);
    if (segments(kit, "lower.page", pages, page)) state.page = static_cast<LowerState::Page>(page);
    gap(kit, 2);
  }
  if (state.page == LowerState::Page::findings) {
    draw_findings(kit, frame.findings, state.findings, asks);
  } else {
    draw_proposals(kit, frame.proposals, frame.selection, frame.read_only, std::exchange(state.follow_proposal, false),
                   asks);
  }
  ImGui::PopStyleVar();
}

}  // namespace sash::desk
