#pragma once
// Harness: the desk without a window. Steps frames by hand, feeds mouse, keys and text the way the window does, finds
// widgets by their registry name. Two backends: none (logic only, a tenth of a millisecond a frame) and surfaceless
// OpenGL (pixels, the same over runs). Time stands still but for the frames stepped.
//
//   Harness h({.width = 1280, .height = 720});
//   h.show([&](Kit& kit) { Root root(kit); if (button(kit, "go", "Go")) ++pressed; });
//   h.click("go");

#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "desk/draw/kit/input.h"
#include "desk/draw/kit/kit.h"
#include "draw/kit/pixels.h"

namespace sash::testing {

class Surfaceless;

struct HarnessLook {
  int width = 1280;
  int height = 720;
  float scale = 1;
  desk::ThemeName theme = desk::ThemeName::dim;
  bool pixels = false;
};

class Harness {
 public:
  using Draw = std::function<void(desk::Kit&)>;

  explicit Harness(HarnessLook look = {});
  ~Harness();
  Harness(const Harness&) = delete;
  Harness& operator=(const Harness&) = delete;

  /// Sets what is drawn from now on, and draws it until it stands still.
  void show(Draw draw);
  /// Sets what is drawn from now on, and steps one frame.
  void frame(Draw draw);
  /// One frame of 1/60 s.
  void frame();
  /// Frames until everything fed has been answered (and two more, for what the answer changed).
  void settle();
  /// Lets `seconds` pass, in frames of at most 1/10 s.
  void wait(double seconds);

  void move_to(ImVec2 p);
  void move_to(std::string_view id);
  /// Moves to the middle of what is seen of the widget, presses and lets go.
  void click(std::string_view id, desk::Mods mods = {}, desk::MouseButton button = desk::MouseButton::left);
  void click_at(ImVec2 p, desk::Mods mods = {}, desk::MouseButton button = desk::MouseButton::left);
  void double_click(std::string_view id);
  /// Presses at the widget, moves by `by` in four steps, lets go.
  void drag(std::string_view id, ImVec2 by);
  void drag(ImVec2 from, ImVec2 to);
  void wheel(std::string_view id, float notches);
  /// Pressed and let go within one frame, the hard case.
  void key(desk::Key key, desk::Mods mods = {});
  void type(std::string_view utf8);
  /// Puts events without stepping, for orders no helper makes.
  void put(desk::InputEvent event) { queue_.put(std::move(event)); }

  bool has(std::string_view id) const { return kit_.registry().find(id) != nullptr; }
  /// Throws a sentence that lists near names when there is no such widget.
  const desk::Registry::Item& item(std::string_view id) const;

  desk::Kit& kit() { return kit_; }
  double now() const { return now_; }
  std::string& clipboard() { return clipboard_; }
  /// Frames stepped so far.
  int frames() const { return frames_; }

  /// Steps a frame and reads it. Requires: made with pixels.
  Pixels pixels();
  /// Saves pixels() into shots_folder().
  void shoot(const std::string& name);

 private:
  void step(double seconds);

  HarnessLook look_;
  std::unique_ptr<Surfaceless> gl_;
  ImGuiContext* context_;
  desk::Kit kit_{true};
  desk::InputQueue queue_;
  Draw draw_;
  double now_ = 0;
  int frames_ = 0;
  std::string clipboard_;
};

}  // namespace sash::testing
