#pragma once
// App: the whole desk for one frame. Owns what the pages remember, shows the session through them, answers the keys,
// and hands back what the person wants as intents. It holds no record and changes none: Session does. Main thread only.

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "desk/draw/kit/kit.h"
#include "desk/draw/surfaces.h"
#include "desk/shown/selection.h"
#include "desk/shown/settings.h"
#include "session/view.h"

namespace sash::desk {

/// What surrounds the desk can do for it.
struct Host {
  Surfaces& surfaces;
  bool can_choose = false;                                                  ///< the desktop has a file chooser
  std::function<std::vector<std::string>(const std::string&)> list_folder;  ///< entries, folders ending in '/'
};

/// What the person wants of the desktop, beside the intents.
enum class Choosing { open, export_folder, copy };

struct FrameResult {
  std::vector<session::Intent> intents;  ///< in the order they were asked for
  std::optional<Choosing> choose;        ///< open the desktop's file chooser
};

class App {
 public:
  explicit App(Settings settings);
  ~App();
  App(const App&) = delete;
  App& operator=(const App&) = delete;

  /// Draws one frame into the window and takes its keys. Within Kit's frame.
  FrameResult frame(Kit& kit, const session::SessionView& view, const Host& host);

  const Settings& settings() const;
  Settings& settings();
  const Selection& selection() const;

  /// The answer of the file chooser, as intents.
  std::vector<session::Intent> chosen(Choosing what, const std::vector<std::string>& paths);

 private:
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

}  // namespace sash::desk
