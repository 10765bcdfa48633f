#pragma once
// FrameKeys: the keys of one frame, each answered at most once. Widgets that have the keyboard take theirs while they
// are drawn; what is left afterwards are the page's shortcuts. Main thread only.

#include <optional>
#include <span>
#include <vector>

#include "desk/shown/key.h"

namespace sash::desk {

class FrameKeys {
 public:
  FrameKeys() = default;
  explicit FrameKeys(std::vector<KeyEvent> events) : left_(std::move(events)) {}

  /// Whether `chord` was pressed and nobody has taken it; takes it.
  bool take(Chord chord, bool or_repeat = false);
  /// Takes every key that a text field uses for itself: all without Ctrl or Alt except function keys, Tab, Enter,
  /// Escape; and the usual Ctrl keys of editing.
  void take_typing();
  /// Takes all.
  void clear() { left_.clear(); }
  std::span<const KeyEvent> left() const { return left_; }

 private:
  std::vector<KeyEvent> left_;
};

}  // namespace sash::desk
