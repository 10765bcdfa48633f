#include "desk/draw/kit/field.h"

#include <imgui_internal.h>
#include <imgui_stdlib.h>

#include <cmath>

namespace sash::desk {
namespace {

struct Watched {
  int cursor = 0;
  bool to_end = false;
};

int watch(ImGuiInputTextCallbackData* data) {
  auto& watched = *static_cast<Watched*>(data->UserData);
  if (watched.to_end) {
    data->CursorPos = data->BufTextLen;
    data->ClearSelection();
    watched.to_end = false;
  }
  watched.cursor = data->CursorPos;
  return 0;
}

/// The toolkit's editor without its own look; true when the text changed.
bool edit(std::string& text, const Rect& in, const FieldLook& look, Kit& kit, Watched& watched, bool arrived) {
  ImGuiInputTextFlags flags = ImGuiInputTextFlags_CallbackAlways;
  if (look.select_all) flags |= ImGuiInputTextFlags_AutoSelectAll;
  if (!look.enabled) flags |= ImGuiInputTextFlags_ReadOnly;
  ImGui::SetCursorScreenPos(in.min);
  ImGui::PushFont(look.digits ? kit.fonts().digits : kit.fonts().body);
  ImGui::PushStyleColor(ImGuiCol_FrameBg, IM_COL32_BLACK_TRANS);
  ImGui::PushStyleColor(ImGuiCol_Text, (look.enabled ? kit.theme().text : kit.theme().faint).packed());
  const float air = look.lines > 1 ? kit.m().px(4) : std::round((in.height() - ImGui::GetFontSize()) / 2);
  ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {0, air});
  if (arrived) ImGui::SetKeyboardFocusHere();
  bool changed = false;
  if (look.lines > 1) {
    changed = ImGui::InputTextMultiline("##text", &text, {in.width(), in.height()}, flags, watch, &watched);
  } else {
    ImGui::SetNextItemWidth(in.width());
    changed = ImGui::InputText("##text", &text, flags, watch, &watched);
  }
  ImGui::PopStyleVar();
  ImGui::PopStyleColor(2);
  ImGui::PopFont();
  return changed;
}

}  // namespace

FieldEdit field(Kit& kit, std::string_view id, std::string& text, const FieldLook& look) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  FieldEdit out;
  const float width = look.width > 0 ? look.width : ImGui::GetContentRegionAvail().x;
  const float label_height = look.label.empty() ? 0 : std::round(m.small * 1.5F);
  const float line = std::round(m.body * 1.3F);
  const float height = look.lines > 1 ? line * static_cast<float>(look.lines) + m.px(8) : m.row;
  const float fault_height = look.fault.empty() ? 0 : std::round(m.small * 1.6F);
  const ImVec2 top = ImGui::GetCursorScreenPos();
  out.box = {{top.x, top.y + label_height}, {top.x + width, top.y + label_height + height}};
  Painter paint;
  if (label_height > 0) {
    paint.text_in({top, {top.x + width, top.y + label_height - m.px(2)}}, kit.fonts().small, t.muted, look.label);
  }

  Focus::State focus;
  if (look.enabled) focus = kit.focus().enrol(id);
  kit.note(id, out.box, text, look.enabled, focus.has);
  paint.fill(out.box, look.enabled ? t.sunken : t.raised.faded(0.5F), m.radius);
  const float sign = look.icon == Icon::none ? 0 : m.icon + m.gap;
  if (sign > 0) {
    const float x = out.box.min.x + m.inset;
    draw_icon(paint, square_in({{x, out.box.min.y}, {x + m.icon, out.box.max.y}}, m.icon), look.icon, t.muted);
  }
  const Rect in{{out.box.min.x + m.inset + sign, out.box.min.y}, {out.box.max.x - m.inset, out.box.max.y}};
  if (text.empty() && !look.hint.empty()) {
    const Rect first{in.min, {in.max.x, in.min.y + (look.lines > 1 ? line + m.px(6) : height)}};
    paint.text_in(first, kit.fonts().body, t.faint, look.hint);
  }

  Watched watched{0, look.cursor_at_end};
  ImGui::PushID(id.data(), id.data() + id.size());
  const ImGuiID key = ImGui::GetID("##text");
  const bool was_active = ImGui::GetActiveID() == key;
  out.changed = edit(text, in, look, kit, watched, focus.arrived && look.enabled && !was_active);
  const bool is_active = ImGui::GetActiveID() == key;
  ImGui::PopID();

  // Reached by the mouse, it takes the keyboard; later, it gives it up when somebody else has it.
  const bool taken_away = is_active && was_active && !focus.has;
  if (is_active && !was_active && !focus.has) kit.focus().move_to(id, false);
  if (taken_away) {
    ImGui::ClearActiveID();
    out.left = true;
  } else if (is_active) {
    kit.set_typing();
    kit.wake_in(0.4);  // the cursor blinks
    kit.keys().take_typing();
    if (look.lines > 1) kit.keys().take({Key::enter, no_mods}, true);
    out.active = true;
    out.cursor = static_cast<std::size_t>(watched.cursor);
  }
  const Chord commit{Key::enter, look.lines > 1 ? ctrl : no_mods};
  if ((was_active || is_active) && !taken_away &&
      (kit.keys().take(commit) || kit.keys().take({Key::pad_enter, commit.mods}))) {
    out.committed = true;
  }
  if (was_active && !is_active) {
    out.escaped = kit.keys().take({Key::escape, no_mods});
    out.left = !out.escaped;
    if (focus.has && !out.committed) kit.focus().let_go();
  }
  paint.frame(out.box,
              !look.fault.empty() ? t.bad
              : out.active        ? t.accent
                                  : t.strong_line,
              out.active ? m.ring : m.hair, m.radius);
  if (focus.has && focus.ring && !out.active) draw_ring(kit, paint, out.box, m.radius);
  if (fault_height > 0) {
    paint.text_in({{top.x, out.box.max.y + m.px(2)}, {top.x + width, out.box.max.y + fault_height}}, kit.fonts().small,
                  t.bad, look.fault);
  }
  ImGui::SetCursorScreenPos(top);
  ImGui::ItemSize(ImVec2(width, label_height + height + fault_height));
  return out;
}

}  // namespace sash::desk
