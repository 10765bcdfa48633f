#include "chem/stoichiometry.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "chem/balance.h"
#include "chem/molar_mass.h"
#include "support/check.h"

namespace sash::chem {
namespace {

// Amounts closer together than this share are in exact proportion: far below any weighing, far above rounding.
constexpr double same_proportion = 1e-12;

double coefficient(const Equation& equation, std::size_t i) {
  return equation.all()[i].coefficient.value_or(Fraction(1)).number();
}

Done check_given(const Equation& equation, std::span<const Given> given) {
  if (given.empty()) return Fault::of(Code::wrong_use, "No reactant was given an amount.");
  for (std::size_t i = 0; i < given.size(); ++i) {
    const Given& g = given[i];
    promise(g.species < equation.all().size(), "a given reactant is a species of the equation");
    const std::string name = equation.all()[g.species].formula.plain();
    if (!equation.on_left(g.species)) {
      return Fault::of(Code::wrong_use, name + " stands on the right; amounts are given for reactants.", name);
    }
    if (!std::isfinite(g.mol)) return Fault::of(Code::not_finite, "The amount of " + name + " is no number.", name);
    if (g.mol <= 0) return Fault::of(Code::out_of_range, "The amount of " + name + " must be above 0.", name);
    for (const Given& other : given.first(i)) {
      if (other.species == g.species) return Fault::of(Code::wrong_use, name + " was given twice.", name);
    }
  }
  return {};
}

}  // namespace

Outcome<double> amount_of(const Formula& what, double grams) {
  const Outcome<MolarMass> m = molar_mass(what);
  if (!m) return m.fault();
  return grams / m->value;
}

Outcome<double> mass_of(const Formula& what, double mol) {
  const Outcome<MolarMass> m = molar_mass(what);
  if (!m) return m.fault();
  return mol * m->value;
}

double amount_with(const Equation& equation, std::size_t known, double mol, std::size_t wanted) {
  promise(known < equation.all().size() && wanted < equation.all().size(), "both species belong to the equation");
  return mol * coefficient(equation, wanted) / coefficient(equation, known);
}

Outcome<double> mass_with(const Equation& equation, std::size_t known, double grams, std::size_t wanted) {
  const Outcome<double> mol = amount_of(equation.all()[known].formula, grams);
  if (!mol) return mol.fault();
  return mass_of(equation.all()[wanted].formula, amount_with(equation, known, *mol, wanted));
}

Outcome<ReactionOutcome> react(const Equation& balanced, std::span<const Given> given) {
  if (const Done checked = check_given(balanced, given); !checked) return checked.fault();
  const Outcome<Verification> verified = verify(balanced);
  if (!verified) return verified.fault();
  if (!verified->balanced) {
    return Fault::of(Code::impossible, "'" + balanced.plain() + "' does not balance. " + verified->why);
  }
  ReactionOutcome out;
  out.extent = std::numeric_limits<double>::infinity();
  for (const Given& g : given) out.extent = std::min(out.extent, g.mol / coefficient(balanced, g.species));
  for (const Given& g : given) {
    const double needed = out.extent * coefficient(balanced, g.species);
    const double ratio = g.mol / needed;
    const bool limiting = ratio - 1 < same_proportion;
    out.reactants.push_back(
        {g.species, g.mol, needed, limiting ? 0.0 : g.mol - needed, limiting ? 1.0 : ratio, limiting});
  }
  for (std::size_t i = balanced.left().size(); i < balanced.all().size(); ++i) {
    const Formula& formula = balanced.all()[i].formula;
    if (formula.is_electron()) continue;
    const double mol = out.extent * coefficient(balanced, i);
    const Outcome<double> mass = mass_of(formula, mol);
    if (!mass) return mass.fault();
    out.products.push_back({i, mol, *mass});
  }
  return out;
}

Outcome<double> percent_yield(double actual, double theoretical) {
  if (!(theoretical > 0) || !(actual >= 0) || !std::isfinite(actual) || !std::isfinite(theoretical)) {
    return Fault::of(Code::out_of_range, "A yield needs a theoretical yield above 0 and an actual one of 0 or more.");
  }
  return 100 * actual / theoretical;
}

Outcome<double> water_fraction(const Formula& hydrate) {
  const Outcome<MolarMass> whole = molar_mass(hydrate);
  if (!whole) return whole.fault();
  const double water = hydrate.water_of_crystallisation().number();
  const double one = molar_mass(read_formula("H2O").value()).value().value;
  return water * one / whole->value;
}

}  // namespace sash::chem
