#include "media/picture.h"

#include <algorithm>
#include <cmath>

namespace sash::media {

Size shown_size(Size stored, Rate pixel_aspect, int turn) {
  Size s = stored;
  // Wide pixels widen the picture, tall ones heighten it: nothing is thrown away.
  if (pixel_aspect.num > 0 && pixel_aspect.den > 0 && pixel_aspect.num != pixel_aspect.den) {
    const double aspect = pixel_aspect.per_second();
    if (aspect > 1) {
      s.width = static_cast<int>(std::lround(s.width * aspect));
    } else {
      s.height = static_cast<int>(std::lround(s.height / aspect));
    }
  }
  if (turn % 180 != 0) std::swap(s.width, s.height);
  return s;
}

Size shown_size(const Picture& p) { return shown_size(p.size, p.pixel_aspect, p.turn); }

Size fit(Size of, Size box) {
  if (box.empty() || of.empty()) return of;
  const double scale =
      std::min({1.0, static_cast<double>(box.width) / of.width, static_cast<double>(box.height) / of.height});
  return {std::max(1, static_cast<int>(std::lround(of.width * scale))),
          std::max(1, static_cast<int>(std::lround(of.height * scale)))};
}

}  // namespace sash::media
