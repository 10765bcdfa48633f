#pragma once
// How much of a product can form against how much of a reactant is put in, and from where on another reactant limits.
// Private to the part. Pure. Sources: the definition of extent of reaction, IUPAC Green Book, 3rd ed., 2.10.

#include <optional>

#include "plot/inner/figures.h"

namespace sash::plot::inner {

/// Nothing where the equation, a reactant or a product in moles or grams is missing.
std::optional<Plot> reaction_plot(const Figures& figures);

}  // namespace sash::plot::inner
