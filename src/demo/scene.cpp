#include "demo/scene.h"

#include <algorithm>
#include <cmath>

#include "demo/apparatus.h"

namespace sash::demo {
namespace {

constexpr Colour water{0.75, 0.86, 0.90, 0.55};
constexpr Colour acid{0.93, 0.92, 0.78, 0.55};
constexpr Colour green{0.20, 0.55, 0.33, 0.88};
constexpr Colour nitrate_blue{0.16, 0.50, 0.68, 0.85};
constexpr Colour hydroxide{0.42, 0.68, 0.92};
constexpr Colour oxide{0.08, 0.08, 0.09};
constexpr Colour sulfate_blue{0.10, 0.38, 0.78, 0.85};
constexpr Colour copper{0.62, 0.28, 0.16};
constexpr Colour brown_fume{0.60, 0.26, 0.06};
constexpr Colour gas{1, 1, 1, 0.75};

// 0 before `from`, 1 after `until`, straight between.
double ramp(double t, double from, double until) { return std::clamp((t - from) / (until - from), 0.0, 1.0); }

// 0 outside, rising and falling over `edge` seconds at both ends.
double swell(double t, double from, double until, double edge) {
  return std::min(ramp(t, from, from + edge), 1 - ramp(t, until - edge, until));
}

bool within(double t, double from, double until) { return t >= from && t < until; }

void balance_shot(Pen& pen, double t) {
  draw_bench(pen, false);
  if (t < 20) {
    const double settle = ramp(t, 9.2, 10.6);
    draw_balance(pen, settle < 0.3 ? "0.000" : settle < 1 ? "0.487" : "0.500", {0.78, 0.44, 0.22}, 0.7);
  } else if (t < 140) {
    draw_balance(pen, ramp(t, 126.2, 127.2) < 1 ? "0.000" : "0.552", copper, 1.0);
  } else {
    draw_balance(pen, ramp(t, 141.2, 141.9) < 1 ? "0.000" : "0.481", mix(copper, {0.80, 0.45, 0.25}, 0.5), 0.9);
  }
}

void nitric_shot(Pen& pen, double t) {
  draw_bench(pen, true);
  Beaker b;
  b.level = 0.06 * ramp(t, 29, 34) + 0.30 * ramp(t, 55, 58);
  const double solved = ramp(t, 36, 50);
  b.liquid = mix(mix(acid, green, ramp(t, 36, 41)), nitrate_blue, ramp(t, 42, 57));
  draw_beaker(pen, b);
  draw_wire(pen, b.x, b.floor - 12, 1 - solved);
  draw_bubbles(pen, b, t, swell(t, 35, 51, 2), gas);
  draw_fume(pen, b, t, swell(t, fume_begins, fume_ends, 2.5), brown_fume);
  if (t < 36) draw_bottle(pen, b, "HNO₃", "15.8 M", ramp(t, 26.5, 28.8) - ramp(t, 34.2, 36), within(t, 29, 34), acid);
  if (within(t, 54, 60)) {
    pen.box(240, 470, 90, 90, {0.86, 0.92, 0.95, 0.4}, 8);
    pen.text(285, 545, "water", 20, {0.2, 0.25, 0.28}, true, true);
  }
}

void hydroxide_shot(Pen& pen, double t) {
  draw_bench(pen, true);
  Beaker b;
  b.floor = 520;
  const double warm = ramp(t, 74.5, 82);
  b.level = 0.36 + 0.12 * ramp(t, 62, 66);
  const double falls = ramp(t, 64, 71);
  const double turns = ramp(t, 81, 86);
  b.liquid = mix(nitrate_blue, mix(hydroxide, water, 0.4 + 0.6 * turns), falls);
  b.settled = 0.34 * falls - 0.14 * turns;
  b.solid = mix(hydroxide, oxide, turns);
  const double celsius = 21 + 59 * warm;
  draw_hot_plate(pen, b, t > 74.5, std::to_string(static_cast<int>(celsius)));
  draw_beaker(pen, b);
  if (t < 68) draw_bottle(pen, b, "NaOH", "3.0 M", ramp(t, 60.5, 61.9) - ramp(t, 66.2, 67.8), within(t, 62, 66), water);
  draw_fume(pen, b, t, 0.5 * swell(t, 78, 91, 2), {0.95, 0.95, 0.95});
}

void sulfate_shot(Pen& pen, double t) {
  draw_bench(pen, false);
  Beaker b;
  b.level = 0.30 + 0.16 * ramp(t, 96, 100);
  const double solves = ramp(t, 98, 104);
  const double fades = ramp(t, zinc_in + 0.5, 118.5);
  b.liquid = mix(mix(water, sulfate_blue, solves), water, fades);
  b.settled = 0.20 * (1 - solves) + 0.07 * fades;
  b.solid = fades > 0 ? copper : oxide;
  draw_beaker(pen, b);
  if (t < 101.5)
    draw_bottle(pen, b, "H₂SO₄", "3.0 M", ramp(t, 93.5, 95.8) - ramp(t, 100, 101.4), within(t, 96, 100), water);
  if (within(t, 107.5, 113)) {
    pen.box(300, 500, 150, 60, {0.97, 0.97, 0.95}, 8);
    pen.text(375, 538, "Zn 1.50 g", 24, {0.2, 0.2, 0.22}, true, true);
    for (int i = 0; i < 6; ++i) {
      const double fall = std::fmod(t * 1.3 + i * 0.17, 1.0);
      pen.disc(b.x - 20 + 8 * i, b.floor - 300 + 200 * fall, 4, {0.55, 0.57, 0.60});
    }
  }
  draw_bubbles(pen, b, t, swell(t, zinc_in, fizz_ends, 1), gas);
}

void opening_shot(Pen& pen) {
  draw_bench(pen, true);
  Beaker b;
  draw_beaker(pen, b);
  draw_wire(pen, b.x, b.floor - 12, 1);
  draw_bottle(pen, b, "HNO₃", "15.8 M", 0, false, acid);
}

}  // namespace

void draw_film(Pen& pen, double t) {
  if (t < 8.5) {
    draw_cycle(pen, ramp(t, 0.5, 7));
  } else if (t < 17 || within(t, 120, 136) || within(t, 141, 147.5)) {
    balance_shot(pen, t);
  } else if (t < 25.5) {
    opening_shot(pen);
  } else if (t < 60) {
    nitric_shot(pen, t);
  } else if (t < 91) {
    hydroxide_shot(pen, t);
  } else if (t < 120) {
    sulfate_shot(pen, t);
  } else if (t < 141) {
    draw_bench(pen, false);
    draw_oven(pen, "105");
  } else {
    draw_bench(pen, false);
    draw_waste_jar(pen, 0.3 + 0.3 * ramp(t, 148, 152));
  }
}

}  // namespace sash::demo
