#include "draw/kit/harness.h"

#include <backends/imgui_impl_opengl3.h>

#include <stdexcept>

#include "draw/kit/surfaceless.h"

namespace sash::testing {
namespace {

constexpr double frame_time = 1.0 / 60;

const char* clipboard_text(void* user) { return static_cast<std::string*>(user)->c_str(); }
void set_clipboard_text(void* user, const char* text) { *static_cast<std::string*>(user) = text; }

template <class T>
T must(Outcome<T> outcome) {
  if (!outcome) throw std::runtime_error(outcome.fault().sentence);
  return *std::move(outcome);
}

}  // namespace

Harness::Harness(HarnessLook look) : look_(look), context_(nullptr) {
  if (look.pixels) gl_ = std::make_unique<Surfaceless>(look.width, look.height);
  context_ = ImGui::CreateContext();
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.LogFilename = nullptr;
  io.DisplaySize = {static_cast<float>(look.width), static_cast<float>(look.height)};
  io.ClipboardUserData = &clipboard_;
  io.GetClipboardTextFn = clipboard_text;
  io.SetClipboardTextFn = set_clipboard_text;
  io.ConfigInputTextCursorBlink = false;  // pictures are the same over runs
  desk::InputQueue::map_keys(io);
  const desk::Metrics m = desk::Metrics::at(look.scale);
  const desk::Fonts fonts = must(desk::build_fonts(*io.Fonts, must(desk::find_fonts()), m));
  if (gl_) {
    if (!ImGui_ImplOpenGL3_Init("#version 330 core")) throw std::runtime_error("The OpenGL 3 backend did not start.");
    ImGui_ImplOpenGL3_NewFrame();
  } else {
    io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    io.Fonts->SetTexID(reinterpret_cast<ImTextureID>(1));
  }
  kit_.set_look({look.theme, m, fonts});
}

Harness::~Harness() {
  if (gl_) ImGui_ImplOpenGL3_Shutdown();
  ImGui::DestroyContext(context_);
}

void Harness::step(double seconds) {
  ImGuiIO& io = ImGui::GetIO();
  now_ += seconds;
  io.DeltaTime = static_cast<float>(seconds);
  std::vector<desk::KeyEvent> keys = queue_.feed(io);
  if (gl_) ImGui_ImplOpenGL3_NewFrame();
  ImGui::NewFrame();
  kit_.begin_frame(std::move(keys), now_);
  if (draw_) draw_(kit_);
  kit_.end_frame();
  ImGui::Render();
  if (gl_) {
    gl_->begin();
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  }
  ++frames_;
}

void Harness::show(Draw draw) {
  draw_ = std::move(draw);
  settle();
}

void Harness::frame(Draw draw) {
  draw_ = std::move(draw);
  step(frame_time);
}

void Harness::frame() { step(frame_time); }

void Harness::settle() {
  constexpr int most = 600;
  for (int i = 0; queue_.waiting(); ++i) {
    if (i == most) throw std::runtime_error("input is still waiting after 600 frames");
    frame();
  }
  frame();
  frame();
}

void Harness::wait(double seconds) {
  while (seconds > 0) {
    const double s = std::min(seconds, 0.1);
    step(s);
    seconds -= s;
  }
}

const desk::Registry::Item& Harness::item(std::string_view id) const {
  if (const auto* found = kit_.registry().find(id)) return *found;
  std::string message = "no widget named " + std::string(id) + "; there are:";
  for (const auto& [name, unused] : kit_.registry().all()) message += " " + name;
  throw std::runtime_error(message);
}

void Harness::move_to(ImVec2 p) {
  put(desk::MouseMove{p.x, p.y});
  settle();
}

void Harness::move_to(std::string_view id) { move_to(item(id).seen.centre()); }

void Harness::click_at(ImVec2 p, desk::Mods mods, desk::MouseButton button) {
  put(desk::MouseMove{p.x, p.y});
  put(desk::MousePress{button, true, mods});
  put(desk::MousePress{button, false, mods});
  settle();
}

void Harness::click(std::string_view id, desk::Mods mods, desk::MouseButton button) {
  const desk::Rect seen = item(id).seen;
  if (seen.width() <= 0 || seen.height() <= 0) throw std::runtime_error(std::string(id) + " is out of sight");
  wait(0.4);  // so that two clicks stay two
  click_at(seen.centre(), mods, button);
}

void Harness::double_click(std::string_view id) {
  wait(0.4);
  const ImVec2 p = item(id).seen.centre();
  click_at(p);
  click_at(p);
}

void Harness::drag(std::string_view id, ImVec2 by) {
  const ImVec2 from = item(id).seen.centre();
  drag(from, {from.x + by.x, from.y + by.y});
}

void Harness::drag(ImVec2 from, ImVec2 to) {
  constexpr int steps = 4;
  wait(0.4);
  put(desk::MouseMove{from.x, from.y});
  put(desk::MousePress{desk::MouseButton::left, true, {}});
  settle();
  for (int i = 1; i <= steps; ++i) {
    const float share = static_cast<float>(i) / steps;
    put(desk::MouseMove{from.x + share * (to.x - from.x), from.y + share * (to.y - from.y)});
    settle();
  }
  put(desk::MousePress{desk::MouseButton::left, false, {}});
  settle();
}

void Harness::wheel(std::string_view id, float notches) {
  const ImVec2 p = item(id).seen.centre();
  put(desk::MouseMove{p.x, p.y});
  settle();
  put(desk::MouseWheel{0, notches, {}});
  settle();
}

void Harness::key(desk::Key key, desk::Mods mods) {
  put(desk::KeyEvent{key, mods, true, false});
  put(desk::KeyEvent{key, {}, false, false});
  settle();
}

void Harness::type(std::string_view utf8) {
  put(desk::TypedText{std::string(utf8)});
  settle();
}

Pixels Harness::pixels() {
  if (!gl_) throw std::runtime_error("this harness was made without pixels");
  frame();
  return gl_->read();
}

void Harness::shoot(const std::string& name) { save_png(pixels(), shots_folder() / name); }

}  // namespace sash::testing
