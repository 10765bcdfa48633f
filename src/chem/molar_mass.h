#pragma once
// What one mole of a formula weighs, with its uncertainty, and how that mass is shared among its elements.
// The mass of electrons gained or lost is left out: an ion weighs what its atoms weigh (the difference, 0.00055 g/mol a
// charge, is below the uncertainty of nearly every formula).
// Pure, safe from any thread.
// Sources: chem/elements.h for the weights; JCGM 100:2008, 4.3.7 and 5.2.2 for the uncertainty.

#include <optional>
#include <vector>

#include "chem/formula.h"
#include "support/outcome.h"

namespace sash::chem {

/// The published plus-minus of an atomic weight limits where the weight of a normal material lies, with nothing known
/// inside: a rectangular distribution, so its standard uncertainty is the bound divided by the square root of 3. Atoms
/// of one element in a formula share one weight, so their uncertainties add up; different elements are independent.
struct MolarMass {
  double value = 0;   ///< g/mol
  double spread = 0;  ///< standard uncertainty, g/mol
  double bound = 0;   ///< all plus-minus added up: no normal material lies further off, g/mol
};

/// One element's share of the mass of a formula.
struct MassShare {
  Nuclide what;
  double count = 0;     ///< atoms in one formula unit
  double mass = 0;      ///< g/mol
  double fraction = 0;  ///< of the whole, 0 to 1
  double spread = 0;    ///< standard uncertainty of the fraction
};

/// The weight used for one kind of atom, g/mol, with its standard uncertainty and bound.
/// Fails: Code::out_of_range for an element without a standard atomic weight (write an isotope instead).
Outcome<MolarMass> atomic_mass(Nuclide what);

/// Fails: as atomic_mass, naming every such element in Fault::others; Code::out_of_range for the electron.
Outcome<MolarMass> molar_mass(const Formula& formula);

/// In the order of first mention; fractions add up to 1. Fails: as molar_mass.
Outcome<std::vector<MassShare>> mass_shares(const Formula& formula);

}  // namespace sash::chem
