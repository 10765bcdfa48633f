// Formulas from analysis, and complete combustion.

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "chem/balance.h"
#include "chem/molar_mass.h"
#include "chem/stoichiometry.h"

namespace sash::chem {
namespace {

constexpr int most_units = 12;

constexpr Nuclide hydrogen{1, std::nullopt};
constexpr Nuclide carbon{6, std::nullopt};
constexpr Nuclide nitrogen{7, std::nullopt};
constexpr Nuclide oxygen{8, std::nullopt};
constexpr Nuclide sulfur{16, std::nullopt};

Species plain_species(std::string_view formula) { return {read_formula(formula).value(), std::nullopt, std::nullopt}; }

}  // namespace

Outcome<Composition> empirical_formula(std::span<const ElementMass> found, double tolerance) {
  if (found.empty()) return Fault::of(Code::out_of_range, "No element was given a mass.");
  std::vector<double> amounts;
  double least = std::numeric_limits<double>::infinity();
  for (const ElementMass& e : found) {
    if (!(e.mass > 0) || !std::isfinite(e.mass)) {
      return Fault::of(Code::out_of_range, "The mass of " + symbol_of(e.what) + " must be a number above 0.");
    }
    const Outcome<MolarMass> m = atomic_mass(e.what);
    if (!m) return m.fault();
    amounts.push_back(e.mass / m->value);
    least = std::min(least, amounts.back());
  }
  for (int units = 1; units <= most_units; ++units) {
    Composition whole;
    bool fits = true;
    for (std::size_t i = 0; i < found.size(); ++i) {
      const double n = amounts[i] / least * units;
      const double nearest = std::round(n);
      fits = fits && nearest < 1e6 && std::abs(n - nearest) <= tolerance * nearest;
      if (fits) whole.push_back({found[i].what, static_cast<std::int64_t>(nearest)});
    }
    if (fits) return whole;
  }
  return Fault::of(Code::impossible, "No formula with up to " + std::to_string(most_units) +
                                         " of its least element fits these masses; one of them may be off.");
}

Outcome<std::int64_t> empirical_units(const Composition& empirical, double molar_mass, double tolerance) {
  double unit = 0;
  for (const AtomCount& a : empirical) {
    const Outcome<MolarMass> m = atomic_mass(a.what);
    if (!m) return m.fault();
    unit += a.count.number() * m->value;
  }
  const double n = molar_mass / unit;
  const double nearest = std::round(n);
  if (!(nearest >= 1) || !(nearest < 1e6) || std::abs(n - nearest) > tolerance * nearest) {
    return Fault::of(Code::impossible, "The molar mass is no whole number of empirical formula units.");
  }
  return static_cast<std::int64_t>(nearest);
}

Outcome<std::vector<ElementMass>> combustion_analysis(double sample, double carbon_dioxide, double water) {
  for (const double mass : {sample, carbon_dioxide, water}) {
    if (!(mass > 0) || !std::isfinite(mass)) {
      return Fault::of(Code::out_of_range, "The masses of sample, carbon dioxide and water must be numbers above 0.");
    }
  }
  const double c = carbon_dioxide * mass_shares(read_formula("CO2").value()).value()[0].fraction;
  const double h = water * mass_shares(read_formula("H2O").value()).value()[0].fraction;
  const double rest = sample - c - h;
  if (rest < -0.005 * sample) {
    return Fault::of(Code::impossible, "The carbon and hydrogen found weigh more than the sample.");
  }
  std::vector<ElementMass> found{{carbon, c}, {hydrogen, h}};
  // A remainder within the usual error of a combustion analysis (0.5 % of the sample: common practice) is no oxygen.
  if (rest > 0.005 * sample) found.push_back({oxygen, rest});
  return found;
}

Outcome<Equation> complete_combustion(const Formula& fuel) {
  constexpr std::array allowed{carbon, hydrogen, nitrogen, oxygen, sulfur};
  const auto has = [&fuel](Nuclide what) { return fuel.count_of(what).sign() > 0; };
  const bool known = std::ranges::all_of(
      fuel.composition(), [&](const AtomCount& a) { return std::ranges::find(allowed, a.what) != allowed.end(); });
  if (!known || fuel.charge() != 0 || (!has(carbon) && !has(hydrogen) && !has(sulfur))) {
    return Fault::of(Code::unsupported,
                     "Complete combustion is written for compounds of C, H, N, O and S, not for " + fuel.plain() + ".",
                     fuel.plain());
  }
  std::vector<Species> right;
  if (has(carbon)) right.push_back(plain_species("CO2"));
  if (has(hydrogen)) right.push_back(plain_species("H2O"));
  if (has(nitrogen)) right.push_back(plain_species("N2"));
  if (has(sulfur)) right.push_back(plain_species("SO2"));
  const Equation open({Species{fuel, std::nullopt, std::nullopt}, plain_species("O2")}, std::move(right));
  const Outcome<Balance> found = balance(open);
  if (!found) return found.fault();
  if (found->status != BalanceStatus::balanced) {
    return Fault::of(Code::unsupported, fuel.plain() + " does not burn: " + found->why, fuel.plain());
  }
  return open.with(found->coefficients);
}

}  // namespace sash::chem
