#pragma once
// The scratch page's quantities: what was typed is laid out as a small record with what one would want to know left
// open, and the workings fill that in. So a quick answer is computed, doubted and written out as in any record. Pure.

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "chem/equation.h"
#include "desk/shown/scratch_page.h"
#include "narration/quick_figure.h"

namespace sash::desk {

using Quantities = std::vector<narration::QuickFigure>;

/// "5 g copper sulfate" gives its amount, "25 mL 6 M nitric acid" what is dissolved in it, "6 M nitric acid" its other
/// strengths, "0.05 mol hydrogen" its mass and volume, "70 °F" the same in other units.
std::vector<ScratchLine> scratch_quantities(const Quantities& typed);

/// What is measured out for so much of a weaker solution. `wanted`: its volume and strength; `stock`: its strength.
std::vector<ScratchLine> scratch_dilution(const Quantities& wanted, const narration::QuickFigure& stock);

/// What forms from what was put in, and what is left over.
std::vector<ScratchLine> scratch_reaction(const chem::Equation& balanced, const Quantities& put_in);

/// The share of one quantity in another, in percent.
std::vector<ScratchLine> scratch_share(const narration::QuickFigure& part, const narration::QuickFigure& whole);

/// The same quantity in another unit of its kind; nothing when the two measure different things.
std::optional<ScratchLine> scratch_conversion(const narration::QuickFigure& quantity, std::string_view ucum);

}  // namespace sash::desk
