#pragma once
// A reagent run into a solution, drawn: how much precipitate stands there and what is dissolved, against the volume
// added, with the places where a solid appears, is at its most and has cleared up again. Pure, safe from any thread.
// Sources: chem/equilibria.h computes the points.

#include <span>
#include <string>

#include "chem/equilibria.h"
#include "plot/plot.h"

namespace sash::plot {

struct SweepWords {
  std::string reagent;             ///< "2 M NH₃"
  std::size_t most_dissolved = 4;  ///< series of dissolved species besides the solids
};

/// Amounts in mmol against mL added. Of the dissolved species those are drawn that hold what the solids are made of
/// (besides H, O and what only the reagent brings in plenty), the most plentiful first; without a solid, the most
/// plentiful of all.
Plot plot_of(const chem::Sweep& sweep, const SweepWords& words);

/// Where a solid stands during a sweep, in mL added.
struct SolidStretch {
  chem::Formula solid;
  double appears = 0;             ///< first point at which it is there
  double most_at = 0;             ///< where there is most of it
  double most = 0;                ///< mmol
  double at_end = 0;              ///< mmol at the last point
  std::optional<double> cleared;  ///< first point after the most at which it is gone; nothing: it stays
};
std::vector<SolidStretch> solid_stretches(const chem::Sweep& sweep);

}  // namespace sash::plot
