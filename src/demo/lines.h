#pragma once
// The demo's narration: what is said and when, as spoken in assets/demo/narration.opus. Pure.

#include <string>
#include <vector>

#include "support/moment.h"

namespace sash::demo {

struct SpokenLine {
  Stretch when;
  std::string text;
};

/// In order of time.
std::vector<SpokenLine> spoken_lines();

/// Length of footage and sound.
inline constexpr double film_seconds = 155.0;

}  // namespace sash::demo
