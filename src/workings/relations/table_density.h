#pragma once
// Densities from the tables of the chemistry, where a relation needs one that nobody gave. Private to the relations.

#include <optional>
#include <string>

#include "workings/relations/kinds.h"

namespace sash::workings {

/// The density of a solution of the relation's substance, as strong as the figure says; nothing where the strength is
/// not stated or no table covers it. Its uncertainty holds that of the strength.
std::optional<std::size_t> density_of_solution(Drafting& d, const Filled& strength, Piece symbol, std::string name);

/// The density of a pure substance; nothing where no table has it, and nothing for what is usually met as a solution
/// ("hydrochloric acid"): that would be a guess.
std::optional<std::size_t> density_of_substance(Drafting& d, Piece symbol, std::string name);

}  // namespace sash::workings
