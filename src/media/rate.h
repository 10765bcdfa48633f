#pragma once
// Rate: frames (or samples) per second as an exact ratio, 30000/1001 being the common reason. Pure values.

#include <cstdint>

namespace sash::media {

struct Rate {
  std::int64_t num = 0;
  std::int64_t den = 1;
  constexpr bool operator==(const Rate&) const = default;
  constexpr double per_second() const { return static_cast<double>(num) / static_cast<double>(den); }
};

/// Width and height in pixels.
struct Size {
  int width = 0;
  int height = 0;
  constexpr bool operator==(const Size&) const = default;
  constexpr bool empty() const { return width <= 0 || height <= 0; }
};

}  // namespace sash::media
