#pragma once
// libav's names for colours, pixel shapes and turns, as media's own. The numbers are those of ITU-T H.273, which libav
// keeps. Private to media; pure.

#include <cstdint>
#include <optional>

#include "media/colour.h"
#include "media/picture.h"

namespace sash::media::inner {

/// Each argument is an H.273 code point; 0 and 2 ("unspecified") give nothing.
ColourTags tags_of(int matrix, int primaries, int transfer, int av_range);

/// SWS_CS_... for sws_getCoefficients.
int sws_matrix(Matrix m);

struct Orientation {
  int turn = 0;  ///< clockwise
  bool mirrored = false;
};

/// From a 3x3 display matrix of 16.16 numbers, to the nearest quarter turn. Source: ISO/IEC 14496-12, 6.2.2.
Orientation orientation_of(const std::int32_t* display_matrix);

}  // namespace sash::media::inner
