#pragma once
// What an equation must keep: one row for each kind of atom and one for the charge, one column for each species. Pure.

#include <string>
#include <vector>

#include "chem/equation.h"
#include "chem/inner/integer_lattice.h"

namespace sash::chem::inner {

struct Conservation {
  Matrix rows;                     ///< counts, positive on the left side, negative on the right
  std::vector<std::string> names;  ///< "Cu", "[13C]", "charge"
  std::vector<Nuclide> kinds;      ///< of the atom rows; the charge row, if any, comes after them

  bool has_charge() const { return rows.size() > kinds.size(); }
  bool is_charge(std::size_t row) const { return row >= kinds.size(); }
};

/// The charge row is there only when some species is charged.
Conservation conservation(const Equation& equation);

}  // namespace sash::chem::inner
