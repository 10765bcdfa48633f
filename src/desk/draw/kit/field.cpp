#include "desk/draw/kit/field.h"

#include <imgui_internal.h>
#include <imgui_stdlib.h>

#include <cmath>

#include "desk/draw/kit/inner/field_frame.h"

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
  ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {0, std::round((in.height() - ImGui::GetFontSize()) / 2)});
  if (arrived) ImGui::SetKeyboardFocusHere();
  ImGui::SetNextItemWidth(in.width());
  const bool changed = ImGui::InputText("##text", &text, flags, watch, &watched);
  ImGui::PopStyleVar();
  ImGui::PopStyleColor(2);
  ImGui::PopFont();
  return changed;
}

}  // namespace

FieldEdit field(Kit& kit, std::string_view id, std::string& text, const FieldLook& look) {
  FieldEdit out;
  inner::FieldFrame frame(kit, look, kit.m().row);
  out.box = frame.box();
  Focus::State focus;
  if (look.enabled) focus = kit.focus().enrol(id);
  kit.note(id, out.box, text, look.enabled, focus.has);
  if (text.empty()) frame.hint(out.box.height());

  Watched watched{0, look.cursor_at_end};
  ImGui::PushID(id.data(), id.data() + id.size());
  const ImGuiID key = ImGui::GetID("##text");
  const bool was_active = ImGui::GetActiveID() == key;
  out.changed = edit(text, frame.inside(), look, kit, watched, focus.arrived && look.enabled && !was_active);
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
    out.active = true;
    out.cursor = static_cast<std::size_t>(watched.cursor);
  }
  if ((was_active || is_active) && !taken_away &&
      (kit.keys().take({Key::enter, no_mods}) || kit.keys().take({Key::pad_enter, no_mods}))) {
    out.committed = true;
  }
  if (was_active && !is_active) {
    out.escaped = kit.keys().take({Key::escape, no_mods});
    out.left = !out.escaped;
    if (focus.has && !out.committed) kit.focus().let_go();
  }
  frame.close(out.active, focus.has && focus.ring && !out.active);
  return out;
}

}  // namespace sash::desk
