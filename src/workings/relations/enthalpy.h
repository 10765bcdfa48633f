#pragma once
// The molar enthalpy of what happens, from the tables of the chemistry, where a relation needs one that nobody gave.
// Private to the relations.

#include <optional>

#include "workings/relations/kinds.h"

namespace sash::workings {

/// By what is given: an `equation` (for one mole of the relation's substance in it), or a `process` (dissolving,
/// neutralisation, melting, boiling) of the substance. Nothing where neither is given or no table has it; the reason is
/// said in a note.
std::optional<std::size_t> tabulated_enthalpy(Drafting& d, Piece symbol);

}  // namespace sash::workings
