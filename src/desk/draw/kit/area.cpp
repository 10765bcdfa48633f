#include "desk/draw/kit/area.h"

#include <imgui_internal.h>

namespace sash::desk {

Rect take_place(ImVec2 size) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  ImGui::ItemSize(size);
  return {at, {at.x + size.x, at.y + size.y}};
}

void draw_ring(Kit& kit, Painter& paint, const Rect& at, float radius) {
  const float thick = kit.m().ring;
  paint.frame(at.shrunk(-thick - 1), kit.theme().focus, thick, radius + thick);
}

Pressed area(Kit& kit, std::string_view id, const Rect& at, const AreaLook& look) {
  Pressed out;
  const ImGuiIO& io = ImGui::GetIO();
  const ImGuiID key = ImHashStr(id.data(), id.size());
  const ImRect box(at.min, at.max);
  const bool keyboard = look.enabled && look.by_keyboard;
  Focus::State focus;
  if (keyboard) focus = kit.focus().enrol(id);
  kit.note(id, at, look.label, look.enabled, focus.has);

  ImGui::KeepAliveID(key);  // the id is ours, so the toolkit has not seen it being made
  const bool seen = ImGui::ItemAdd(box, key);
  if (seen && look.enabled) {
    constexpr ImGuiButtonFlags flags = ImGuiButtonFlags{ImGuiButtonFlags_MouseButtonLeft} |
                                       ImGuiButtonFlags{ImGuiButtonFlags_NoNavFocus} |
                                       ImGuiButtonFlags{ImGuiButtonFlags_AllowItemOverlap};
    ImGui::SetItemAllowOverlap();
    const bool was_down = ImGui::GetActiveID() == key;
    out.clicked = ImGui::ButtonBehavior(box, key, &out.hovered, &out.held, flags);
    out.began = out.held && !was_down;
    out.double_clicked = out.hovered && io.MouseDoubleClicked[0];
    out.right_clicked = out.hovered && io.MouseClicked[1];
    if (out.held && look.draggable) out.moved = io.MouseDelta;
    out.mouse = {io.MousePos.x - at.min.x, io.MousePos.y - at.min.y};
    out.mods = {io.KeyCtrl, io.KeyShift, io.KeyAlt, io.KeySuper};
    if (out.began && keyboard) {
      kit.focus().move_to(id, false);
      focus.has = true;
    }
  }
  out.focused = focus.has;
  out.arrived = focus.arrived;
  if (focus.has) {
    if (kit.keys().take({Key::enter, no_mods}) || kit.keys().take({Key::space, no_mods}) ||
        kit.keys().take({Key::pad_enter, no_mods})) {
      out.clicked = true;
    }
    if (focus.arrived && focus.ring) ImGui::ScrollToBringRectIntoView(ImGui::GetCurrentWindow(), box);
    if (focus.ring) {
      Painter paint;
      draw_ring(kit, paint, at, look.radius < 0 ? kit.m().radius : look.radius);
    }
  }
  return out;
}

}  // namespace sash::desk
