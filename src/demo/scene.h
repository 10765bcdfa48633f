#pragma once
// The demo's film: what is to be seen at each second. Draws only; the same second gives the same picture.

#include "demo/pen.h"

namespace sash::demo {

inline constexpr int film_width = 1280;
inline constexpr int film_height = 720;

/// Times at which something begins that the record speaks of, in seconds.
inline constexpr double fume_begins = 38.0;
inline constexpr double fume_ends = 53.0;
inline constexpr double zinc_in = 112.0;
inline constexpr double fizz_ends = 119.5;

void draw_film(Pen& pen, double seconds);

}  // namespace sash::demo
