#include "desk/desk.h"

#include <algorithm>
#include <filesystem>

#include "desk/app.h"
#include "desk/shell/desk_app.h"
#include "desk/shell/settings_file.h"
#include "desk/shell/shell.h"
#include "session/folders.h"
#include "session/session.h"

namespace sash::desk {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_entries = 5000;

// Folders end in '/'; a folder that cannot be read has no entries.
std::vector<std::string> entries_of(const std::string& folder) {
  std::vector<std::string> out;
  std::error_code error;
  for (fs::directory_iterator it(folder.empty() ? "." : folder, fs::directory_options::skip_permission_denied, error),
       end;
       !error && it != end && out.size() < most_entries; it.increment(error)) {
    std::error_code ignored;
    out.push_back(it->path().filename().string() + (it->is_directory(ignored) ? "/" : ""));
  }
  std::sort(out.begin(), out.end());
  return out;
}

FileWish wish_for(Choosing choosing) {
  switch (choosing) {
    case Choosing::open:
      return {.what = FileWish::What::open_several, .title = "Footage, captions or a record"};
    case Choosing::export_folder:
      return {.what = FileWish::What::folder, .title = "Folder for the script"};
    case Choosing::copy:
      return {.what = FileWish::What::save, .title = "Copy of the record", .name = "copy.sash"};
  }
  return {};
}

// Pictures for the pages, as the window keeps them.
class WindowSurfaces : public Surfaces {
 public:
  explicit WindowSurfaces(DeskServices& services) : services_(services) {}

  Surface video(const session::Transport& transport, float width, float height) override {
    if (!transport.picture) return {};
    return surface(services_.picture(transport.picture, {static_cast<int>(width), static_cast<int>(height)}));
  }
  Surface still(const session::Still& still) override {
    const media::Size size{still.width, still.height};
    return surface({services_.still(still.key, size, *still.rgba), size});
  }

 private:
  static Surface surface(const ShownPicture& shown) {
    if (shown.texture == 0) return {};
    return {reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(shown.texture)),
            static_cast<float>(shown.size.width), static_cast<float>(shown.size.height)};
  }
  DeskServices& services_;
};

class WholeDesk : public DeskApp {
 public:
  WholeDesk(Settings settings, session::Setup setup) : app_(settings), session_(std::move(setup)) {
    static_cast<void>(session_.apply(session::SetVolume{app_.settings().volume}));
  }

  // A fault is among the notices; the desk opens all the same.
  void open(const std::string& path) { static_cast<void>(session_.apply(session::AddFiles{{path}})); }

  void begin(DeskServices& services) override {
    services_ = &services;
    surfaces_ = std::make_unique<WindowSurfaces>(services);
  }
  bool poll() override { return session_.poll(); }
  void draw(Kit& kit) override {
    const Host host{*surfaces_, services_->can_choose_files(), entries_of};
    const FrameResult result = app_.frame(kit, session_.view(), host);
    for (const auto& intent : result.intents) static_cast<void>(session_.apply(intent));
    // What an intent changed is to be seen at once, not at the next movement of the mouse.
    if (!result.intents.empty()) kit.wake_in(0);
    if (result.choose && services_->choose_files(wish_for(*result.choose), static_cast<int>(*result.choose)))
      choosing_ = result.choose;
  }
  std::optional<double> due() const override { return session_.seconds_to_next_frame(); }
  void drop(std::vector<std::string> paths) override {
    static_cast<void>(session_.apply(session::AddFiles{std::move(paths)}));
  }
  void chosen(int, std::vector<std::string> paths) override {
    if (!choosing_ || paths.empty()) return;
    for (const auto& intent : app_.chosen(*choosing_, paths)) static_cast<void>(session_.apply(intent));
    choosing_.reset();
  }
  bool may_close() override { return true; }  // every edit is on disk already
  std::string title() const override {
    const auto view = session_.view();
    return view.has_record ? view.name + " \u2013 Sashline" : "Sashline";
  }
  Settings& settings() override { return app_.settings(); }

 private:
  App app_;
  session::Session session_;
  DeskServices* services_ = nullptr;
  std::unique_ptr<WindowSurfaces> surfaces_;
  std::optional<Choosing> choosing_;
};

}  // namespace

Done open_desk(const DeskOptions& options) {
  ShellOptions shell;
  shell.settings_file = session::config_folder() + "/desk.settings";
  take_environment(shell);
  session::Setup setup;
  setup.cache_folder = session::cache_folder();
  setup.state_folder = session::state_folder();
  setup.demo_folder = session::data_folder() + "/demo";
  setup.own_folder = session::documents_folder();
  setup.wake = waker();
  setup.make_demo = options.make_demo;
  WholeDesk desk(load_settings(shell.settings_file), std::move(setup));
  if (options.record) desk.open(*options.record);
  return run(desk, shell);
}

}  // namespace sash::desk
