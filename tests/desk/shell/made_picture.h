#pragma once
// Pictures made for tests: smooth ramps in every channel, so that each value of the range occurs and neighbours differ
// little; and what swscale, told the colour space, makes of them.

#include <cstdint>
#include <vector>

#include "media/picture.h"

namespace sash::testing {

struct Make {
  media::PlaneKind kind = media::PlaneKind::yuv420;
  int bits = 8;
  media::Size size{256, 144};
  media::Colour colour{};
  int turn = 0;
  bool mirrored = false;
};

media::PicturePtr made_picture(const Make& make);

/// The picture as RGB, three bytes a pixel, same size, by libswscale with its most accurate settings, the matrix and
/// range given, chroma on the left.
std::vector<std::uint8_t> by_swscale(const media::Picture& picture);

}  // namespace sash::testing
