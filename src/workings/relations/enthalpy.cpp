#include "workings/relations/enthalpy.h"

#include <cmath>

#include "chem/names.h"
#include "chem/thermochemistry.h"
#include "support/text.h"
#include "workings/relations/species_amounts.h"

namespace sash::workings {
namespace {

using quantity::Kind;

struct Found {
  double kilojoule;  // for one mole
  double spread;
  std::string name;
  std::string source;
};

Found of(const chem::Tabulated& t, std::string name) { return {t.value, t.spread, std::move(name), t.source}; }

// The equation with its coefficients written out, as the tables want it.
std::string balanced_text(const BalancedEquation& e) {
  std::string text;
  for (std::size_t i = 0; i < e.equation.all().size(); ++i) {
    const chem::Species& species = e.equation.all()[i];
    if (i > 0) text += i == e.equation.left().size() ? " -> " : " + ";
    text += std::to_string(e.coefficients[i]) + " " + species.formula.plain();
    if (species.state) text += chem::state_text(*species.state);
  }
  return text;
}

Outcome<Found> of_reaction(Drafting& d) {
  const auto e = equation_of(d);
  if (!e) return Fault::of(Code::wrong_use, "The equation does not balance.");
  const auto equation = chem::read_equation(balanced_text(*e));
  if (!equation) return equation.fault();
  const auto heat = chem::reaction_enthalpy(*equation);
  if (!heat) return heat.fault();
  const auto formula = d.formula();
  const auto species = formula ? e->equation.find(*formula) : std::nullopt;
  if (!species) {
    return Fault::of(Code::not_found, "Say which substance of the equation the amount is of.");
  }
  const double moles = e->coefficient(*species);
  std::string sources;
  for (const std::string& source : heat->sources) sources += (sources.empty() ? "" : "; ") + source;
  return Found{heat->value / moles, heat->spread / moles,
               "enthalpy of the reaction for one mole of " + e->name(*species), sources};
}

Outcome<Found> of_process(Drafting& d, const std::string& process) {
  const std::string substance = d.substance();
  const auto formula = chem::formula_of(substance);
  if (!formula) return formula.fault();
  const std::string name = formula->unicode();
  if (process == "dissolving") {
    const auto t = chem::solution_enthalpy(*formula);
    if (!t) return t.fault();
    return of(*t, "enthalpy of solution of " + name);
  }
  if (process == "neutralisation" || process == "neutralization") {
    const auto t = chem::neutralisation_enthalpy(substance);
    if (!t) return t.fault();
    return of(*t, "enthalpy of neutralisation of " + name);
  }
  const bool melting = process == "melting";
  if (!melting && process != "boiling") {
    return Fault::of(Code::unknown_name,
                     "A process is one of dissolving, neutralisation, melting and boiling, not “" + process + "”.");
  }
  const auto change = chem::phase_change(substance);
  if (!change) return change.fault();
  const auto& value = melting ? change->fusion : change->vaporisation;
  if (!value) return Fault::of(Code::not_found, "No table has that enthalpy of " + name + ".");
  constexpr double last_digit = 0.005;  // as the table prints it; half of it, rectangular
  return Found{*value, last_digit / std::sqrt(3.0),
               std::string("enthalpy of ") + (melting ? "fusion" : "vaporisation") + " of " + name, change->source};
}

}  // namespace

std::optional<std::size_t> tabulated_enthalpy(Drafting& d, Piece symbol) {
  const auto process = d.given("process");
  if (!process && !d.given("equation")) return std::nullopt;
  const auto found = process ? of_process(d, to_lower(*process)) : of_reaction(d);
  if (!found) {
    d.note(found.fault().sentence);
    return std::nullopt;
  }
  const quantity::Unit unit = quantity::Unit::known("kJ/mol");
  return d.constant("ΔH " + found->name, found->name, std::move(symbol), Kind::other, unit,
                    unit.to_si(found->kilojoule), unit.to_si(found->spread), found->source);
}

}  // namespace sash::workings
