#pragma once
// Renders the demo's film with its sound. Safe from any thread.

#include <string>

#include "support/outcome.h"
#include "support/progress.h"

namespace sash::demo {

/// Writes the film to `path`. Fails: unreadable; unsupported (no H.264 encoder); cancelled. Leaves no half file behind.
Done make_film(const std::string& path, Progress& progress);

}  // namespace sash::demo
