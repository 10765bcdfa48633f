#pragma once
// Shot: the framebuffer being drawn, as a PNG.

#include <string>

#include "support/outcome.h"

namespace sash::desk::inner {

/// Fails: Code::unreadable, naming the file.
Done shoot(const std::string& file, int width, int height);

}  // namespace sash::desk::inner
