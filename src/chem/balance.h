#pragma once
// Balancing: finds the smallest whole coefficients that keep every kind of atom and the charge, or says why there are
// none; checks coefficients that somebody typed; adds half-reactions so that their electrons cancel. Exact: whole
// numbers and fractions only, and a number too large for them is a fault, never a wrong coefficient. Isotopes count as
// kinds of their own. Pure, safe from any thread.

#include <string>
#include <vector>

#include "chem/equation.h"
#include "support/outcome.h"

namespace sash::chem {

enum class BalanceStatus {
  balanced,    ///< one set of coefficients, all positive
  impossible,  ///< none with all species taking part as written
  not_unique,  ///< several independent reactions are mixed into one equation
};
std::string_view status_text(BalanceStatus status);  ///< "balanced", "impossible", "not unique"

struct Balance {
  BalanceStatus status = BalanceStatus::impossible;
  Coefficients coefficients;  ///< in the order written; empty unless balanced
  std::string balanced;       ///< the equation with them, plain text; empty unless balanced
  std::string why;            ///< one sentence or two; empty when balanced
  /// Independent solutions. Balanced: the one. Not unique: as many as there are independent reactions, each without a
  /// negative coefficient. Impossible: the one solution in which a species has the coefficient 0 or would have to
  /// change sides (negative), or none at all.
  std::vector<Coefficients> solutions;
  std::vector<std::size_t> idle;        ///< species that would need the coefficient 0
  std::vector<std::size_t> wrong_side;  ///< species that would need to stand on the other side
};

/// Coefficients already typed are not used. Fails: Code::out_of_range when the numbers grow beyond 64 bits.
Outcome<Balance> balance(const Equation& equation);

/// How much of one kind of atom, or of charge, stands on each side.
struct Tally {
  std::string what;  ///< "Cu", "[13C]" or "charge"
  Fraction left;
  Fraction right;
  bool even() const { return left == right; }
};

struct Verification {
  std::vector<Tally> tallies;  ///< each kind of atom in order of first mention, then charge where any species has one
  bool balanced = true;
  std::string why;  ///< "Cu: 1 on the left, 2 on the right."; empty when balanced
};

/// Checks the coefficients as typed; a species without one counts once. Fractions are accepted.
/// Fails: Code::out_of_range.
Outcome<Verification> verify(const Equation& equation);

/// Adds two half-reactions, each multiplied so that the electrons given by one are taken by the other; species on both
/// sides cancel. The order does not matter. Fails: Code::impossible when a half does not balance, has no electrons, or
/// both give (or both take) them; as balance.
Outcome<Equation> combine_half_reactions(const Equation& one, const Equation& other);

}  // namespace sash::chem
