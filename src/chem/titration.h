#pragma once
// What a titration says: from the titrant used up to the end point to what was in the flask, with the dilution and
// aliquot in between, a blank, and the excess of a back titration. The curve itself is chem/equilibria.h.
// mol, L, mol/L. Pure, safe from any thread.
// Source: IUPAC Compendium of Analytical Nomenclature, titrimetric analysis.

#include <optional>

#include "chem/equation.h"
#include "support/outcome.h"

namespace sash::chem {

struct Titration {
  double titrant_molarity = 0;     ///< mol/L
  double titrant_litres = 0;       ///< run in to the end point
  double blank_litres = 0;         ///< used without the sample
  double titrant_per_analyte = 1;  ///< mol of titrant that go with 1 mol of analyte
  double aliquot_litres = 1;       ///< taken for the titration, of
  double made_up_litres = 1;       ///< the solution the sample was made up to
  std::optional<double> added_first =
      std::nullopt;                ///< mol of reagent added in excess, whose rest was titrated (back titration)
  double reagent_per_analyte = 1;  ///< back titration: mol of that reagent per mol of analyte
  double titrant_per_reagent = 1;  ///< back titration: mol of titrant per mol of that reagent
};

/// Mol of analyte in the whole sample.
/// Fails: Code::out_of_range for values that cannot be; Code::impossible when the blank or the rest exceeds what was
/// used or added.
Outcome<double> titrated_amount(const Titration& titration);

/// Mol of titrant per mol of analyte in a balanced equation; both given as formulas.
/// Fails: Code::not_found when one is not on the left of the equation.
Outcome<double> titrant_ratio(const Equation& equation, const Formula& titrant, const Formula& analyte);

/// L of titrant at the end point for so many mol of analyte. Fails: Code::out_of_range.
Outcome<double> end_point_litres(double analyte_mol, double titrant_per_analyte, double titrant_molarity);

}  // namespace sash::chem
