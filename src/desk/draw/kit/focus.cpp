#include "desk/draw/kit/focus.h"

#include <algorithm>

#include "support/check.h"

namespace sash::desk {

WidgetHash hash_of(std::string_view id) {
  WidgetHash h = 14695981039346656037ULL;
  for (const char c : id) h = (h ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return h;
}

void Focus::begin_frame() {
  order_.clear();
  loop_.reset();
  loop_from_.reset();
}

Focus::State Focus::enrol(std::string_view id) {
  const WidgetHash h = hash_of(id);
  order_.push_back(h);
  if (on_ != h) return {};
  const bool arrived = arriving_;
  arriving_ = false;
  return {true, ring_, arrived};
}

void Focus::move_to(std::string_view id, bool by_key) {
  const WidgetHash h = hash_of(id);
  ring_ = by_key || (on_ == h && ring_);
  on_ = h;
  arriving_ = true;
  missed_ = 0;
}

void Focus::let_go() {
  on_.reset();
  arriving_ = false;
}

void Focus::open_loop() { loop_from_ = order_.size(); }

void Focus::close_loop() {
  promise(loop_from_.has_value(), "close_loop follows open_loop");
  if (order_.size() > *loop_from_) loop_ = {*loop_from_, order_.size()};
  loop_from_.reset();
}

void Focus::end_frame(FrameKeys& keys) {
  if (keys.take({Key::tab, no_mods}, true)) {
    walk(false);
  } else if (keys.take({Key::tab, shift}, true)) {
    walk(true);
  }
  if (!on_) return;
  // Two frames' grace: a widget asked for may be drawn only in the frame after next.
  missed_ = std::ranges::find(order_, *on_) == order_.end() ? missed_ + 1 : 0;
  if (missed_ > 2) let_go();
}

void Focus::walk(bool back) {
  const auto [from, until] = loop_.value_or(std::pair<std::size_t, std::size_t>{0, order_.size()});
  if (from == until) return;
  const auto first = order_.begin() + static_cast<std::ptrdiff_t>(from);
  const auto last = order_.begin() + static_cast<std::ptrdiff_t>(until);
  const auto at = on_ ? std::find(first, last, *on_) : last;
  auto next = first;
  if (at == last) {
    next = back ? last - 1 : first;
  } else if (back) {
    next = at == first ? last - 1 : at - 1;
  } else {
    next = at + 1 == last ? first : at + 1;
  }
  on_ = *next;
  ring_ = true;
  arriving_ = true;
  missed_ = 0;
}

}  // namespace sash::desk
