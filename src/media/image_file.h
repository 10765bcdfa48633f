#pragma once
// RGBA pictures as PNG and JPEG bytes. Same picture, same bytes: no time, no program name inside. Safe from any thread.

#include <cstdint>
#include <vector>

#include "media/rgba.h"
#include "support/outcome.h"

namespace sash::media {

/// Lossless; alpha is left out. Fails: out_of_range (an empty picture).
Outcome<std::vector<std::uint8_t>> png_bytes(const RgbaImage& image);

/// `quality` from 1 (smallest) to 100 (best); 4:4:4, BT.601 full range as JFIF says. Fails: out_of_range.
Outcome<std::vector<std::uint8_t>> jpeg_bytes(const RgbaImage& image, int quality);

}  // namespace sash::media
