#include <algorithm>
#include <cmath>

#include "desk/draw/kit/controls.h"
#include "desk/draw/kit/panes.h"
#include "support/text.h"

namespace sash::desk {
namespace {

/// Moves `chosen` by the arrow keys of `back` and `ahead`; true when it moved.
bool step(FrameKeys& keys, Key back, Key ahead, std::size_t count, std::size_t& chosen) {
  const std::size_t before = chosen;
  if (keys.take({back, no_mods}, true) && chosen > 0) --chosen;
  if (keys.take({ahead, no_mods}, true) && chosen + 1 < count) ++chosen;
  return chosen != before;
}

/// A letter key jumps to the next option that begins with it.
bool jump(FrameKeys& keys, std::span<const std::string_view> options, std::size_t& chosen) {
  for (const KeyEvent& e : keys.left()) {
    if (!e.pressed || !e.mods.none() || e.key < Key::a || e.key > Key::z) continue;
    for (std::size_t i = 1; i <= options.size(); ++i) {
      const std::size_t at = (chosen + i) % options.size();
      if (!starts_with_no_case(options[at], key_name(e.key))) continue;
      keys.take({e.key, no_mods}, true);
      const bool moved = at != chosen;
      chosen = at;
      return moved;
    }
  }
  return false;
}

/// The open list, in a window of its own above everything. True when something was picked.
bool open_list(Kit& kit, std::string_view id, const Rect& anchor, std::span<const std::string_view> options,
               std::size_t& chosen) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const float row = m.tight_row + m.px(2);
  const float frame = m.px(4);
  const float screen = ImGui::GetIO().DisplaySize.y;
  const float wanted = row * static_cast<float>(options.size()) + 2 * frame;
  const float below = screen - anchor.max.y - m.gap;
  const float above = anchor.min.y - m.gap;
  const bool up = wanted > below && above > below;
  const float height = std::min(wanted, up ? above : below);
  float width = anchor.width();
  for (const std::string_view o : options) {
    width = std::max(width, text_size(kit.fonts().body, o).x + 2 * m.inset + 2 * frame + m.scrollbar);
  }
  const ImVec2 corner{anchor.min.x, up ? anchor.min.y - height - 2 : anchor.max.y + 2};
  const Rect whole{corner, {corner.x + width, corner.y + height}};
  bool picked = false;
  const std::string name = std::string(id) + ".list";
  const Floating floating(kit, name, whole, frame);
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {0, 0});
  for (std::size_t i = 0; i < options.size(); ++i) {
    const Rect at = take_place({ImGui::GetContentRegionAvail().x, row});
    const std::string item = std::string(id) + "." + std::to_string(i);
    const Pressed p = area(kit, item, at, {.label = options[i], .by_keyboard = false});
    Painter paint;
    if (i == chosen) paint.fill(at, t.selection, m.radius * 0.6F);
    if (p.hovered && i != chosen) paint.fill(at, t.raised_over, m.radius * 0.6F);
    paint.text_in({{at.min.x + m.inset, at.min.y}, {at.max.x, at.max.y}}, kit.fonts().body, t.text, options[i]);
    if (i == chosen && ImGui::IsWindowAppearing()) ImGui::SetScrollHereY(0.5F);
    if (p.clicked) {
      chosen = i;
      picked = true;
    }
  }
  ImGui::PopStyleVar();
  const ImGuiIO& io = ImGui::GetIO();
  if (io.MouseClicked[0] && !whole.holds(io.MousePos) && !anchor.holds(io.MousePos)) kit.open_list().clear();
  return picked;
}

}  // namespace

bool segments(Kit& kit, std::string_view id, std::span<const std::string_view> options, std::size_t& chosen) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  float width = 0;
  for (const std::string_view o : options) width += std::ceil(text_size(kit.fonts().body, o).x) + 2 * m.inset + m.px(6);
  const Rect whole = take_place({width, m.row});
  Painter paint;
  paint.fill(whole, t.sunken, m.radius);
  bool changed = false;
  float x = whole.min.x;
  for (std::size_t i = 0; i < options.size(); ++i) {
    const float w = std::ceil(text_size(kit.fonts().body, options[i]).x) + 2 * m.inset + m.px(6);
    const Rect at{{x, whole.min.y}, {x + w, whole.max.y}};
    x += w;
    const std::string item = std::string(id) + "." + std::to_string(i);
    // One stop for Tab: the chosen segment; the arrows go on from there.
    const Pressed p = area(kit, item, at, {.label = options[i], .by_keyboard = i == chosen});
    if (i == chosen) {
      paint.fill(at.shrunk(m.px(2)), t.selection, m.radius * 0.8F);
      paint.hline(at.max.y - m.px(3), at.min.x + m.inset, at.max.x - m.inset, t.accent, m.px(2));
    } else if (p.hovered) {
      paint.fill(at.shrunk(m.px(2)), t.raised_over, m.radius * 0.8F);
    }
    paint.text_in(at, kit.fonts().body, i == chosen ? t.text : t.muted, options[i], Align::centre);
    std::size_t next = chosen;
    if (p.focused && step(kit.keys(), Key::left, Key::right, options.size(), next)) {
      kit.focus().move_to(std::string(id) + "." + std::to_string(next));
    }
    if (p.clicked) {
      next = i;
      kit.focus().move_to(item, false);
    }
    if (next != chosen) {
      chosen = next;
      changed = true;
    }
  }
  paint.frame(whole, t.strong_line.faded(0.7F), m.hair, m.radius);
  return changed;
}

bool choice(Kit& kit, std::string_view id, std::span<const std::string_view> options, std::size_t& chosen,
            float width) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  const Rect at = take_place({width > 0 ? width : ImGui::GetContentRegionAvail().x, m.row});
  const Pressed p = area(kit, id, at, {.label = options.empty() ? std::string_view() : options[chosen]});
  const bool was_open = kit.open_list() == id;
  Painter paint;
  paint.fill(at, p.hovered ? t.raised_over : t.raised, m.radius);
  paint.frame(at, was_open ? t.accent : t.strong_line, m.hair, m.radius);
  const Rect sign{{at.max.x - m.row, at.min.y}, at.max};
  draw_icon(paint, square_in(sign, m.icon * 0.7F), Icon::chevron_down, t.muted);
  if (options.empty()) return false;
  paint.text_in({{at.min.x + m.inset, at.min.y}, {sign.min.x, at.max.y}}, kit.fonts().body, t.text, options[chosen]);

  bool changed = false;
  if (p.focused) {
    changed = step(kit.keys(), Key::up, Key::down, options.size(), chosen);
    changed = jump(kit.keys(), options, chosen) || changed;
    if (was_open && kit.keys().take({Key::escape, no_mods})) kit.open_list().clear();
  }
  if (p.clicked) {
    if (was_open) {
      kit.open_list().clear();
    } else {
      kit.open_list() = std::string(id);
    }
  }
  if (kit.open_list() == id) {
    if (!p.focused && was_open) {
      kit.open_list().clear();  // the keyboard went elsewhere
    } else if (open_list(kit, id, at, options, chosen)) {
      kit.open_list().clear();
      changed = true;
    }
  }
  return changed;
}

}  // namespace sash::desk
