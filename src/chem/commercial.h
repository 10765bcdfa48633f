#pragma once
// What trade and bench words mean: "concentrated nitric acid", "20 volume peroxide", "12 % available chlorine". Each
// answer carries its assumption as a sentence, because a label may say otherwise.
// Pure, safe from any thread.
// Sources: the table's rows name theirs (OpenStax Chemistry 2e, Appendix F; labels: common practice, no source).
// Definitions: available chlorine is the chlorine with the oxidising power of the bleach; volume strength of peroxide
// is mL of oxygen at 0 °C and 101.325 kPa from 1 mL.

#include <optional>
#include <string>
#include <string_view>

#include "chem/solution.h"
#include "support/outcome.h"

namespace sash::chem {

struct CommercialSolution {
  Solution solution;
  double low = 0, high = 0;  ///< what labels give, in the same measure as said in `assumption`, as fractions
  std::string assumption;    ///< "Taken as 37 % HCl by mass; labels give 36 to 38 %."
  std::string source;
};

/// The solution a trade name means. Words "conc", "concentrated" and either spelling of sulfuric are understood.
/// Fails: Code::unknown_name with the nearest name in Fault::others; as solution_of.
Outcome<CommercialSolution> commercial_solution(std::string_view name);

/// g of available chlorine per g of sodium hypochlorite.
double available_chlorine_factor();
/// Available chlorine by mass from NaOCl by mass, and back; both fractions.
double available_chlorine(double hypochlorite_fraction);
double hypochlorite_for(double available_chlorine_fraction);
/// Trade percent: g of available chlorine per 100 mL, from the mass fraction and the density in g/mL.
double trade_percent(double available_chlorine_fraction, double density);

/// mol/L of H2O2 that is "n volume", and back.
double peroxide_molarity(double volume_strength);
double peroxide_volume_strength(double molarity);

}  // namespace sash::chem
