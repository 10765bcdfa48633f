#pragma once
// From HDR light to what an ordinary screen shows. PQ and HLG signals become display light (cd/m2), are bent by the
// BT.2390 curve so that the brightest fits 203 cd/m2, turned into BT.709 primaries and encoded for a 2.4 gamma screen.
// Not a creative grade: below the knee nothing changes. Pure.
// Sources: ITU-R BT.2100-2, tables 4 and 5 (PQ, HLG with its 1.2 system gamma); ITU-R BT.2390-9, 5.4.1 (the curve);
// ITU-R BT.2408-4 (203 cd/m2 as reference white); ITU-R BT.2087-0 (primaries); ITU-R BT.1886 (2.4 gamma).

#include <array>
#include <cstdint>
#include <vector>

#include "media/colour.h"

namespace sash::media {

inline constexpr double sdr_white = 203.0;    ///< cd/m2 that become full white
inline constexpr double usual_peak = 1000.0;  ///< cd/m2, when the file names no mastering peak

double pq_to_light(double signal);   ///< 0..1 to 0..10000 cd/m2
double light_to_pq(double light);    ///< inverse
double hlg_to_scene(double signal);  ///< 0..1 to scene light 0..1
/// BT.2390 EETF: light in, light out, both cd/m2; `peak` becomes `white`. Requires: 0 < white, 0 < peak.
double bend_light(double light, double peak, double white);

/// The whole way for 16-bit R'G'B' triples, by tables made once for a transfer and peak.
class ToneMap {
 public:
  /// Requires: transfer is pq or hlg; peak > 0 (for hlg the nominal 1000 is used).
  ToneMap(Transfer transfer, double peak, Primaries primaries);
  /// `in`: R, G, B as 16-bit full range; gives R, G, B for 8 bit.
  std::array<std::uint8_t, 3> map(std::uint16_t r, std::uint16_t g, std::uint16_t b) const;

 private:
  Transfer transfer_;
  bool wide_;
  std::vector<float> light_;          // 4096 steps of signal to light (PQ: already bent)
  std::vector<float> bend_;           // HLG: bend after the system gamma
  std::vector<std::uint8_t> encode_;  // 4096 steps of light/white (square root spaced) to 8 bit
};

}  // namespace sash::media
