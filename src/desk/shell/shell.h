#pragma once
// Shell: the window, the loop, and the pixels. Redraws only when something happened, was due or was asked for;
// otherwise it sleeps in the window system. Main thread only; the waker alone may be called from anywhere.

#include <functional>
#include <string>

#include "desk/shell/desk_app.h"
#include "support/outcome.h"

namespace sash::desk {

struct ShellOptions {
  std::string settings_file;  ///< where Settings are kept; empty: nowhere
  std::string shot;           ///< a PNG of the window is written here ...
  double shot_after = 1.0;    ///< ... this many seconds after the first frame ...
  bool leave_after_shot = true;
};

/// SASHLINE_SHOT and SASHLINE_SHOT_AFTER, for pictures made without a person.
void take_environment(ShellOptions& options);

/// Makes the loop look at DeskApp::poll(). Safe from any thread, before, during and after run().
std::function<void()> waker();

/// Runs the desk until it is closed.
/// Fails: Code::not_found when there is no display or a font is missing; Code::unsupported when the display has no
/// OpenGL 3.3.
Done run(DeskApp& app, const ShellOptions& options);

}  // namespace sash::desk
