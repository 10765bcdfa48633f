#include "desk/draw/kit/panes.h"

#include <algorithm>
#include <string>

namespace sash::desk {

Root::Root(Kit& kit) : rect_{{0, 0}, ImGui::GetIO().DisplaySize} {
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize(rect_.max);
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
  ImGui::PushStyleColor(ImGuiCol_WindowBg, kit.theme().ground.packed());
  ImGui::Begin("##desk", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                   ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoNav |
                   ImGuiWindowFlags_NoScrollWithMouse);
  ImGui::PopStyleColor();
  ImGui::PopStyleVar();
}

Root::~Root() { ImGui::End(); }

Pane::Pane(Kit& kit, std::string_view id, const Rect& at, const PaneLook& look) {
  const float pad = look.padded ? kit.m().pad : 0;
  ImGui::SetCursorScreenPos(at.min);
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {pad, pad});
  ImGui::PushStyleColor(ImGuiCol_ChildBg, look.ground ? kit.theme().panel.packed() : IM_COL32_BLACK_TRANS);
  ImGuiWindowFlags flags = ImGuiWindowFlags_NoNav | ImGuiWindowFlags_AlwaysUseWindowPadding;
  if (!look.scrolls) flags |= ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;
  const std::string name(id);
  ImGui::BeginChild(name.c_str(), {std::max(1.0F, at.width()), std::max(1.0F, at.height())}, false, flags);
  ImGui::PopStyleColor();
  ImGui::PopStyleVar();
  kit.note(id, at);
  hovered_ = ImGui::IsWindowHovered(ImGuiHoveredFlags_ChildWindows);
  const float bar = ImGui::GetScrollMaxY() > 0 ? kit.m().scrollbar : 0;
  inside_ = {{at.min.x + pad, at.min.y + pad}, {at.max.x - pad - bar, at.max.y - pad}};
}

Pane::~Pane() { ImGui::EndChild(); }

Floating::Floating(Kit& kit, std::string_view id, const Rect& at, float padding, std::optional<Colour> border) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  ImGui::SetNextWindowPos(at.min);
  ImGui::SetNextWindowSize({at.width(), at.height()});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {padding, padding});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowMinSize, {1, 1});
  ImGui::PushStyleColor(ImGuiCol_PopupBg, IM_COL32_BLACK_TRANS);
  const std::string name = "##float." + std::string(id);
  // The tooltip flag keeps it above the root without giving it the toolkit's own focus.
  ImGui::Begin(name.c_str(), nullptr,
               ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoNav | ImGuiWindowFlags_Tooltip);
  ImGui::PopStyleColor();
  ImGui::PopStyleVar(2);
  kit.note(id, at);
  Painter paint;
  ImDrawList& list = paint.list();
  list.PushClipRectFullScreen();
  paint.card(at, t.raised, border.value_or(t.strong_line), t.shadow, m.radius);
  list.PopClipRect();
}

Floating::~Floating() { ImGui::End(); }

Rect heading(Kit& kit, std::string_view title, float room_at_right) {
  const Metrics& m = kit.m();
  const Rect at = take_place({ImGui::GetContentRegionAvail().x, m.row});
  Painter paint;
  paint.text_in({at.min, {at.max.x - room_at_right, at.max.y}}, kit.fonts().strong, kit.theme().text, title);
  return {{at.max.x - room_at_right, at.min.y}, at.max};
}

void rule(Kit& kit) {
  const Rect at = take_place({ImGui::GetContentRegionAvail().x, kit.m().hair});
  Painter paint;
  paint.fill(at, kit.theme().line);
}

void gap(Kit& kit, float px_at_scale_one) { ImGui::Dummy({1, kit.m().px(px_at_scale_one)}); }

bool splitter(Kit& kit, std::string_view id, Axis axis, const Rect& bar, float& place, float least, float most,
              float usual) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const bool upright = axis == Axis::upright;
  const Pressed p = area(kit, id, bar, {.label = "splitter", .draggable = true, .radius = 2});
  const float before = place;
  if (p.held) place += upright ? p.moved.x : p.moved.y;
  if (p.double_clicked) place = usual;
  if (p.focused) {
    const float step = m.px(16);
    if (kit.keys().take({upright ? Key::left : Key::up, no_mods}, true)) place -= step;
    if (kit.keys().take({upright ? Key::right : Key::down, no_mods}, true)) place += step;
    if (kit.keys().take({Key::home, no_mods})) place = usual;
  }
  place = std::clamp(place, least, std::max(least, most));
  if (p.hovered || p.held) ImGui::SetMouseCursor(upright ? ImGuiMouseCursor_ResizeEW : ImGuiMouseCursor_ResizeNS);
  Painter paint;
  const ImVec2 c = bar.centre();
  const Colour dots = p.held || p.focused ? t.accent : p.hovered ? t.muted : t.strong_line;
  for (int i = -1; i <= 1; ++i) {
    const float off = static_cast<float>(i) * m.px(6);
    paint.list().AddCircleFilled({c.x + (upright ? 0 : off), c.y + (upright ? off : 0)}, std::max(1.0F, m.px(1.5F)),
                                 dots.packed());
  }
  return place != before;
}

}  // namespace sash::desk
