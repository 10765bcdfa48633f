#pragma once
// What drives a redox reaction: the two couples it is made of, the standard cell potential, and from it the Gibbs
// energy and the equilibrium constant; the Nernst equation for strengths other than 1 mol/L. It says whether a reaction
// can go by itself, never how fast it goes. Balancing is chem/balance.h, Faraday's laws are chem/electrolysis.h.
// V, kJ/mol, 25 °C. Immutable; safe from any thread.
// Sources: OpenStax Chemistry 2e, Appendix L (potentials), sections 17.3 and 17.4 (relations).

#include <span>
#include <string>

#include "chem/balance.h"
#include "support/outcome.h"

namespace sash::chem {

/// One couple of the table, written as a reduction.
struct StandardPotential {
  Equation reduction;
  double volts = 0;     ///< against the standard hydrogen electrode
  double rounding = 0;  ///< half a unit of the last printed digit
  std::string source;
};
std::span<const StandardPotential> standard_potentials();

/// A redox reaction as a cell of two couples.
struct Cell {
  const StandardPotential* cathode = nullptr;  ///< the couple that is reduced, in standard_potentials()
  const StandardPotential* anode = nullptr;    ///< the one that is oxidised
  double electrons = 0;                        ///< handed over in the equation as written
  double volts = 0;                            ///< E°(cathode) - E°(anode)
  double spread = 0;                           ///< standard uncertainty of it, from the digits of the table

  double gibbs() const;  ///< kJ for one mole of the equation as written
  double log_k() const;  ///< log10 of its equilibrium constant at 25 °C
};

/// The cell of a redox equation: ions as ions, or soluble salts, acids and bases as formulas, which are taken apart.
/// Ions that only look on do not matter. Couples of acid and of base are never mixed. Fails: Code::impossible when the
/// equation does not balance; Code::not_found when the table has no two couples that make it; as balance.
Outcome<Cell> cell_of(const Equation& equation);

/// The potential where the reaction quotient is not 1: E = E° - (R T / n F) ln Q. Requires: electrons and quotient
/// above 0.
double nernst(double standard_volts, double electrons, double quotient, double celsius = 25);

/// "Goes by itself ..." or not, in one sentence with E°, n, ΔG° and K.
std::string cell_sentence(const Cell& cell);

}  // namespace sash::chem
