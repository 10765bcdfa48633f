#pragma once
// Densities from the tables of the chemistry, where a relation needs one that nobody gave. Private to the relations.

#include <optional>
#include <string>

#include "chem/solution.h"
#include "workings/relations/kinds.h"

namespace sash::workings {

/// A strength as the tables ask for it.
struct TableStrength {
  chem::StrengthKind kind;
  double number;
};
/// Of `si` (as stated, when left out); nothing for kinds the tables do not know, or where nothing was stated.
std::optional<TableStrength> strength_for_tables(const Filled& strength, std::optional<double> si = std::nullopt);

/// The temperature given with the relation, or that of the tables, °C.
double table_temperature(Drafting& d);

/// The density of a solution of the relation's substance, as strong as the figure says; nothing where the strength is
/// not stated or no table covers it; of what is sold under a trade name, and of solutions too dilute to differ from
/// water, without a table. Its uncertainty holds that of the strength.
std::optional<std::size_t> density_of_solution(Drafting& d, const Filled& strength, Piece symbol,
                                               const std::string& name);

/// The density of the relation's substance, or of `other`, as it is poured or weighed: pure, or the solution a trade
/// name means. Nothing where no table has it, and nothing for what is usually met as a solution ("hydrochloric acid"):
/// that would be a guess.
std::optional<std::size_t> density_of_substance(Drafting& d, Piece symbol, const std::string& name,
                                                const std::string& other = {});

}  // namespace sash::workings
