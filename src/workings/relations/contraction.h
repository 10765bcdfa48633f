#pragma once
// The volume that is lost when solutions of one solute mix, from the density tables, for relations that add volumes.
// Private to the relations. Source: chem/solution.h and the tables it names.

#include <optional>
#include <vector>

#include "workings/relations/kinds.h"

namespace sash::workings {

/// A volume that goes into a mixture and how strong it is; water where it has no strength.
struct VolumePart {
  double si = 0;  ///< m3
  const Filled* strength = nullptr;
};

/// What the parts lose together, as a constant to be taken off their sum; nothing, and a note that volumes are taken to
/// add up, where no table covers them.
std::optional<std::size_t> volume_lost(Drafting& d, const std::vector<VolumePart>& parts);

/// The same where the last part, which is water, is what is missing to `whole` (m3).
std::optional<std::size_t> volume_lost_filling_up(Drafting& d, const VolumePart& solution, double whole);

}  // namespace sash::workings
