#pragma once
// One solution in water and all the ways to say how strong it is; diluting and mixing with the volume that is lost.
// It takes densities from chem/density.h or the one that is stated, and does not know trade names (chem/commercial.h).
// Values only: uncertainties of figures travel in the workings. Pure, safe from any thread.
// Sources: IUPAC Green Book, 3rd ed., section 2.10 for the definitions.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "chem/density.h"
#include "chem/formula.h"
#include "support/outcome.h"

namespace sash::chem {

/// How a strength is said. Percentages are given as fractions (0.37 for 37 %).
enum class StrengthKind {
  mass_fraction,    ///< w/w
  molarity,         ///< mol of solute per litre of solution
  molality,         ///< mol of solute per kilogram of water
  grams_per_litre,  ///< g of solute per litre of solution
  mass_per_volume,  ///< w/v: g of solute per mL of solution (0.10 for 10 %)
  volume_fraction,  ///< v/v: volume of the pure solute before mixing, by volume of solution
  density,          ///< g/mL; the weaker of two strengths where the curve turns
};

struct Solution {
  std::string solute;     ///< as named
  double molar_mass = 0;  ///< of the solute, g/mol
  double celsius = table_celsius;
  double w = 0;         ///< mass fraction of the solute
  Density density;      ///< of the solution, g/mL
  double molarity = 0;  ///< mol/L
  double molality = 0;  ///< mol/kg of water; infinite for the pure solute
  double grams_per_litre = 0;
  double mole_fraction = 0;
  std::optional<double> volume_fraction;  ///< where the density of the pure solute is known
};

/// The solution of so strong. With `stated_density` (g/mL) no table is asked. A molality or a mass fraction needs the
/// density only for the other figures; all of them are always filled.
/// Fails: as formula_of, molar_mass and solution_density; Code::out_of_range for a strength below 0 or beyond what the
/// tables cover; Code::unsupported for volume fractions of a solute of unknown density.
Outcome<Solution> solution_of(std::string_view solute, StrengthKind kind, double strength,
                              double celsius = table_celsius, std::optional<double> stated_density = std::nullopt);

/// So much of a solution; or of plain water when w is 0.
struct Portion {
  double grams = 0;
  double w = 0;  ///< mass fraction of the solute
};

struct Mixture {
  Solution solution;
  double grams = 0;
  double millilitres = 0;
  double apart = 0;  ///< mL the portions took before mixing
  double lost() const { return apart - millilitres; }
};

/// Portions of one solute put together, all at `celsius`. Mass is kept, volume is not.
/// Fails: Code::wrong_use without portions; Code::out_of_range for a negative mass; as solution_of.
Outcome<Mixture> mix(std::string_view solute, std::span<const Portion> portions, double celsius = table_celsius);

/// What to measure out for `millilitres` of a weaker solution: stock and water, in mL at `celsius`.
struct Recipe {
  double stock_grams = 0, stock_millilitres = 0;
  double water_grams = 0, water_millilitres = 0;
};
/// Fails: Code::impossible when the stock is weaker than what is wanted; as solution_density.
Outcome<Recipe> dilute(const Solution& stock, const Solution& wanted, double millilitres);

}  // namespace sash::chem
