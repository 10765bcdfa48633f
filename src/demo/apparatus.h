#pragma once
// What stands on the demo's bench: each piece drawn at its place, in pixels of a 1280x720 picture. Draws only.

#include <string>

#include "demo/pen.h"

namespace sash::demo {

/// The bench, its wall, and (in a hood) the sash above it.
void draw_bench(Pen& pen, bool in_hood);

/// A beaker standing at (x, floor), `liquid` up to `level` (0 to 1), with `settled` solid on its bottom.
struct Beaker {
  double x = 640;
  double floor = 560;
  double level = 0;
  Colour liquid;
  double settled = 0;  ///< height of the solid, as a share of the beaker
  Colour solid;
};
void draw_beaker(Pen& pen, const Beaker& beaker);

/// Bubbles rising in the beaker's liquid at time `t`; `many` from 0 to 1.
void draw_bubbles(Pen& pen, const Beaker& beaker, double t, double many, Colour colour);

/// Fume standing over the beaker at time `t`; `thick` from 0 to 1.
void draw_fume(Pen& pen, const Beaker& beaker, double t, double thick, Colour colour);

/// A bottle tipped over the beaker by `tip` (0 upright to 1 pouring), with a stream while `pouring`.
void draw_bottle(Pen& pen, const Beaker& beaker, const std::string& label, const std::string& strength, double tip,
                 bool pouring, Colour contents);

/// A coil of wire in the beaker; `left` from 1 (whole) to 0 (gone).
void draw_wire(Pen& pen, double x, double y, double left);

/// A laboratory balance with `grams` on its readout and something red or black on its pan.
void draw_balance(Pen& pen, const std::string& grams, Colour heap, double heap_size);

/// A hot plate under the beaker, its light on when hot.
void draw_hot_plate(Pen& pen, const Beaker& beaker, bool hot, const std::string& celsius);

void draw_oven(Pen& pen, const std::string& celsius);
void draw_waste_jar(Pen& pen, double level);

/// The ring of compounds the film begins with; `share` of it drawn.
void draw_cycle(Pen& pen, double share);

}  // namespace sash::demo
