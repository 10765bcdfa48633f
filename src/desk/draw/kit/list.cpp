#include "desk/draw/kit/list.h"

#include <algorithm>
#include <string>

#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/text_block.h"

namespace sash::desk {
namespace {

/// Answers the keys that walk a list; true when `chosen` moved.
bool walk(FrameKeys& keys, std::size_t count, std::size_t page, std::optional<std::size_t>& chosen) {
  const auto before = chosen;
  const std::size_t last = count - 1;
  const std::size_t at = std::min(chosen.value_or(0), last);
  if (keys.take({Key::down, no_mods}, true)) chosen = chosen ? std::min(at + 1, last) : 0;
  if (keys.take({Key::up, no_mods}, true)) chosen = at == 0 ? 0 : at - 1;
  if (keys.take({Key::page_down, no_mods}, true)) chosen = std::min(at + page, last);
  if (keys.take({Key::page_up, no_mods}, true)) chosen = at > page ? at - page : 0;
  if (keys.take({Key::home, no_mods})) chosen = 0;
  if (keys.take({Key::end, no_mods})) chosen = last;
  return chosen != before;
}

void bring_into_sight(float from, float until) {
  const float top = ImGui::GetScrollY();
  const float height = ImGui::GetWindowHeight();
  if (from < top) ImGui::SetScrollY(from);
  if (until > top + height) ImGui::SetScrollY(until - height);
}

}  // namespace

ListChange list(Kit& kit, std::string_view id, std::size_t count, std::optional<std::size_t>& chosen,
                const ListLook& look, const std::function<void(Painter&, const ListRow&)>& draw_row) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  ListChange out;
  const ImVec2 size = ImGui::GetContentRegionAvail();
  const ImVec2 corner = ImGui::GetCursorScreenPos();
  const Rect whole{corner, {corner.x + size.x, corner.y + size.y}};
  if (count == 0) {
    if (!look.empty_note.empty()) paragraph(kit.fonts().body, t.muted, look.empty_note);
    return out;
  }
  const float row = look.row_height > 0 ? look.row_height : m.row;
  const Focus::State focus = kit.focus().enrol(id);
  bool follow = look.follow;
  if (focus.has) {
    const auto page = static_cast<std::size_t>(std::max(1.0F, size.y / row - 1));
    if (walk(kit.keys(), count, page, chosen)) out.moved = follow = true;
    if (chosen && kit.keys().take({Key::enter, no_mods})) out.activated = true;
  }
  {
    const Pane pane(kit, id, whole, {.padded = false, .ground = false});
    if (follow && chosen) bring_into_sight(row * static_cast<float>(*chosen), row * static_cast<float>(*chosen + 1));
    const float width = ImGui::GetContentRegionAvail().x;
    const ImVec2 start = ImGui::GetCursorScreenPos();
    const float scroll = ImGui::GetScrollY();
    const auto first = static_cast<std::size_t>(std::max(0.0F, scroll / row));
    const std::size_t until = std::min(count, first + static_cast<std::size_t>(size.y / row) + 2);
    ImGui::Dummy({1, row * static_cast<float>(count)});
    Painter paint;
    for (std::size_t i = first; i < until; ++i) {
      const float y = start.y + row * static_cast<float>(i);
      const Rect at{{start.x, y}, {start.x + width, y + row}};
      const Pressed p = area(kit, std::string(id) + "." + std::to_string(i), at, {.by_keyboard = false});
      const bool is_chosen = chosen == i;
      if (is_chosen) {
        paint.fill(at, t.selection, m.radius * 0.6F);
      } else if (p.hovered) {
        paint.fill(at, t.raised.faded(0.6F), m.radius * 0.6F);
      }
      draw_row(paint, {i, at, is_chosen, p.hovered});
      if (p.began && !is_chosen) {
        chosen = i;
        out.moved = true;
      }
      if (p.began) kit.focus().move_to(id, false);
      if (p.double_clicked) out.activated = true;
      if (p.right_clicked) out.right_clicked = i;
    }
  }
  if (focus.has && focus.ring) {
    Painter paint;
    paint.frame(whole, t.focus, m.ring, m.radius);
  }
  ImGui::SetCursorScreenPos({corner.x, whole.max.y});
  return out;
}

}  // namespace sash::desk
