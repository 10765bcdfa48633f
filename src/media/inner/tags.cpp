#include "media/inner/tags.h"

#include <cmath>
#include <numbers>

extern "C" {
#include <libavutil/pixfmt.h>
#include <libswscale/swscale.h>
}

namespace sash::media::inner {

ColourTags tags_of(int matrix, int primaries, int transfer, int av_range) {
  ColourTags tags;
  switch (matrix) {
    case AVCOL_SPC_RGB:
      tags.matrix = Matrix::rgb;
      break;
    case AVCOL_SPC_BT709:
      tags.matrix = Matrix::bt709;
      break;
    case AVCOL_SPC_FCC:
    case AVCOL_SPC_BT470BG:
    case AVCOL_SPC_SMPTE170M:
      tags.matrix = Matrix::bt601;
      break;
    case AVCOL_SPC_SMPTE240M:
      tags.matrix = Matrix::smpte240;
      break;
    case AVCOL_SPC_BT2020_NCL:
    case AVCOL_SPC_BT2020_CL:
      tags.matrix = Matrix::bt2020;
      break;
    case AVCOL_SPC_YCGCO:
      tags.matrix = Matrix::ycgco;
      break;
    default:
      break;
  }
  switch (primaries) {
    case AVCOL_PRI_UNSPECIFIED:
    case AVCOL_PRI_RESERVED0:
    case AVCOL_PRI_RESERVED:
      break;
    case AVCOL_PRI_BT709:
      tags.primaries = Primaries::bt709;
      break;
    case AVCOL_PRI_BT470BG:
      tags.primaries = Primaries::bt601_625;
      break;
    case AVCOL_PRI_SMPTE170M:
    case AVCOL_PRI_SMPTE240M:
      tags.primaries = Primaries::bt601_525;
      break;
    case AVCOL_PRI_BT2020:
      tags.primaries = Primaries::bt2020;
      break;
    case AVCOL_PRI_SMPTE432:
      tags.primaries = Primaries::p3_d65;
      break;
    default:
      tags.primaries = Primaries::other;
      break;
  }
  switch (transfer) {
    case AVCOL_TRC_UNSPECIFIED:
    case AVCOL_TRC_RESERVED0:
    case AVCOL_TRC_RESERVED:
      break;
    case AVCOL_TRC_BT709:
    case AVCOL_TRC_SMPTE170M:
    case AVCOL_TRC_BT2020_10:
    case AVCOL_TRC_BT2020_12:
      tags.transfer = Transfer::bt709;
      break;
    case AVCOL_TRC_IEC61966_2_1:
      tags.transfer = Transfer::srgb;
      break;
    case AVCOL_TRC_LINEAR:
      tags.transfer = Transfer::linear;
      break;
    case AVCOL_TRC_SMPTE2084:
      tags.transfer = Transfer::pq;
      break;
    case AVCOL_TRC_ARIB_STD_B67:
      tags.transfer = Transfer::hlg;
      break;
    default:
      tags.transfer = Transfer::other;
      break;
  }
  if (av_range == AVCOL_RANGE_MPEG) tags.range = Range::limited;
  if (av_range == AVCOL_RANGE_JPEG) tags.range = Range::full;
  return tags;
}

int sws_matrix(Matrix m) {
  switch (m) {
    case Matrix::bt601:
      return SWS_CS_ITU601;
    case Matrix::bt2020:
      return SWS_CS_BT2020;
    case Matrix::smpte240:
      return SWS_CS_SMPTE240M;
    default:
      return SWS_CS_ITU709;
  }
}

Orientation orientation_of(const std::int32_t* m) {
  // x' = m0 x + m3 y, y' = m1 x + m4 y, y pointing down: a clockwise turn has m0 = cos, m1 = sin. A mirror (x to -x)
  // before the turn makes the determinant negative and leaves the second column as the turn's own.
  const double m0 = m[0];
  const double m1 = m[1];
  const double m3 = m[3];
  const double m4 = m[4];
  Orientation o;
  o.mirrored = m0 * m4 - m1 * m3 < 0;
  const double angle = o.mirrored ? std::atan2(-m3, m4) : std::atan2(m1, m0);
  const long quarters = std::lround(angle / (std::numbers::pi / 2));
  o.turn = static_cast<int>((quarters % 4 + 4) % 4) * 90;
  return o;
}

}  // namespace sash::media::inner
