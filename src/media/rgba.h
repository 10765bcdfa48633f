#pragma once
// RGBA for software drawing, stills and image files: scaled, upright, square pixels, sRGB-like, HDR tone-mapped
// (tone_map.h). RgbaMaker keeps its scaler between pictures: one per thread. The free function may be called from
// anywhere. Source: ITU-R BT.601/709/2020 through colour.h; the scaler is told matrix and range each time.

#include <cstdint>
#include <memory>
#include <vector>

#include "media/picture.h"

namespace sash::media {

/// Rows from the top, four bytes a pixel (R, G, B, 255), no padding.
struct RgbaImage {
  Size size;
  std::vector<std::uint8_t> pixels;
  bool operator==(const RgbaImage&) const = default;
};

/// fast: for moving pictures (error up to about 3 of 255). accurate: for what is printed or read, about 20 times
/// slower.
enum class Quality { fast, accurate };

class RgbaMaker {
 public:
  RgbaMaker();
  ~RgbaMaker();
  RgbaMaker(RgbaMaker&&) noexcept;
  RgbaMaker& operator=(RgbaMaker&&) noexcept;
  /// The picture as shown, inside `box` (empty: full size).
  RgbaImage make(const Picture& picture, Size box, Quality quality);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

RgbaImage to_rgba(const Picture& picture, Size box, Quality quality);

}  // namespace sash::media
