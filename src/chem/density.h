#pragma once
// Densities: of water, of pure liquids and solids, and of solutions in water by strength and temperature. It does not
// know what "concentrated" means (chem/commercial.h) nor turn strengths into one another (chem/solution.h); gases are
// chem/gas.h. What no table covers is refused with what is covered, never extrapolated.
// Pure, safe from any thread.
// Sources: Tanaka et al., Metrologia 38 (2001) 301 and Kell, J. Chem. Eng. Data 20 (1975) 97 (water); CRC Handbook of
// Chemistry and Physics, Concentrative properties of aqueous solutions and Physical constants; Laliberte, J. Chem. Eng.
// Data 54 (2009) 1725 (other temperatures, stronger solutions). Each table row names its own.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "support/outcome.h"

namespace sash::chem {

constexpr double table_celsius = 20;  ///< what the table of solutions was measured at

/// A density and how far to trust it.
struct Density {
  double value = 0;    ///< g/mL
  double spread = 0;   ///< standard uncertainty, g/mL
  std::string source;  ///< for the list of constants
  std::string note;    ///< a sentence when something was assumed; may be empty
};

/// Of pure air-free water at 101.325 kPa, 0 to 100 °C. Fails: Code::out_of_range.
Outcome<Density> water_density(double celsius);

/// Of a pure liquid or solid named by name or formula. A liquid is taken up to 10 K from the temperature of its row,
/// with a spread that grows by what an unknown expansion could do; a solid from -50 to 100 °C.
/// Fails: Code::not_found (no row), Code::out_of_range (temperature), Code::ambiguous (several substances of one
/// formula, in Fault::others).
Outcome<Density> density_of(std::string_view substance, double celsius = table_celsius);

/// Of a solution in water that holds the mass fraction `w` (0 to 1) of the solute, named by name or formula.
/// Fails: Code::not_found, Code::ambiguous, Code::out_of_range (w or temperature, with what is covered).
Outcome<Density> solution_density(std::string_view solute, double w, double celsius = table_celsius);

/// The largest mass fraction solution_density answers for, if it knows the solute at that temperature.
std::optional<double> strongest_covered(std::string_view solute, double celsius = table_celsius);

/// The mass fractions at which the solution has this density in g/mL: usually one, two where the curve turns (sulfuric
/// acid near 98 %). Fails: as solution_density; Code::out_of_range when no covered strength has it.
Outcome<std::vector<double>> strengths_at_density(std::string_view solute, double density,
                                                  double celsius = table_celsius);

/// Specific gravity of sodium hypochlorite solution by available chlorine in g/L and the free NaOH in percent by mass;
/// 20 °C. Tabulated at 120 g/L only: other strengths are scaled from it and say so in the note.
/// Fails: Code::out_of_range outside 0 to 200 g/L or 0 to 1.5 % NaOH.
Outcome<Density> bleach_density(double available_chlorine, double excess_alkali);

}  // namespace sash::chem
