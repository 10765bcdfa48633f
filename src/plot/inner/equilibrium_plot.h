#pragma once
// What was named last of all that went into a solution, run into the rest of it: what precipitates on the way, what
// dissolves again, and where the record stands. Private to the part. Pure; some tens of equilibria are solved.
// Sources: chem/equilibria.h.

#include <optional>

#include "plot/inner/figures.h"

namespace sash::plot::inner {

/// Nothing where fewer than two substances were put in, an amount is unknown, a pH is held, or the constants are not
/// those of the tables.
std::optional<Plot> equilibrium_plot(const Figures& figures);

}  // namespace sash::plot::inner
