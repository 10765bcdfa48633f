#pragma once
// InputQueue: everything a person does, in the order it was done, handed to the toolkit frame by frame. The toolkit
// looks at the state of keys once a frame, so a key pressed and released in between would be lost; here the second half
// waits for the next frame instead. The window's callbacks and the tests put the same events. Main thread only.

#include <imgui.h>

#include <deque>
#include <string>
#include <variant>
#include <vector>

#include "desk/shown/key.h"

namespace sash::desk {

enum class MouseButton { left, right, middle };

struct MouseMove {
  float x = 0;  ///< window pixels
  float y = 0;
};
struct MouseLeave {};
struct MousePress {
  MouseButton button = MouseButton::left;
  bool down = true;
  Mods mods;
};
struct MouseWheel {
  float x = 0;  ///< notches; up and left are positive
  float y = 0;
  Mods mods;
};
struct TypedText {
  std::string utf8;
};

using InputEvent = std::variant<KeyEvent, TypedText, MouseMove, MouseLeave, MousePress, MouseWheel>;

class InputQueue {
 public:
  void put(InputEvent event) { waiting_.push_back(std::move(event)); }
  /// The window lost the keyboard: whatever is held counts as released.
  void release_all();
  /// Whether a further frame is needed for what has been put.
  bool waiting() const { return !waiting_.empty(); }

  /// Feeds `io` as much as one frame can tell apart, and gives the keys among it. Call before ImGui::NewFrame().
  std::vector<KeyEvent> feed(ImGuiIO& io);

  /// Points the toolkit's own editing keys at ours. Once a context. Tab stays with the kit's focus.
  static void map_keys(ImGuiIO& io);

 private:
  std::deque<InputEvent> waiting_;
};

}  // namespace sash::desk
