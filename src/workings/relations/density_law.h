#pragma once
// The strength of a solution from its density, and the other way round, by the tables: what a hydrometer tells, in
// g/mL, degrees Baume or as a specific gravity. Private to the relations. Source: chem/density.h and the tables it
// names.

#include "workings/relations/kinds.h"

namespace sash::workings {

/// A strength that is told as a density: by a hydrometer, or as one.
bool is_density(const Filled& strength);

struct DensityRead {
  bool hydrometer = false;  ///< at 60 degF, to which their scales refer, unless a temperature is given
  bool needed = false;      ///< nothing else tells the strength
};

/// Ties `density` of a solution of the relation's solute to its mass `fraction`. False, and nothing is tied, where no
/// table has it.
bool tie_density_to_strength(Drafting& d, std::size_t density, std::size_t fraction, const DensityRead& read);

}  // namespace sash::workings
