#pragma once
// Faraday's laws: charge, current and time against the amount made at an electrode, with current efficiency. Potentials
// and what competes at the electrode are not here.
// A, s, C, mol. Pure, safe from any thread.
// Source: CODATA 2018 (Faraday constant, exact from the SI: e times the Avogadro constant).

#include <optional>

#include "chem/formula.h"
#include "support/outcome.h"

namespace sash::chem {

constexpr double faraday = 96485.33212331001;  ///< C/mol, e NA, both exact: SI Brochure, 9th ed. (2019)

/// All quantities of n z F = I t efficiency; leave out exactly the one that is wanted.
struct Electrolysis {
  std::optional<double> amperes, seconds, mol;
  std::optional<double> efficiency = 1;  ///< share of the charge that makes the product, above 0 up to 1
  double electrons = 1;                  ///< for one unit of product
};
/// The one left out. Fails: Code::wrong_use unless exactly one is left out; Code::out_of_range for what is not above 0;
/// Code::impossible when the efficiency comes out above 1: more product than the charge can make.
Outcome<double> solve_electrolysis(const Electrolysis& run);

/// Mol of product that so much charge in C makes at most. Requires: electrons above 0.
constexpr double amount_from_charge(double coulombs, double electrons, double efficiency = 1) {
  return coulombs * efficiency / (electrons * faraday);
}

/// g of a product. Fails: as solve_electrolysis and molar_mass.
Outcome<double> electrolysis_mass(const Formula& product, double electrons, double amperes, double seconds,
                                  double efficiency = 1);

/// How many electrons one unit of an ion takes up to become the element: its charge. Fails: Code::out_of_range for what
/// has no charge.
Outcome<double> electrons_of_ion(const Formula& ion);

}  // namespace sash::chem
