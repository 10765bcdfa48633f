#pragma once
// The desk as a whole: session, pages and window put together. Main thread only.

#include <functional>
#include <optional>
#include <string>

#include "support/outcome.h"
#include "support/progress.h"

namespace sash::desk {

struct DeskOptions {
  std::optional<std::string> record;  ///< opened at once; without it the desk invites
  std::function<Outcome<std::string>(const std::string& folder, Progress& progress)> make_demo;
};

/// Runs the desk until its window is closed.
/// Fails: as run() in shell.h, when there is no display to open a window on.
Done open_desk(const DeskOptions& options);

}  // namespace sash::desk
