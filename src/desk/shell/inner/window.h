#pragma once
// Window: one GLFW window with an OpenGL 3.3 core context, its events put into an InputQueue, its clipboard and mouse
// shapes given to ImGui. Lengths are framebuffer pixels throughout, so text is as sharp as the screen. Main thread
// only.

#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "desk/draw/kit/input.h"
#include "desk/shown/settings.h"
#include "support/outcome.h"

struct GLFWcursor;
struct GLFWwindow;

namespace sash::desk::inner {

class Window {
 public:
  /// Fails: Code::not_found (no display), Code::unsupported (no OpenGL 3.3).
  static Outcome<std::unique_ptr<Window>> open(const Settings& settings, const std::string& title);
  ~Window();
  Window(const Window&) = delete;
  Window& operator=(const Window&) = delete;

  /// Clipboard and queue for the current ImGui context.
  void join_imgui();

  /// Sleeps until something happens or `seconds` have passed (0: only looks); true when something happened to the
  /// window.
  bool wait(double seconds);
  /// Before NewFrame: sizes, time, mouse shape, one frame's worth of input; gives the frame's keys.
  std::vector<KeyEvent> begin_frame();
  void end_frame();  ///< shows it

  InputQueue& queue() { return queue_; }
  std::vector<std::string> take_drops() { return std::exchange(drops_, {}); }
  bool close_asked() const;
  void close_asked(bool asked);
  float content_scale() const { return content_scale_; }
  int width() const { return width_; }
  int height() const { return height_; }
  bool visible() const;  ///< false while iconified: drawing would be for nobody
  static double now();

  void set_title(const std::string& title);
  bool full_screen() const;
  void set_full_screen(bool on);
  /// Size, place and state as they should be remembered.
  void remember(Settings& settings) const;

 private:
  explicit Window(GLFWwindow* window);
  void install_callbacks();
  void show_mouse_shape();
  void measure();

  GLFWwindow* window_;
  InputQueue queue_;
  std::vector<std::string> drops_;
  std::vector<GLFWcursor*> shapes_;  // by ImGuiMouseCursor
  std::string title_;
  float content_scale_ = 1;
  int width_ = 0;
  int height_ = 0;
  double last_ = 0;
  bool happened_ = false;
  int before_full_[4] = {};  // place and size to go back to
  struct Callbacks;
};

}  // namespace sash::desk::inner
