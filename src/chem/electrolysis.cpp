#include "chem/electrolysis.h"

#include <cmath>
#include <cstdlib>

#include "chem/inner/wording.h"
#include "chem/molar_mass.h"

namespace sash::chem {
namespace {

bool above_zero(std::optional<double> value) { return !value || (std::isfinite(*value) && *value > 0); }

}  // namespace

Outcome<double> solve_electrolysis(const Electrolysis& run) {
  const int wanted = !run.amperes + !run.seconds + !run.mol + !run.efficiency;
  if (wanted != 1) {
    return Fault::of(Code::wrong_use,
                     "Of current, time, amount and current efficiency of an electrolysis exactly one is computed.");
  }
  if (!above_zero(run.amperes) || !above_zero(run.seconds) || !above_zero(run.mol) || !above_zero(run.efficiency) ||
      !above_zero(run.electrons)) {
    return Fault::of(Code::out_of_range, "Current, time, amount, efficiency and electrons must all be above 0.");
  }
  if (run.efficiency && *run.efficiency > 1) {
    return Fault::of(Code::out_of_range, "A current efficiency is at most 100 %.");
  }
  const double charge_per_mol = run.electrons * faraday;
  if (!run.mol) return *run.amperes * *run.seconds * *run.efficiency / charge_per_mol;
  if (!run.amperes) return *run.mol * charge_per_mol / (*run.seconds * *run.efficiency);
  if (!run.seconds) return *run.mol * charge_per_mol / (*run.amperes * *run.efficiency);
  const double efficiency = *run.mol * charge_per_mol / (*run.amperes * *run.seconds);
  constexpr double rounding = 1e-9;
  if (efficiency > 1 + rounding) {
    return Fault::of(Code::impossible, "The charge can make at most " + inner::shown(*run.mol / efficiency) +
                                           " mol, not " + inner::shown(*run.mol) + " mol.");
  }
  return efficiency;
}

Outcome<double> electrolysis_mass(const Formula& product, double electrons, double amperes, double seconds,
                                  double efficiency) {
  const auto mol = solve_electrolysis({amperes, seconds, std::nullopt, efficiency, electrons});
  if (!mol) return mol.fault();
  const auto mass = molar_mass(product);
  if (!mass) return mass.fault();
  return *mol * mass->value;
}

Outcome<double> electrons_of_ion(const Formula& ion) {
  if (ion.charge() == 0 || ion.is_electron()) {
    return Fault::of(Code::out_of_range, ion.unicode() + " has no charge to lose; say how many electrons it takes.");
  }
  return static_cast<double>(std::abs(ion.charge()));
}

}  // namespace sash::chem
