#include "desk/draw/kit/colour.h"

#include <algorithm>
#include <cmath>

namespace sash::desk {
namespace {

double linear(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double luminance(Colour c) { return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b); }

}  // namespace

Colour mix(Colour from, Colour to, float share) {
  const auto between = [share](std::uint8_t x, std::uint8_t y) {
    return static_cast<std::uint8_t>(std::lround(static_cast<float>(x) + share * static_cast<float>(y - x)));
  };
  return {between(from.r, to.r), between(from.g, to.g), between(from.b, to.b), between(from.a, to.a)};
}

double contrast(Colour one, Colour other) {
  const double x = luminance(one);
  const double y = luminance(other);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

Colour readable_on(Colour ground, Colour one, Colour other) {
  return contrast(ground, one) >= contrast(ground, other) ? one : other;
}

}  // namespace sash::desk
