#include "desk/draw/kit/notices.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/kit/panes.h"
#include "desk/draw/kit/text_block.h"

namespace sash::desk {

void Notices::say(Notice notice, double now) {
  constexpr std::size_t most = 4;
  shown_.push_back({std::move(notice), now});
  if (shown_.size() > most) shown_.pop_front();
}

void Notices::keep_only(const std::function<bool(std::uint64_t)>& stands) {
  std::erase_if(shown_, [&](const Shown& s) { return s.notice.number != 0 && !stands(s.notice.number); });
}

std::optional<int> Notices::draw(Kit& kit, const Rect& over) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  std::erase_if(shown_, [&](const Shown& s) { return s.notice.stays && kit.now() - s.since >= *s.notice.stays; });
  std::optional<int> acted;
  std::optional<std::size_t> gone;
  float bottom = over.max.y - m.pad;
  for (std::size_t i = shown_.size(); i-- > 0;) {
    const Notice& n = shown_[i].notice;
    if (n.stays) kit.wake_in(std::max(0.0, *n.stays - (kit.now() - shown_[i].since)));
    const std::string id = "notice." + std::to_string(i);
    const float sign = n.tone ? m.icon + m.gap : 0;
    const float action = n.action.empty() ? 0 : button_width(kit, n.action) + m.gap;
    const float most = std::min(m.px(560), over.width() - 2 * m.pad);
    const TextBlock block(kit.fonts().body, n.text, most - sign - action - m.row - 2 * m.inset);
    const float height = std::max(m.row, block.height()) + m.px(10);
    const float width = block.widest() + sign + action + m.row + 2 * m.inset + m.gap;
    const Rect card{{over.min.x + m.pad, bottom - height}, {over.min.x + m.pad + width, bottom}};
    bottom = card.min.y - m.gap;
    const std::string card_id = id + ".card";
    const Floating floating(kit, card_id, card, 0, n.tone ? std::optional(t.of(*n.tone).fill) : std::nullopt);
    Painter paint;
    const float x = card.min.x + m.inset;
    if (n.tone) draw_sign(paint, square_in({{x, card.min.y}, {x + m.icon, card.max.y}}, m.icon), *n.tone, t);
    block.draw(paint, {x + sign, std::round(card.centre().y - block.height() / 2)}, t.text);
    const float y = std::round(card.centre().y - m.row / 2);
    if (action > 0) {
      ImGui::SetCursorScreenPos({card.max.x - m.row - action - m.px(2), y});
      const std::string act = id + ".act";
      if (button(kit, act, n.action)) {
        acted = n.action_code;
        gone = i;
      }
    }
    ImGui::SetCursorScreenPos({card.max.x - m.row - m.px(2), y});
    if (button(kit, id, "", {.icon = Icon::cross, .kind = ButtonKind::quiet, .tip = "Put away"})) gone = i;
  }
  if (gone) shown_.erase(shown_.begin() + static_cast<std::ptrdiff_t>(*gone));
  return acted;
}

void status_line(Kit& kit, const Rect& at, std::string_view left, std::string_view right) {
  const Metrics& m = kit.m();
  const Theme& t = kit.theme();
  Painter paint;
  const float right_width = right.empty() ? 0 : text_size(kit.fonts().small, right).x;
  const Rect in{{at.min.x + m.pad, at.min.y}, {at.max.x - m.pad, at.max.y}};
  paint.text_in({in.min, {in.max.x - right_width - m.pad, in.max.y}}, kit.fonts().small, t.muted, left);
  if (right_width > 0)
    paint.text_in({{in.max.x - right_width - 1, in.min.y}, in.max}, kit.fonts().small, t.muted, right, Align::right);
}

}  // namespace sash::desk
