#pragma once
// Kit: what every drawing function is given: the look (theme, sizes, faces), the keys of the frame, who has the
// keyboard, the registry, and the wish for a further frame. The widgets are free functions over it (controls.h,
// field.h, list.h, panes.h ...). Not a toolkit of its own: layout and clipping are ImGui's. No globals besides ImGui's
// context. Main thread only.

#include <imgui.h>

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/draw/kit/focus.h"
#include "desk/draw/kit/fonts.h"
#include "desk/draw/kit/frame_keys.h"
#include "desk/draw/kit/metrics.h"
#include "desk/draw/kit/registry.h"
#include "desk/draw/kit/theme.h"
#include "desk/draw/kit/writing.h"

namespace sash::desk {

struct Look {
  ThemeName theme = ThemeName::dim;
  Metrics metrics;
  Fonts fonts;
};

class Kit {
 public:
  /// `recording` turns the registry on, for tests.
  explicit Kit(bool recording = false) : registry_(recording) {}

  /// Sets colours, sizes and faces, ImGui's own style included. Between frames.
  void set_look(const Look& look);

  const Theme& theme() const { return *theme_; }
  const Metrics& m() const { return look_.metrics; }
  const Fonts& fonts() const { return look_.fonts; }
  FrameKeys& keys() { return keys_; }
  Focus& focus() { return focus_; }
  Registry& registry() { return registry_; }
  const Registry& registry() const { return registry_; }

  /// Seconds since the desk started; the same for all of a frame.
  double now() const { return now_; }
  /// A text field has the keyboard: plain keys are letters, not shortcuts.
  bool typing() const { return typing_; }
  void set_typing() { typing_now_ = true; }

  /// Asks for another frame within `seconds` (0: at once) even if nobody does anything.
  void wake_in(double seconds);
  /// What was asked in the last frame; nothing when the desk may sleep until something happens.
  std::optional<double> wake() const { return wake_; }

  /// Puts the widget into the registry, with its visible part worked out from the current clip.
  void note(std::string_view id, const Rect& whole, std::string_view label = {}, bool enabled = true,
            bool focused = false);

  /// Seconds the mouse has been over the thing whose middle is `spot`; asking is what starts the count.
  double rested_at(ImVec2 spot);

  /// Runs `draw` above everything else at the end of this frame (tooltips, open choice lists).
  void later(std::function<void()> draw) { later_.push_back(std::move(draw)); }

  /// What is being written in the wrapped field `id`; null when it is not.
  Writing* writing(std::string_view id);
  Writing& begin_writing(std::string_view id, const std::string& text);
  void end_writing(std::string_view id);

  /// The name of the choice list that is open; empty when none is.
  std::string& open_list() { return open_list_; }

  /// Around every frame, inside ImGui::NewFrame() and before ImGui::Render().
  void begin_frame(std::vector<KeyEvent> keys, double now);
  void end_frame();

 private:
  Look look_;
  const Theme* theme_ = &desk::theme(ThemeName::dim);
  FrameKeys keys_;
  Focus focus_;
  Registry registry_;
  std::vector<std::function<void()>> later_;
  std::string open_list_;
  std::vector<Writing> writings_;
  std::optional<double> wake_;
  std::optional<ImVec2> rest_spot_;  ///< what the mouse rests on, and since when
  double rest_since_ = 0;
  bool rest_asked_ = false;
  double now_ = 0;
  bool typing_ = false;
  bool typing_now_ = false;
};

/// Where something drawn next goes: the ImGui cursor, in window pixels.
inline ImVec2 cursor() { return ImGui::GetCursorScreenPos(); }
/// Room from the cursor to the right and lower edge of the pane.
inline ImVec2 room() { return ImGui::GetContentRegionAvail(); }

}  // namespace sash::desk
