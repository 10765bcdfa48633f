#include "desk/draw/kit/frame_keys.h"

#include <algorithm>

namespace sash::desk {
namespace {

bool belongs_to_typing(const KeyEvent& e) {
  const Key k = e.key;
  if (e.mods.alt || e.mods.super) return false;
  if ((k >= Key::f1 && k <= Key::f12) || k == Key::tab || k == Key::enter || k == Key::pad_enter || k == Key::escape) {
    return false;
  }
  if (!e.mods.ctrl) return true;
  return k == Key::a || k == Key::c || k == Key::v || k == Key::x || k == Key::y || k == Key::z || k == Key::left ||
         k == Key::right || k == Key::home || k == Key::end || k == Key::backspace || k == Key::del || k == Key::insert;
}

}  // namespace

bool FrameKeys::take(Chord chord, bool or_repeat) {
  const auto at = std::ranges::find_if(left_, [&](const KeyEvent& e) { return matches(e, chord, or_repeat); });
  if (at == left_.end()) return false;
  left_.erase(at);
  return true;
}

void FrameKeys::take_typing() { std::erase_if(left_, belongs_to_typing); }

}  // namespace sash::desk
