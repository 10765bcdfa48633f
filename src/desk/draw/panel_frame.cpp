#include "desk/draw/panel_frame.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/kit/controls.h"

namespace sash::desk {
namespace {

template <class Draw>
void over_everything(const Rect& at, Draw&& draw) {
  Painter paint;
  paint.list().PushClipRect(at.min, at.max, false);
  draw(paint);
  paint.unclip();
}

}  // namespace

PanelFrameBox::PanelFrameBox(Kit& kit, std::string_view id, const Rect& at, std::string_view title, PanelState& state)
    : pane_(kit, id, at, {}), at_(at), kit_(kit) {
  const Metrics& m = kit.m();
  // Painted here, not by the toolkit: it would paint the ground of a pane beneath panes it overlaps.
  over_everything(at_, [&](Painter& paint) { paint.fill(at_, kit.theme().panel, m.radius); });
  const ImVec2 top = ImGui::GetCursorScreenPos();
  const Rect tools = heading(kit, title, m.row);
  const ImVec2 below = ImGui::GetCursorScreenPos();
  ImGui::SetCursorScreenPos({tools.min.x, top.y});
  if (button(kit, "panel.close", "",
             {.icon = Icon::cross, .kind = ButtonKind::quiet, .tip = "Close", .chord = binding(Action::leave).chord}))
    state.open = Panel::none;
  ImGui::SetCursorScreenPos(below);
}

PanelFrameBox::~PanelFrameBox() {
  over_everything(at_, [&](Painter& paint) { paint.frame(at_, kit_.theme().accent, kit_.m().hair, kit_.m().radius); });
}

Rect middle_of(const Rect& in, float width, float height) {
  width = std::min(width, in.width());
  height = std::min(height, in.height());
  const float x = std::round(in.min.x + (in.width() - width) / 2);
  const float y = std::round(in.min.y + (in.height() - height) / 2);
  return {{x, y}, {x + width, y + height}};
}

}  // namespace sash::desk
