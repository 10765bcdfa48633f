#pragma once
// Decodes a whole, small sound file that lies in memory. Private to media; for sound that ships with the program.

#include <string_view>
#include <vector>

#include "support/outcome.h"

namespace sash::media::inner {

struct MonoSound {
  int samples_per_second = 0;
  std::vector<float> samples;  ///< full scale is 1; channels averaged
};

/// Fails: damaged (not a sound file libav reads); unsupported.
Outcome<MonoSound> decode_sound(std::string_view file_bytes);

}  // namespace sash::media::inner
