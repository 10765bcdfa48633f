#pragma once
// The definitions that tie amount, mass and volume of a solution together; no tables, no temperature.
// Which density a solution has, and what "concentrated" means, is not known here.
// Units: mol, g, L, g/mol, mol/L, g/mL, mol/kg; fractions are 0 to 1. Pure, safe from any thread.
// Source: IUPAC Green Book, 3rd ed., section 2.10 (definitions of concentration, molality, fractions).

#include <optional>

#include "support/outcome.h"

namespace sash::chem {

constexpr double grams_per_kilogram = 1000.0;
constexpr double millilitres_per_litre = 1000.0;

/// mol/L of a solute that makes up the mass fraction `w` of a solution of `density` g/mL.
constexpr double molarity(double w, double density, double molar_mass) {
  return w * density * millilitres_per_litre / molar_mass;
}

/// mol per kg of solvent.
constexpr double molality(double w, double molar_mass) { return w / molar_mass / (1 - w) * grams_per_kilogram; }

/// Of the solute among all mol of solute and solvent.
constexpr double mole_fraction(double w, double molar_mass, double solvent_molar_mass) {
  const double solute = w / molar_mass;
  return solute / (solute + (1 - w) / solvent_molar_mass);
}

/// Of the solute in the solution, from the masses of both, in one unit.
constexpr double mass_fraction(double solute, double solvent) { return solute / (solute + solvent); }

/// Before and after adding solvent: c1 V1 = c2 V2. Leave out the one that is wanted.
struct Dilution {
  std::optional<double> c1, v1, c2, v2;
};
/// The one left out. Volumes in one unit, concentrations in one unit.
/// Fails: Code::wrong_use unless exactly one is left out; Code::out_of_range when one given is not above 0.
Outcome<double> solve_dilution(const Dilution& dilution);

}  // namespace sash::chem
