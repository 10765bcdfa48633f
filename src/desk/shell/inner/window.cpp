#include "desk/shell/inner/window.h"

#include <epoxy/gl.h>

#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <span>

#include "desk/shell/inner/glfw_keys.h"
#include "desk/shell/inner/icon.h"
#include "support/text.h"

namespace sash::desk::inner {
namespace {

std::string last_glfw_error() {
  const char* text = nullptr;
  glfwGetError(&text);
  return text == nullptr ? "no reason given" : text;
}

Mods held_mods(GLFWwindow* window) {
  const auto down = [window](int left, int right) {
    return glfwGetKey(window, left) == GLFW_PRESS || glfwGetKey(window, right) == GLFW_PRESS;
  };
  return {down(GLFW_KEY_LEFT_CONTROL, GLFW_KEY_RIGHT_CONTROL), down(GLFW_KEY_LEFT_SHIFT, GLFW_KEY_RIGHT_SHIFT),
          down(GLFW_KEY_LEFT_ALT, GLFW_KEY_RIGHT_ALT), down(GLFW_KEY_LEFT_SUPER, GLFW_KEY_RIGHT_SUPER)};
}

void set_icon(GLFWwindow* window) {
  std::vector<std::vector<unsigned char>> pixels;
  std::vector<GLFWimage> images;
  for (const int side : {16, 32, 48, 128}) {
    pixels.push_back(window_icon(side));
    images.push_back({side, side, pixels.back().data()});
  }
  glfwSetWindowIcon(window, static_cast<int>(images.size()), images.data());
}

/// Whether the middle of a window's top edge would be on some screen, so that it can be grasped.
bool can_be_reached(int x, int y, int width) {
  int count = 0;
  GLFWmonitor** monitors = glfwGetMonitors(&count);
  return std::ranges::any_of(std::span(monitors, static_cast<std::size_t>(count)), [&](GLFWmonitor* m) {
    int mx = 0;
    int my = 0;
    int mw = 0;
    int mh = 0;
    glfwGetMonitorWorkarea(m, &mx, &my, &mw, &mh);
    const int middle = x + width / 2;
    return middle >= mx && middle < mx + mw && y >= my - 8 && y < my + mh - 40;
  });
}

}  // namespace

/// What GLFW calls; each only puts an event into the queue.
struct Window::Callbacks {
  static Window& of(GLFWwindow* w) {
    auto& window = *static_cast<Window*>(glfwGetWindowUserPointer(w));
    window.happened_ = true;
    return window;
  }
  static void key(GLFWwindow* w, int code, int scancode, int action, int mods) {
    const Key k = key_from_glfw(code, glfwGetKeyName(code, scancode));
    Window& window = of(w);
    if (k == Key::none) return;
    window.queue_.put(KeyEvent{k, mods_from_glfw(mods), action != GLFW_RELEASE, action == GLFW_REPEAT});
  }
  static void letter(GLFWwindow* w, unsigned c) {
    TypedText text;
    append_utf8(text.utf8, c);
    of(w).queue_.put(std::move(text));
  }
  static void move(GLFWwindow* w, double x, double y) {
    Window& window = of(w);
    int ww = 0;
    int wh = 0;
    glfwGetWindowSize(w, &ww, &wh);
    const double sx = ww > 0 ? static_cast<double>(window.width_) / ww : 1.0;
    const double sy = wh > 0 ? static_cast<double>(window.height_) / wh : 1.0;
    window.queue_.put(MouseMove{static_cast<float>(std::floor(x * sx)), static_cast<float>(std::floor(y * sy))});
  }
  static void enter(GLFWwindow* w, int entered) {
    Window& window = of(w);
    if (entered == GLFW_FALSE) window.queue_.put(MouseLeave{});
  }
  static void press(GLFWwindow* w, int button, int action, int mods) {
    Window& window = of(w);
    if (button < 0 || button > 2) return;
    window.queue_.put(MousePress{static_cast<MouseButton>(button), action == GLFW_PRESS, mods_from_glfw(mods)});
  }
  static void wheel(GLFWwindow* w, double x, double y) {
    of(w).queue_.put(MouseWheel{static_cast<float>(x), static_cast<float>(y), held_mods(w)});
  }
  static void drop(GLFWwindow* w, int count, const char** paths) {
    Window& window = of(w);
    for (int i = 0; i < count; ++i) window.drops_.emplace_back(paths[i]);
  }
  static void keyboard(GLFWwindow* w, int has) {
    Window& window = of(w);
    if (has == GLFW_FALSE && ImGui::GetCurrentContext() != nullptr) window.queue_.release_all();
  }
  static void size(GLFWwindow* w, int, int) { of(w); }
  static void redraw(GLFWwindow* w) { of(w); }
  static void scale(GLFWwindow* w, float, float) { of(w); }
};

Outcome<std::unique_ptr<Window>> Window::open(const Settings& settings, const std::string& title) {
  if (glfwInit() == GLFW_FALSE) {
    return Fault::of(Code::not_found, "There is no display to open the desk on (" + last_glfw_error() + ").");
  }
  glfwDefaultWindowHints();
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
  glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
  glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
  glfwWindowHint(GLFW_VISIBLE, GLFW_FALSE);
  glfwWindowHint(GLFW_MAXIMIZED, settings.maximised ? GLFW_TRUE : GLFW_FALSE);
  glfwWindowHintString(GLFW_X11_CLASS_NAME, "sashline");
  glfwWindowHintString(GLFW_X11_INSTANCE_NAME, "sashline");
  GLFWwindow* w = glfwCreateWindow(settings.window_width, settings.window_height, title.c_str(), nullptr, nullptr);
  if (w == nullptr) {
    const std::string why = last_glfw_error();
    glfwTerminate();
    return Fault::of(Code::unsupported, "The display offers no OpenGL 3.3, which the desk draws with (" + why + ").");
  }
  std::unique_ptr<Window> window(new Window(w));
  window->title_ = title;
  if (settings.window_x && settings.window_y && !settings.maximised &&
      can_be_reached(*settings.window_x, *settings.window_y, settings.window_width)) {
    glfwSetWindowPos(w, *settings.window_x, *settings.window_y);
  }
  glfwShowWindow(w);
  return window;
}

Window::Window(GLFWwindow* window) : window_(window) {
  glfwMakeContextCurrent(window_);
  glfwSwapInterval(1);
  glfwSetWindowSizeLimits(window_, 640, 400, GLFW_DONT_CARE, GLFW_DONT_CARE);
  set_icon(window_);
  install_callbacks();
  shapes_.resize(ImGuiMouseCursor_COUNT);
  shapes_[ImGuiMouseCursor_Arrow] = glfwCreateStandardCursor(GLFW_ARROW_CURSOR);
  shapes_[ImGuiMouseCursor_TextInput] = glfwCreateStandardCursor(GLFW_IBEAM_CURSOR);
  shapes_[ImGuiMouseCursor_ResizeEW] = glfwCreateStandardCursor(GLFW_HRESIZE_CURSOR);
  shapes_[ImGuiMouseCursor_ResizeNS] = glfwCreateStandardCursor(GLFW_VRESIZE_CURSOR);
  shapes_[ImGuiMouseCursor_Hand] = glfwCreateStandardCursor(GLFW_HAND_CURSOR);
  measure();
  last_ = glfwGetTime();
}

Window::~Window() {
  for (GLFWcursor* shape : shapes_) {
    if (shape != nullptr) glfwDestroyCursor(shape);
  }
  glfwDestroyWindow(window_);
  glfwTerminate();
}

void Window::install_callbacks() {
  glfwSetWindowUserPointer(window_, this);
  glfwSetKeyCallback(window_, Callbacks::key);
  glfwSetCharCallback(window_, Callbacks::letter);
  glfwSetCursorPosCallback(window_, Callbacks::move);
  glfwSetCursorEnterCallback(window_, Callbacks::enter);
  glfwSetMouseButtonCallback(window_, Callbacks::press);
  glfwSetScrollCallback(window_, Callbacks::wheel);
  glfwSetDropCallback(window_, Callbacks::drop);
  glfwSetWindowFocusCallback(window_, Callbacks::keyboard);
  glfwSetFramebufferSizeCallback(window_, Callbacks::size);
  glfwSetWindowRefreshCallback(window_, Callbacks::redraw);
  glfwSetWindowContentScaleCallback(window_, Callbacks::scale);
  glfwSetWindowCloseCallback(window_, Callbacks::redraw);
}

void Window::join_imgui() {
  ImGuiIO& io = ImGui::GetIO();
  io.BackendFlags |= ImGuiBackendFlags_HasMouseCursors;
  io.ClipboardUserData = window_;
  io.GetClipboardTextFn = [](void* w) { return glfwGetClipboardString(static_cast<GLFWwindow*>(w)); };
  io.SetClipboardTextFn = [](void* w, const char* text) { glfwSetClipboardString(static_cast<GLFWwindow*>(w), text); };
  InputQueue::map_keys(io);
}

void Window::measure() {
  glfwGetFramebufferSize(window_, &width_, &height_);
  float across = 1;
  float down = 1;
  glfwGetWindowContentScale(window_, &across, &down);
  content_scale_ = std::clamp(std::max(across, down), 0.5F, 4.0F);
}

bool Window::wait(double seconds) {
  if (queue_.waiting()) {
    glfwPollEvents();
    happened_ = true;
  } else if (seconds <= 0) {
    glfwPollEvents();
  } else {
    glfwWaitEventsTimeout(seconds);
  }
  measure();
  return std::exchange(happened_, false);
}

std::vector<KeyEvent> Window::begin_frame() {
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize = {static_cast<float>(width_), static_cast<float>(height_)};
  const double t = glfwGetTime();
  io.DeltaTime = std::max(1e-4F, static_cast<float>(t - last_));
  last_ = t;
  show_mouse_shape();
  return queue_.feed(io);
}

void Window::end_frame() { glfwSwapBuffers(window_); }

void Window::show_mouse_shape() {
  const ImGuiMouseCursor wanted = ImGui::GetMouseCursor();
  const auto at = static_cast<std::size_t>(std::max(0, wanted));
  GLFWcursor* shape = at < shapes_.size() && shapes_[at] != nullptr ? shapes_[at] : shapes_[ImGuiMouseCursor_Arrow];
  glfwSetCursor(window_, shape);
}

bool Window::close_asked() const { return glfwWindowShouldClose(window_) == GLFW_TRUE; }
void Window::close_asked(bool asked) { glfwSetWindowShouldClose(window_, asked ? GLFW_TRUE : GLFW_FALSE); }
bool Window::visible() const {
  return glfwGetWindowAttrib(window_, GLFW_ICONIFIED) == GLFW_FALSE && width_ > 0 && height_ > 0;
}
double Window::now() { return glfwGetTime(); }

void Window::set_title(const std::string& title) {
  if (title == title_) return;
  title_ = title;
  glfwSetWindowTitle(window_, title.c_str());
}

bool Window::full_screen() const { return glfwGetWindowMonitor(window_) != nullptr; }

void Window::set_full_screen(bool on) {
  if (on == full_screen()) return;
  happened_ = true;
  if (!on) {
    glfwSetWindowMonitor(window_, nullptr, before_full_[0], before_full_[1], before_full_[2], before_full_[3],
                         GLFW_DONT_CARE);
    return;
  }
  glfwGetWindowPos(window_, &before_full_[0], &before_full_[1]);
  glfwGetWindowSize(window_, &before_full_[2], &before_full_[3]);
  // The screen that holds the window's middle.
  const int x = before_full_[0] + before_full_[2] / 2;
  const int y = before_full_[1] + before_full_[3] / 2;
  int count = 0;
  GLFWmonitor** monitors = glfwGetMonitors(&count);
  GLFWmonitor* chosen = glfwGetPrimaryMonitor();
  for (GLFWmonitor* m : std::span(monitors, static_cast<std::size_t>(count))) {
    int mx = 0;
    int my = 0;
    glfwGetMonitorPos(m, &mx, &my);
    const GLFWvidmode* mode = glfwGetVideoMode(m);
    if (mode != nullptr && x >= mx && x < mx + mode->width && y >= my && y < my + mode->height) chosen = m;
  }
  if (chosen == nullptr) return;
  const GLFWvidmode* mode = glfwGetVideoMode(chosen);
  glfwSetWindowMonitor(window_, chosen, 0, 0, mode->width, mode->height, mode->refreshRate);
}

void Window::remember(Settings& settings) const {
  if (full_screen() || glfwGetWindowAttrib(window_, GLFW_ICONIFIED) == GLFW_TRUE) return;
  settings.maximised = glfwGetWindowAttrib(window_, GLFW_MAXIMIZED) == GLFW_TRUE;
  if (settings.maximised) return;
  int x = 0;
  int y = 0;
  glfwGetWindowPos(window_, &x, &y);
  glfwGetWindowSize(window_, &settings.window_width, &settings.window_height);
  settings.window_x = x;
  settings.window_y = y;
}

}  // namespace sash::desk::inner
