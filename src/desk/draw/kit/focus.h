#pragma once
// Focus: which widget has the keyboard. Widgets enrol in the order they are drawn; Tab and Shift+Tab walk that order,
// Escape lets go. The ring is drawn only once the keyboard has been used, so a mouse never leaves rings behind. Main
// thread only.

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "desk/draw/kit/frame_keys.h"

namespace sash::desk {

using WidgetHash = std::uint64_t;
WidgetHash hash_of(std::string_view id);  ///< stable over runs (FNV-1a)

class Focus {
 public:
  struct State {
    bool has = false;      ///< the keyboard is here
    bool ring = false;     ///< and shows it
    bool arrived = false;  ///< since this frame
  };

  void begin_frame();
  /// Called by a widget while it is drawn.
  State enrol(std::string_view id);
  /// Gives the keyboard to `id` from its next drawing on; `by_key` shows the ring.
  void move_to(std::string_view id, bool by_key = true);
  void let_go();
  bool is_on(std::string_view id) const { return on_ && *on_ == hash_of(id); }
  bool anywhere() const { return on_.has_value(); }
  /// From here on until the matching close, Tab stays among what is enrolled in between (an overlay, a chooser).
  void open_loop();
  void close_loop();
  /// Answers Tab. A focused widget that was not drawn loses the keyboard.
  void end_frame(FrameKeys& keys);

 private:
  void walk(bool back);

  std::vector<WidgetHash> order_;
  std::optional<std::pair<std::size_t, std::size_t>> loop_;  ///< range of order_ the keyboard is kept in
  std::optional<std::size_t> loop_from_;
  std::optional<WidgetHash> on_;
  bool ring_ = false;
  bool arriving_ = false;  ///< the next drawing of on_ reports arrival
  int missed_ = 0;         ///< frames on_ has not been drawn
};

}  // namespace sash::desk
