#pragma once
// DeskApp and DeskServices: what the shell asks of the desk, and what it offers. The shell knows windows and graphics
// and nothing of records; the desk is the reverse. Everything here runs on the main thread.

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "desk/draw/kit/kit.h"
#include "desk/shell/file_chooser.h"
#include "desk/shell/video_view.h"
#include "desk/shown/settings.h"

namespace sash::desk {

class DeskServices {
 public:
  virtual ~DeskServices() = default;

  /// The picture to show, at most `room` large; see VideoView.
  virtual ShownPicture picture(const media::PicturePtr& picture, media::Size room) = 0;
  /// A small RGBA picture as a texture; kept by `key` until it has not been asked for for a while.
  virtual unsigned still(std::uint64_t key, media::Size size, std::span<const std::uint8_t> rgba) = 0;

  /// Whether the desktop has a file chooser of its own.
  virtual bool can_choose_files() const = 0;
  /// Opens it beside the window; the answer is DeskApp::chosen with `code`. One at a time: a second call is refused.
  virtual bool choose_files(const FileWish& wish, int code) = 0;

  virtual bool full_screen() const = 0;
  virtual void set_full_screen(bool on) = 0;
  /// Ends the loop after this frame.
  virtual void close() = 0;
};

class DeskApp {
 public:
  virtual ~DeskApp() = default;

  /// Once, when the window stands and before the first frame.
  virtual void begin(DeskServices& services) = 0;
  /// Takes in what background work has finished; true when something visible changed.
  virtual bool poll() = 0;
  /// One frame, inside ImGui's. The keys of the frame are kit.keys().
  virtual void draw(Kit& kit) = 0;
  /// Seconds until the desk will have something new by itself (the next picture); nothing: it waits for the person.
  virtual std::optional<double> due() const = 0;

  virtual void drop(std::vector<std::string> paths) = 0;
  /// The answer of the file chooser; no paths: the person thought better of it.
  virtual void chosen(int code, std::vector<std::string> paths) = 0;
  /// The person closes the window; false keeps it open (the desk then says why).
  virtual bool may_close() = 0;

  virtual std::string title() const = 0;
  /// Look, sizes and window as the desk wants them; the shell follows and keeps them on disk.
  virtual Settings& settings() = 0;
};

}  // namespace sash::desk
