#pragma once
// What was put in, as typed after --take: "5.0 g Cu", "25 mL 2.0 M HCl", "0.10 mol NaOH", "10 g of 30 % H2O2",
// "50 mL concentrated nitric acid", "250 mL H2". It becomes an amount in mol with the uncertainty its digits leave, and
// a sentence for everything that had to be taken from a table or for granted. Pure.
// Sources: as chem/solution.h, chem/density.h, chem/commercial.h, chem/gas.h and quantity/said.h.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "chem/formula.h"
#include "support/outcome.h"

namespace sash::cli {

/// What gases are measured at.
struct GasRoom {
  double celsius = 20;
  double kilopascal = 101.325;
};

struct PutIn {
  chem::Formula what;
  double mol = 0;
  double spread = 0;               ///< standard uncertainty from the digits as typed, mol
  std::string said;                ///< "25 mL of 2.0 M HCl"
  std::vector<std::string> taken;  ///< sentences: densities, gas laws
};

/// Whether it is met as a gas where nothing is said: only its gas is tabulated, apart from its solution.
bool is_usually_gas(const chem::Formula& what);

/// Fails: Code::malformed (no number, no unit, no substance), Code::wrong_dimension (a unit that measures no amount of
/// stuff), Code::out_of_range (not above 0); as formula_of and the tables.
Outcome<PutIn> read_put_in(std::string_view text, const GasRoom& room);

}  // namespace sash::cli
