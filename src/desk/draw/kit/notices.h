#pragma once
// Notices: short messages at the foot of the window (done, undone, could not), shown for a while or until put away,
// with one thing that can be done about it. Never in the way and never modal. Main thread only.

#include <cstdint>
#include <deque>
#include <functional>
#include <optional>
#include <string>

#include "desk/draw/kit/controls.h"

namespace sash::desk {

struct Notice {
  std::string text = {};
  std::optional<Safety> tone = {};   ///< none: plain news
  std::string action = {};           ///< the word on its button; empty: no button
  int action_code = 0;               ///< what the page does then
  std::optional<double> stays = {};  ///< seconds; nothing: until put away
  std::uint64_t number = 0;          ///< the page's own, for keep_only(); 0: none
};

class Notices {
 public:
  void say(Notice notice, double now);
  /// Puts away those that have a number for which `stands` says no: what they say is over.
  void keep_only(const std::function<bool(std::uint64_t)>& stands);
  void put_away() { shown_.clear(); }
  bool empty() const { return shown_.empty(); }
  /// Draws them, newest lowest, upwards from the lower left corner of `over`; gives the action pressed. Widgets:
  /// `notice.N` (its cross) and `notice.N.act`.
  std::optional<int> draw(Kit& kit, const Rect& over);

 private:
  struct Shown {
    Notice notice;
    double since = 0;
  };
  std::deque<Shown> shown_;
};

/// One line at the foot: text left, parts at the right.
void status_line(Kit& kit, const Rect& at, std::string_view left, std::string_view right);

}  // namespace sash::desk
