#include "desk/shell/inner/icon.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sash::desk::inner {
namespace {

struct Ink {
  float r;
  float g;
  float b;
  float a;
};

constexpr Ink clear{0, 0, 0, 0};
constexpr Ink ground{0.10F, 0.20F, 0.19F, 1};
constexpr Ink frame{0.90F, 0.93F, 0.90F, 1};
constexpr Ink pane{0.49F, 0.78F, 0.72F, 1};
constexpr Ink line{0.95F, 0.72F, 0.20F, 1};

bool in_box(float x, float y, float x0, float y0, float x1, float y1) { return x >= x0 && x < x1 && y >= y0 && y < y1; }

/// In a unit square.
Ink ink_at(float x, float y) {
  const float dx = std::max(std::abs(x - 0.5F) - 0.30F, 0.0F);
  const float dy = std::max(std::abs(y - 0.5F) - 0.30F, 0.0F);
  if (std::hypot(dx, dy) > 0.18F) return clear;
  if (in_box(x, y, 0.14F, 0.70F, 0.86F, 0.77F)) return line;  // time
  if (std::hypot(x - 0.62F, y - 0.735F) < 0.095F) return line;
  if (in_box(x, y, 0.29F, 0.27F, 0.71F, 0.49F)) return pane;
  if (in_box(x, y, 0.22F, 0.20F, 0.78F, 0.56F)) return frame;
  return ground;
}

}  // namespace

std::vector<unsigned char> window_icon(int side) {
  constexpr int fine = 4;  // samples a side within a pixel
  std::vector<unsigned char> out;
  out.reserve(static_cast<std::size_t>(side * side) * 4);
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      std::array<float, 4> sum{};
      for (int s = 0; s < fine * fine; ++s) {
        const auto at = [&](int whole, int part) {
          return (static_cast<float>(whole) + (static_cast<float>(part) + 0.5F) / fine) / static_cast<float>(side);
        };
        const Ink i = ink_at(at(x, s % fine), at(y, s / fine));
        sum[0] += i.r * i.a;
        sum[1] += i.g * i.a;
        sum[2] += i.b * i.a;
        sum[3] += i.a;
      }
      for (std::size_t c = 0; c < 3; ++c) {
        out.push_back(static_cast<unsigned char>(std::lround(sum[3] > 0 ? 255 * sum[c] / sum[3] : 0)));
      }
      out.push_back(static_cast<unsigned char>(std::lround(255 * sum[3] / (fine * fine))));
    }
  }
  return out;
}

}  // namespace sash::desk::inner
