#pragma once
// Sizes: every length on the desk comes from here and grows with the font scale. In window pixels (the window's own
// content scale is multiplied in by the shell). Pure values.

#include <algorithm>
#include <cmath>

namespace sash::desk {

struct Metrics {
  float scale = 1;  ///< font scale times content scale

  float body = 15;  ///< text heights
  float small = 12.5F;
  float title = 19;
  float digits = 15;  ///< the fixed-width face

  float hair = 1;   ///< lines
  float gap = 6;    ///< between things that belong together
  float pad = 10;   ///< inside a pane, between groups
  float inset = 8;  ///< text from the side of its button or field
  float row = 28;   ///< a button, a field, a list row
  float tight_row = 22;
  float radius = 5;
  float ring = 2;  ///< the focus ring
  float grip = 7;  ///< a splitter
  float icon = 16;
  float scrollbar = 11;

  /// Requires: scale within least..most.
  static Metrics at(float scale) {
    Metrics m;
    const auto whole = [scale](float v) { return std::max(1.0F, std::round(v * scale)); };
    m.scale = scale;
    m.body = whole(m.body);
    m.small = whole(m.small);
    m.title = whole(m.title);
    m.digits = whole(m.digits);
    m.hair = std::max(1.0F, std::floor(scale));
    m.gap = whole(m.gap);
    m.pad = whole(m.pad);
    m.inset = whole(m.inset);
    m.row = whole(m.row);
    m.tight_row = whole(m.tight_row);
    m.radius = whole(m.radius);
    m.ring = whole(m.ring);
    m.grip = whole(m.grip);
    m.icon = whole(m.icon);
    m.scrollbar = whole(m.scrollbar);
    return m;
  }

  /// A length given for scale 1, rounded to whole pixels.
  float px(float at_scale_one) const { return std::round(at_scale_one * scale); }

  static constexpr float least = 0.75F;
  static constexpr float most = 3.0F;
};

}  // namespace sash::desk
