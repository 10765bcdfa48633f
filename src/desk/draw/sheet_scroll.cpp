#include "desk/draw/sheet_scroll.h"

#include <algorithm>
#include <cmath>

#include "desk/draw/kit/area.h"

namespace sash::desk {
namespace {

constexpr double playhead_low = 0.72;   // share of the height past which the sheet moves on
constexpr double playhead_rest = 0.30;  // where it then puts the playhead

}  // namespace

// Air above the first moment, so that the playhead's flag there is whole.
double SheetScroll::least_top() const { return -static_cast<double>(kit_.m().px(12)); }
double SheetScroll::most_top() const { return std::max(least_top(), shown_.elastic.height() - height() * 0.6); }

void SheetScroll::move(bool hovered) {
  if (hovered) wheel();
  bar();
  follow();
  state_.top = std::clamp(state_.top, least_top(), most_top());
}

void SheetScroll::wheel() {
  const float notches = ImGui::GetIO().MouseWheel;
  if (notches == 0) return;
  const double from = state_.glide_to.value_or(state_.top);
  state_.glide_to = std::clamp(from - static_cast<double>(notches * kit_.m().px(72)), least_top(), most_top());
  state_.follow = false;
}

void SheetScroll::follow() {
  if (state_.drag == SheetState::Drag::scrub || state_.drag == SheetState::Drag::pin) return;
  if (state_.follow) {
    const double y = shown_.elastic.y(frame_.now);
    const double target = state_.glide_to.value_or(state_.top);
    if (y < target + std::min(height() * 0.06, -least_top()) || y > target + height() * playhead_low) {
      state_.glide_to = std::clamp(y - height() * playhead_rest, least_top(), most_top());
    }
  }
  if (!state_.glide_to) return;
  const double way = *state_.glide_to - state_.top;
  if (std::abs(way) < 0.75 || std::abs(way) > height() * 3) {  // far jumps do not rush past
    state_.top = *state_.glide_to;
    state_.glide_to.reset();
    return;
  }
  const double step = 1 - std::exp(-static_cast<double>(std::clamp(ImGui::GetIO().DeltaTime, 0.001F, 0.05F)) * 16);
  state_.top += way * step;
  kit_.wake_in(0);
}

void SheetScroll::bar() {
  const Metrics& m = kit_.m();
  const Rect track{{at_.max.x - m.scrollbar, at_.min.y}, at_.max};
  const double whole = std::max(1.0, shown_.elastic.height());
  if (whole <= height()) return;
  const float size = std::max(m.px(28), static_cast<float>(height() / whole) * track.height());
  const auto share = static_cast<float>(std::clamp(state_.top / std::max(1.0, most_top()), 0.0, 1.0));
  const float top = track.min.y + share * (track.height() - size);
  thumb_ = {{track.min.x + m.px(3), top}, {track.max.x - m.px(2), top + size}};
  const Pressed p = area(kit_, "sheet.scroll", track, {.label = "scroll", .by_keyboard = false, .draggable = true});
  hot_ = p.held || p.hovered;
  if (!p.held) return;
  const float mouse = ImGui::GetIO().MousePos.y - track.min.y - size / 2;
  state_.top = static_cast<double>(std::clamp(mouse / std::max(1.0F, track.height() - size), 0.0F, 1.0F)) * most_top();
  state_.glide_to.reset();
  state_.follow = false;
}

void SheetScroll::paint_bar(Painter& paint) const {
  paint.fill(thumb_, hot_ ? kit_.theme().muted : kit_.theme().strong_line, kit_.m().scrollbar / 2);
}

void show_moment(SheetState& state, const SheetShown& shown, Moment film, float height) {
  const double y = shown.elastic.y(film);
  const double top = state.glide_to.value_or(state.top);
  const auto room = static_cast<double>(height);
  if (y >= top + room * 0.05 && y <= top + room * playhead_low) return;
  state.glide_to = y - room * playhead_rest;
}

}  // namespace sash::desk
