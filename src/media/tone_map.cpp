#include "media/tone_map.h"

#include <algorithm>
#include <cmath>

#include "support/check.h"

namespace sash::media {
namespace {

// SMPTE ST 2084 constants as in BT.2100-2, table 4.
constexpr double m1 = 2610.0 / 16384.0;
constexpr double m2 = 2523.0 / 4096.0 * 128.0;
constexpr double c1 = 3424.0 / 4096.0;
constexpr double c2 = 2413.0 / 4096.0 * 32.0;
constexpr double c3 = 2392.0 / 4096.0 * 32.0;

constexpr std::size_t steps = 4096;
constexpr double hlg_gamma = 1.2;  // BT.2100-2, table 5: for a nominal peak of 1000 cd/m2

std::size_t step_of(double share) {
  return static_cast<std::size_t>(std::lround(std::clamp(share, 0.0, 1.0) * (steps - 1)));
}

}  // namespace

double pq_to_light(double signal) {
  const double e = std::pow(std::clamp(signal, 0.0, 1.0), 1.0 / m2);
  return 10000.0 * std::pow(std::max(e - c1, 0.0) / (c2 - c3 * e), 1.0 / m1);
}

double light_to_pq(double light) {
  const double y = std::pow(std::clamp(light / 10000.0, 0.0, 1.0), m1);
  return std::pow((c1 + c2 * y) / (1.0 + c3 * y), m2);
}

double hlg_to_scene(double signal) {
  constexpr double a = 0.17883277;
  const double b = 1.0 - 4.0 * a;
  const double c = 0.5 - a * std::log(4.0 * a);
  const double x = std::clamp(signal, 0.0, 1.0);
  return x <= 0.5 ? x * x / 3.0 : (std::exp((x - c) / a) + b) / 12.0;
}

double bend_light(double light, double peak, double white) {
  promise(peak > 0 && white > 0, "peak and white above 0");
  if (peak <= white) return std::min(light, white);
  const double top = light_to_pq(peak);
  const double e1 = std::clamp(light_to_pq(light) / top, 0.0, 1.0);
  const double max_lum = light_to_pq(white) / top;
  const double knee = 1.5 * max_lum - 0.5;
  if (e1 < knee) return light;
  const double t = (e1 - knee) / (1.0 - knee);
  const double t2 = t * t;
  const double t3 = t2 * t;
  const double e2 = (2 * t3 - 3 * t2 + 1) * knee + (t3 - 2 * t2 + t) * (1 - knee) + (-2 * t3 + 3 * t2) * max_lum;
  return pq_to_light(e2 * top);
}

ToneMap::ToneMap(Transfer transfer, double peak, Primaries primaries)
    : transfer_(transfer), wide_(primaries == Primaries::bt2020), light_(steps), bend_(steps), encode_(steps) {
  promise(transfer == Transfer::pq || transfer == Transfer::hlg, "an HDR transfer");
  for (std::size_t i = 0; i < steps; ++i) {
    const double x = static_cast<double>(i) / (steps - 1);
    light_[i] = static_cast<float>(transfer == Transfer::pq ? bend_light(pq_to_light(x), peak, sdr_white) / sdr_white
                                                            : hlg_to_scene(x));
    // Index: square root of display light over the nominal peak.
    bend_[i] = static_cast<float>(bend_light(x * x * usual_peak, usual_peak, sdr_white) / sdr_white);
    encode_[i] = static_cast<std::uint8_t>(std::lround(255.0 * std::pow(x * x, 1.0 / 2.4)));
  }
}

std::array<std::uint8_t, 3> ToneMap::map(std::uint16_t r, std::uint16_t g, std::uint16_t b) const {
  const auto light = [this](std::uint16_t v) { return light_[static_cast<std::size_t>(v) * (steps - 1) / 65535]; };
  float red = light(r);
  float green = light(g);
  float blue = light(b);
  if (transfer_ == Transfer::hlg) {
    // OOTF: each component times scene luminance to the power gamma - 1, then the bend.
    const double y = 0.2627 * red + 0.6780 * green + 0.0593 * blue;
    const auto gain = static_cast<float>(y > 0 ? std::pow(y, hlg_gamma - 1.0) : 0.0);
    const auto bent = [&](float scene) { return bend_[step_of(std::sqrt(static_cast<double>(scene * gain)))]; };
    red = bent(red);
    green = bent(green);
    blue = bent(blue);
  }
  if (wide_) {
    // BT.2020 to BT.709 linear light (BT.2087-0, annex 1, inverse of M2).
    const float r2 = 1.660491F * red - 0.587641F * green - 0.072850F * blue;
    const float g2 = -0.124550F * red + 1.132900F * green - 0.008349F * blue;
    const float b2 = -0.018151F * red - 0.100579F * green + 1.118730F * blue;
    red = r2;
    green = g2;
    blue = b2;
  }
  const auto encode = [this](float v) { return encode_[step_of(std::sqrt(static_cast<double>(std::max(v, 0.0F))))]; };
  return {encode(red), encode(green), encode(blue)};
}

}  // namespace sash::media
