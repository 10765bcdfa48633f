#pragma once
// Registry: where each named widget stood in the last finished frame, so that tests (and only tests) can address
// widgets by name. The toolkit has no such hook. Recording is off unless asked for, and then costs nothing. Main thread
// only.

#include <imgui.h>

#include <map>
#include <string>
#include <string_view>

namespace sash::desk {

struct Rect {
  ImVec2 min;
  ImVec2 max;
  float width() const { return max.x - min.x; }
  float height() const { return max.y - min.y; }
  ImVec2 centre() const { return {(min.x + max.x) / 2, (min.y + max.y) / 2}; }
  bool holds(ImVec2 p) const { return p.x >= min.x && p.x < max.x && p.y >= min.y && p.y < max.y; }
  bool touches(const Rect& o) const { return min.x < o.max.x && o.min.x < max.x && min.y < o.max.y && o.min.y < max.y; }
  Rect cut(const Rect& o) const;  ///< what both share; empty (max == min) when nothing
  Rect shrunk(float by) const { return {{min.x + by, min.y + by}, {max.x - by, max.y - by}}; }
};

class Registry {
 public:
  struct Item {
    Rect whole;  ///< as laid out, window pixels
    Rect seen;   ///< the part inside its pane
    std::string label;
    bool enabled = true;
    bool focused = false;  ///< has the keyboard
  };

  explicit Registry(bool recording = false) : recording_(recording) {}

  void begin_frame() { now_.clear(); }
  void end_frame() {
    if (recording_) last_.swap(now_);
  }
  bool recording() const { return recording_; }
  /// Notes a widget of the frame being drawn.
  void note(std::string_view id, Item item) {
    if (recording_) now_.insert_or_assign(std::string(id), std::move(item));
  }

  /// The widget of the last finished frame; null when it was not drawn.
  const Item* find(std::string_view id) const;
  /// All of them, by name.
  const std::map<std::string, Item, std::less<>>& all() const { return last_; }

 private:
  bool recording_;
  std::map<std::string, Item, std::less<>> now_;
  std::map<std::string, Item, std::less<>> last_;
};

}  // namespace sash::desk
