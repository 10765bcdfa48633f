#include "desk/draw/kit/kit.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace sash::desk {

void Kit::set_look(const Look& look) {
  look_ = look;
  theme_ = &desk::theme(look.theme);
  const Theme& t = *theme_;
  const Metrics& m = look.metrics;

  ImGuiStyle style;
  style.WindowPadding = {m.pad, m.pad};
  style.FramePadding = {m.inset, std::round((m.row - m.body) / 2)};
  style.ItemSpacing = {m.gap, m.gap};
  style.ItemInnerSpacing = {m.gap, m.gap};
  style.ScrollbarSize = m.scrollbar;
  style.ScrollbarRounding = m.scrollbar / 2;
  style.FrameRounding = m.radius;
  style.ChildRounding = 0;
  style.WindowRounding = 0;
  style.PopupRounding = m.radius;
  style.WindowBorderSize = 0;
  style.ChildBorderSize = 0;
  style.FrameBorderSize = 0;
  style.CircleTessellationMaxError = 0.15F;
  const auto set = [&style](ImGuiCol slot, Colour c) { style.Colors[slot] = c.vec(); };
  set(ImGuiCol_Text, t.text);
  set(ImGuiCol_TextDisabled, t.faint);
  set(ImGuiCol_TextSelectedBg, t.accent.faded(0.35F));
  set(ImGuiCol_WindowBg, t.ground);
  set(ImGuiCol_ChildBg, t.panel);
  set(ImGuiCol_PopupBg, t.raised);
  set(ImGuiCol_FrameBg, t.sunken);
  set(ImGuiCol_ScrollbarBg, t.panel.faded(0));
  set(ImGuiCol_ScrollbarGrab, t.strong_line);
  set(ImGuiCol_ScrollbarGrabHovered, t.faint);
  set(ImGuiCol_ScrollbarGrabActive, t.accent);
  set(ImGuiCol_Border, t.strong_line);
  ImGui::GetStyle() = style;
  ImGui::GetIO().FontDefault = look.fonts.body;
}

void Kit::wake_in(double seconds) { wake_ = wake_ ? std::min(*wake_, seconds) : seconds; }

void Kit::note(std::string_view id, const Rect& whole, std::string_view label, bool enabled, bool focused) {
  if (!registry_.recording()) return;
  const ImDrawList& list = *ImGui::GetWindowDrawList();
  const Rect clip{list.GetClipRectMin(), list.GetClipRectMax()};
  registry_.note(id, {whole, whole.cut(clip), std::string(label), enabled, focused});
}

double Kit::rested_at(ImVec2 spot) {
  if (!rest_spot_ || rest_spot_->x != spot.x || rest_spot_->y != spot.y) {
    rest_spot_ = spot;
    rest_since_ = now_;
  }
  rest_asked_ = true;
  return now_ - rest_since_;
}

Writing* Kit::writing(std::string_view id) {
  const auto at = std::ranges::find(writings_, hash_of(id), &Writing::field);
  if (at == writings_.end()) return nullptr;
  at->drawn = true;
  return &*at;
}

Writing& Kit::begin_writing(std::string_view id, const std::string& text) {
  end_writing(id);
  writings_.push_back({hash_of(id), TextEdit(text), text, std::nullopt, now_, true});
  return writings_.back();
}

void Kit::end_writing(std::string_view id) {
  std::erase_if(writings_, [field = hash_of(id)](const Writing& w) { return w.field == field; });
}

void Kit::begin_frame(std::vector<KeyEvent> keys, double now) {
  keys_ = FrameKeys(std::move(keys));
  now_ = now;
  wake_.reset();
  if (!std::exchange(rest_asked_, false)) rest_spot_.reset();
  typing_ = typing_now_;
  typing_now_ = false;
  std::erase_if(writings_, [](Writing& w) { return !std::exchange(w.drawn, false); });
  registry_.begin_frame();
  focus_.begin_frame();
}

void Kit::end_frame() {
  for (std::size_t i = 0; i < later_.size(); ++i) later_[i]();
  later_.clear();
  if (!keys_.left().empty() && keys_.take({Key::escape, no_mods})) focus_.let_go();
  focus_.end_frame(keys_);
  registry_.end_frame();
}

}  // namespace sash::desk
