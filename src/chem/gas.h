#pragma once
// The ideal gas: amount, volume, pressure, temperature, density; gas collected over water; how much of a gas the water
// keeps. Real-gas corrections are not here: near 1 bar they stay below 1 % but for gases close to condensing.
// SI throughout: Pa, m3, K, mol; kg/mol only where named. Pure, safe from any thread.
// Sources: CODATA 2018 (gas constant, exact); IUPAC Compendium of Chemical Terminology, "standard conditions for
// gases" (STP); R. Sander, Atmos. Chem. Phys. 23 (2023) 10901 (Henry's constants; each row of the table names its own).

#include <optional>
#include <string>
#include <string_view>

#include "support/outcome.h"

namespace sash::chem {

constexpr double gas_constant = 8.31446261815324;  ///< J/(mol K), k NA, both exact: SI Brochure, 9th ed. (2019)
constexpr double zero_celsius = 273.15;            ///< K
constexpr double atmosphere = 101325;              ///< Pa
constexpr double bar = 100000;                     ///< Pa

/// What a name such as "STP" stands for.
struct GasConditions {
  double kelvin = 0;
  double pascal = 0;
  std::string name;  ///< "STP (IUPAC since 1982: 0 °C, 100 kPa)"
  std::string note;  ///< a sentence where the name is used in two ways; may be empty
};
/// Understands STP, "STP before 1982", NTP, SATP, any case. Fails: Code::unknown_name.
Outcome<GasConditions> named_conditions(std::string_view name);

/// All four quantities of pV = nRT; leave out exactly the one that is wanted.
struct GasState {
  std::optional<double> pascal, cubic_metres, kelvin, mol;
};
/// The one left out. Fails: Code::wrong_use unless exactly one is left out; Code::out_of_range for what is not above 0.
Outcome<double> solve_gas(const GasState& state, double r = gas_constant);

/// The same portion of gas before and after: pV/(nT) is kept. What is left out on both sides is taken as unchanged; one
/// more is left out in `after` and returned.
/// Fails: Code::wrong_use when not exactly one is wanted; Code::out_of_range for what is not above 0.
Outcome<double> solve_gas_change(const GasState& before, const GasState& after);

/// m3/mol. Requires: both above 0.
constexpr double molar_volume(double kelvin, double pascal, double r = gas_constant) { return r * kelvin / pascal; }
/// g/L (which is kg/m3) of a gas of `molar_mass` g/mol. Requires: all above 0.
constexpr double gas_density(double molar_mass, double kelvin, double pascal, double r = gas_constant) {
  return molar_mass * 1e-3 / molar_volume(kelvin, pascal, r);
}
/// g/mol from the mass in g of a volume. Requires: all above 0.
constexpr double gas_molar_mass(double grams, double cubic_metres, double kelvin, double pascal,
                                double r = gas_constant) {
  return grams * molar_volume(kelvin, pascal, r) / cubic_metres;
}
/// Of one gas among others: its share of the moles is its share of the pressure.
constexpr double partial_pressure(double mol, double mol_of_all, double pascal) { return pascal * mol / mol_of_all; }

/// A gas collected over water that had time to fill with vapour.
struct WetGas {
  double vapour = 0;      ///< Pa of water vapour
  double dry = 0;         ///< Pa of the gas alone
  double mol = 0;         ///< of the gas alone
  double dry_volume = 0;  ///< m3 the gas alone would take at the whole pressure
};
/// `vapour` in Pa replaces the table's value where it was stated.
/// Fails: Code::impossible when the vapour alone has more than the whole pressure; as water_vapour_pressure.
Outcome<WetGas> over_water(double pascal, double cubic_metres, double celsius,
                           std::optional<double> vapour = std::nullopt);

/// How much of a gas stays in the water it is led through or made in.
struct Dissolved {
  double fraction = 0;        ///< of all of it, once gas and water are in balance
  double molarity = 0;        ///< mol/L in the water when the gas has `pascal`
  bool considerable = false;  ///< above 1 %: a collected volume is no measure of what was made
  std::string source;
  std::string note;  ///< a sentence, such as that the gas reacts with water
};
/// `gas` by name or formula, next to `cubic_metres` of it and so much water, at 25 °C.
/// Fails: Code::not_found for gases without a row; Code::out_of_range for volumes or pressures not above 0.
Outcome<Dissolved> dissolved_share(std::string_view gas, double pascal, double cubic_metres, double water_litres);

}  // namespace sash::chem
