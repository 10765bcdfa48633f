#include "desk/shell/shell.h"

#include <backends/imgui_impl_opengl3.h>
#include <epoxy/gl.h>

#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>

#include <algorithm>
#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <mutex>

#include "desk/shell/inner/shot.h"
#include "desk/shell/inner/still_shelf.h"
#include "desk/shell/inner/window.h"
#include "desk/shell/settings_file.h"
#include "support/text.h"

namespace sash::desk {
namespace {

using inner::Window;

/// Between the waker, which any thread may hold, and the window, which comes and goes.
struct Bell {
  std::mutex mutex;
  bool window_stands = false;  // guarded by mutex
  void ring() {
    const std::lock_guard lock(mutex);
    if (window_stands) glfwPostEmptyEvent();
  }
  void stands(bool yes) {
    const std::lock_guard lock(mutex);
    window_stands = yes;
  }
};

Bell& bell() {
  static Bell the_one;
  return the_one;
}

/// ImGui's context and its OpenGL backend, in the order they need each other.
class Toolkit {
 public:
  Toolkit() {
    ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.LogFilename = nullptr;
  }
  ~Toolkit() {
    if (drawing_) ImGui_ImplOpenGL3_Shutdown();
    ImGui::DestroyContext();
  }
  Toolkit(const Toolkit&) = delete;
  Toolkit& operator=(const Toolkit&) = delete;
  bool start() { return drawing_ = ImGui_ImplOpenGL3_Init("#version 330 core"); }

 private:
  bool drawing_ = false;
};

class Shell final : public DeskServices {
 public:
  Shell(DeskApp& app, const ShellOptions& options, FontFiles fonts, std::unique_ptr<Window> window)
      : app_(app), options_(options), font_files_(std::move(fonts)), window_(std::move(window)), chooser_(waker()) {}

  Done run() {
    window_->join_imgui();
    if (!toolkit_.start()) return Fault::of(Code::unsupported, "The OpenGL of this display cannot draw the desk.");
    if (Done looked = follow_look(); !looked) return looked;
    auto video = VideoView::make(best_picture_path(), [this] {
      picture_came_ = true;
      bell().ring();
    });
    if (!video) return video.fault();
    video_ = *std::move(video);
    kept_ = app_.settings();
    app_.begin(*this);
    frames_owed_ = 3;
    while (!leaving_) {
      if (Done turned = turn(); !turned) return turned;
    }
    window_->remember(app_.settings());
    keep_settings();
    return {};
  }

  ShownPicture picture(const media::PicturePtr& picture, media::Size room) override {
    return video_->show(picture, room);
  }
  unsigned still(std::uint64_t key, media::Size size, std::span<const std::uint8_t> rgba) override {
    return stills_.texture(key, size, rgba);
  }
  bool can_choose_files() const override { return FileChooser::installed().has_value(); }
  bool choose_files(const FileWish& wish, int code) override {
    if (!chooser_.ask(wish)) return false;
    chooser_code_ = code;
    return true;
  }
  bool full_screen() const override { return window_->full_screen(); }
  void set_full_screen(bool on) override { window_->set_full_screen(on); }
  void close() override { leaving_ = true; }

 private:
  /// Sleeps, listens, and draws a frame where one is due.
  Done turn() {
    const double patience = frames_owed_ > 0 ? 0 : std::max(0.0, next_frame_ - Window::now());
    if (window_->wait(std::min(patience, 60.0))) frames_owed_ = std::max(frames_owed_, 3);
    hand_over();
    if (app_.poll()) frames_owed_ = std::max(frames_owed_, 2);
    if (picture_came_.exchange(false)) frames_owed_ = std::max(frames_owed_, 1);
    if (window_->close_asked()) {
      leaving_ = app_.may_close();
      window_->close_asked(false);
      frames_owed_ = 2;
    }
    if (frames_owed_ == 0 && Window::now() < next_frame_) return {};
    if (Done looked = follow_look(); !looked) return looked;
    if (!window_->visible()) {
      frames_owed_ = 0;
      next_frame_ = Window::now() + 0.25;
      return {};
    }
    frame();
    frames_owed_ = std::max(0, frames_owed_ - 1);
    plan();
    return {};
  }

  /// What came from outside the toolkit: dropped files, the chooser's answer.
  void hand_over() {
    if (auto paths = window_->take_drops(); !paths.empty()) app_.drop(std::move(paths));
    if (auto paths = chooser_.answer()) {
      app_.chosen(chooser_code_, *std::move(paths));
      frames_owed_ = std::max(frames_owed_, 2);
    }
  }

  void frame() {
    std::vector<KeyEvent> keys = window_->begin_frame();
    ImGui_ImplOpenGL3_NewFrame();
    ImGui::NewFrame();
    stills_.begin_frame();
    kit_.begin_frame(std::move(keys), Window::now());
    app_.draw(kit_);
    kit_.end_frame();
    ImGui::Render();
    glBindFramebuffer(GL_FRAMEBUFFER, 0);
    glViewport(0, 0, window_->width(), window_->height());
    glDisable(GL_SCISSOR_TEST);
    const ImVec4 ground = kit_.theme().ground.vec();
    glClearColor(ground.x, ground.y, ground.z, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    take_shot();
    window_->end_frame();
    window_->set_title(app_.title());
  }

  /// When the next frame is due if nobody does anything before.
  void plan() {
    const double now = Window::now();
    next_frame_ = now + 3600;
    if (const auto wish = kit_.wake()) next_frame_ = std::min(next_frame_, now + *wish);
    if (const auto due = app_.due()) next_frame_ = std::min(next_frame_, now + *due);
    if (!options_.shot.empty() && !shot_taken_) next_frame_ = std::min(next_frame_, now + 0.1);
    if (app_.settings() != kept_) {
      constexpr double rest = 0.7;  // a splitter that is being dragged is not written sixty times a second
      if (!settings_due_) settings_due_ = now + rest;
      if (now >= *settings_due_) keep_settings();
      if (settings_due_) next_frame_ = std::min(next_frame_, *settings_due_);
    }
  }

  void keep_settings() {
    kept_ = app_.settings();
    settings_due_.reset();
    if (options_.settings_file.empty()) return;
    if (const Done kept = save_settings(options_.settings_file, kept_); !kept) {
      std::fprintf(stderr, "%s\n", kept.fault().sentence.c_str());
    }
  }

  /// Theme, font scale and the screen's own scale, when one of them has changed.
  Done follow_look() {
    const Settings& s = app_.settings();
    const float scale = std::clamp(s.font_scale * window_->content_scale(), Metrics::least, Metrics::most);
    if (look_ && look_->theme == s.look && look_->metrics.scale == scale) return {};
    Look look{s.look, Metrics::at(scale), look_ ? look_->fonts : Fonts{}};
    if (!look_ || look_->metrics.scale != scale) {
      if (look_) ImGui_ImplOpenGL3_DestroyFontsTexture();
      auto fonts = build_fonts(*ImGui::GetIO().Fonts, font_files_, look.metrics);
      if (!fonts) return fonts.fault();
      look.fonts = *fonts;
      if (look_) ImGui_ImplOpenGL3_CreateFontsTexture();
    }
    kit_.set_look(look);
    look_ = look;
    frames_owed_ = std::max(frames_owed_, 2);
    return {};
  }

  void take_shot() {
    if (options_.shot.empty() || shot_taken_) return;
    if (!first_frame_) first_frame_ = Window::now();
    if (Window::now() - *first_frame_ < options_.shot_after) return;
    shot_taken_ = true;
    if (const Done shot = inner::shoot(options_.shot, window_->width(), window_->height()); !shot) {
      std::fprintf(stderr, "%s\n", shot.fault().sentence.c_str());
    }
    leaving_ = leaving_ || options_.leave_after_shot;
  }

  DeskApp& app_;
  ShellOptions options_;
  FontFiles font_files_;
  std::unique_ptr<Window> window_;
  Toolkit toolkit_;
  Kit kit_;
  std::optional<Look> look_;
  std::atomic<bool> picture_came_ = false;
  std::unique_ptr<VideoView> video_;
  inner::StillShelf stills_;
  FileChooser chooser_;
  int chooser_code_ = 0;
  Settings kept_;
  std::optional<double> settings_due_;
  std::optional<double> first_frame_;
  double next_frame_ = 0;
  int frames_owed_ = 0;
  bool shot_taken_ = false;
  bool leaving_ = false;
};

}  // namespace

void take_environment(ShellOptions& options) {
  if (const char* shot = std::getenv("SASHLINE_SHOT")) options.shot = shot;
  if (const char* after = std::getenv("SASHLINE_SHOT_AFTER")) {
    if (const auto seconds = read_number(after)) options.shot_after = *seconds;
  }
}

std::function<void()> waker() {
  return [] { bell().ring(); };
}

Done run(DeskApp& app, const ShellOptions& options) {
  auto fonts = find_fonts();
  if (!fonts) return fonts.fault();
  auto window = Window::open(app.settings(), app.title());
  if (!window) return window.fault();
  Shell shell(app, options, *std::move(fonts), *std::move(window));
  bell().stands(true);
  const Done done = shell.run();
  bell().stands(false);
  return done;
}

}  // namespace sash::desk
