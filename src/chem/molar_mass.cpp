#include "chem/molar_mass.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sash::chem {
Outcome<MolarMass> atomic_mass(Nuclide what) {
  if (what.mass_number) {
    const auto isotope = isotope_mass(what.number, *what.mass_number);
    if (!isotope) {
      return Fault::of(Code::out_of_range, "No atomic mass is known for " + symbol_of(what) + ".", symbol_of(what));
    }
    return MolarMass{isotope->mass, isotope->spread, isotope->spread * std::numbers::sqrt3};
  }
  const Element& e = element(what.number);
  if (!e.weight) {
    return Fault::of(Code::out_of_range,
                     "The element " + std::string(e.name) +
                         " has no standard atomic weight; write the isotope you mean, as in [99Tc] or [222Rn].",
                     std::string(e.symbol));
  }
  return MolarMass{*e.weight, e.bound / std::numbers::sqrt3, e.bound};
}

Outcome<MolarMass> molar_mass(const Formula& formula) {
  if (formula.is_electron()) {
    return Fault::of(Code::out_of_range, "An electron has no molar mass to work with; its mass is left out.", "e^-");
  }
  MolarMass sum;
  double variance = 0;
  std::optional<Fault> fault;
  for (const AtomCount& a : formula.composition()) {
    const Outcome<MolarMass> one = atomic_mass(a.what);
    if (!one) {
      if (fault) {
        fault->others.push_back(one.fault().offending);
      } else {
        fault = one.fault();
      }
      continue;
    }
    const double n = a.count.number();
    sum.value += n * one->value;
    sum.bound += n * one->bound;
    variance += n * one->spread * n * one->spread;
  }
  if (fault) return *std::move(fault);
  sum.spread = std::sqrt(variance);
  return sum;
}

Outcome<std::vector<MassShare>> mass_shares(const Formula& formula) {
  const Outcome<MolarMass> whole = molar_mass(formula);
  if (!whole) return whole.fault();
  std::vector<MassShare> shares;
  for (const AtomCount& a : formula.composition()) {
    const MolarMass one = atomic_mass(a.what).value();
    const double n = a.count.number();
    const double mass = n * one.value;
    const double w = mass / whole->value;
    // w = m/M: its own element moves it by (1 - w)/M, every other by -w/M.
    const double own = n * one.spread;
    const double others = std::sqrt(std::max(0.0, whole->spread * whole->spread - own * own));
    shares.push_back({a.what, n, mass, w, std::hypot((1 - w) * own, w * others) / whole->value});
  }
  return shares;
}

}  // namespace sash::chem
