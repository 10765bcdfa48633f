#include "workings/relations/species_amounts.h"

#include <cmath>

#include "chem/balance.h"
#include "chem/commercial.h"
#include "chem/gas.h"
#include "chem/names.h"
#include "chem/quench.h"
#include "workings/relations/table_density.h"
#include "workings/relations/usual_strength.h"

namespace sash::workings {

using quantity::Kind;
namespace dimension = quantity::dimension;

namespace {

// A typed equation that does not balance is taken with the coefficients that do, and that is said.
void note_other_coefficients(Drafting& d, const chem::Equation& typed, const chem::Balance& balance) {
  const auto species = typed.all();
  if (std::none_of(species.begin(), species.end(), [](const chem::Species& s) { return s.coefficient.has_value(); })) {
    return;
  }
  const auto verified = chem::verify(typed);
  if (!verified || verified->balanced) return;
  d.note("As typed the equation does not balance (" + verified->why + "); it is taken as " +
         typed.with(balance.coefficients).unicode() + ".");
}

}  // namespace

std::optional<BalancedEquation> equation_of(Drafting& d, const std::string& key) {
  const auto text = d.given(key);
  if (!text) {
    d.missing("the equation of the reaction");
    return std::nullopt;
  }
  auto equation = chem::read_equation(*text);
  if (!equation) {
    d.missing("an equation that can be read (" + equation.fault().sentence + ")");
    return std::nullopt;
  }
  const auto balance = chem::balance(*equation);
  if (!balance) {
    d.missing("an equation that can be balanced (" + balance.fault().sentence + ")");
    return std::nullopt;
  }
  if (balance->status == chem::BalanceStatus::balanced) {
    note_other_coefficients(d, *equation, *balance);
    return BalancedEquation{*equation, balance->coefficients};
  }
  // Several reactions in one equation: the coefficients as typed decide, when they balance.
  const auto typed = chem::verify(*equation);
  if (balance->status == chem::BalanceStatus::not_unique && typed && typed->balanced) {
    chem::Coefficients coefficients;
    for (const chem::Species& s : equation->all()) {
      const chem::Fraction c = s.coefficient.value_or(chem::Fraction(1));
      if (!c.whole()) break;
      coefficients.push_back(static_cast<std::int64_t>(c.top()));
    }
    if (coefficients.size() == equation->all().size()) {
      d.note("The equation can be balanced in several ways; the coefficients are taken as typed.");
      return BalancedEquation{*equation, std::move(coefficients)};
    }
  }
  d.missing("an equation that balances (" + balance->why + ")");
  return std::nullopt;
}

std::optional<BalancedEquation> pairing_of(Drafting& d, const std::string& target, const std::string& agent,
                                           Ways ways) {
  const auto refuse = [&](const std::string& why) {
    d.missing("the equation of the reaction (" + why + ")");
    return std::nullopt;
  };
  const auto one = chem::formula_of(target);
  const auto other = chem::formula_of(agent);
  if (!one) return refuse(one.fault().sentence);
  if (!other) return refuse(other.fault().sentence);
  const auto need = chem::quench(*one, 1, *other);
  if (!need) return refuse(need.fault().sentence);
  if (ways == Ways::one && !need->assumption.empty()) {
    return refuse("without one it can go in more than one way; " + need->assumption);
  }
  constexpr std::int64_t largest = 48;
  for (std::int64_t targets = 1; targets <= largest; ++targets) {
    const double agents = need->agent_per_target * static_cast<double>(targets);
    if (agents < 1 || std::fabs(agents - std::round(agents)) > 1e-9 * agents) continue;
    // Only who goes with whom matters here: both sides name them alike.
    const std::string both = one->plain() + " + " + other->plain();
    const auto equation = chem::read_equation(both + " -> " + both);
    if (!equation) return refuse(equation.fault().sentence);
    const auto count = static_cast<std::int64_t>(std::round(agents));
    d.note("By equivalents " + std::to_string(count) + " " + other->unicode() + " go with " + std::to_string(targets) +
           " " + one->unicode() + "." + (need->assumption.empty() ? "" : " " + need->assumption));
    return BalancedEquation{*equation, {targets, count, targets, count}};
  }
  return refuse("their equivalents are in no simple proportion");
}

std::optional<std::size_t> species_of(Drafting& d, const BalancedEquation& e, const std::string& about, bool on_left) {
  const std::string side = on_left ? "reactant" : "product";
  const auto species = e.equation.all();
  const std::size_t first = on_left ? 0 : e.equation.left().size();
  const std::size_t last = on_left ? e.equation.left().size() : species.size();
  if (about.empty()) {
    if (last - first == 1) return first;
    d.missing("which " + side + " is meant");
    return std::nullopt;
  }
  const auto formula = chem::formula_of(about);
  if (!formula) {
    d.missing("a " + side + " that is known (" + formula.fault().sentence + ")");
    return std::nullopt;
  }
  for (std::size_t i = first; i < last; ++i) {
    if (species[i].formula.same_composition(*formula)) return i;
  }
  // A hydrate stands for the salt in it, and the other way round.
  for (std::size_t i = first; i < last; ++i) {
    const auto main_part = [](const chem::Formula& f) { return f.parts().front().composition; };
    const bool hydrates =
        !formula->water_of_crystallisation().zero() || !species[i].formula.water_of_crystallisation().zero();
    if (hydrates && main_part(species[i].formula) == main_part(*formula)) return i;
  }
  d.missing("a place for " + formula->unicode() + " among the " + side + "s of the equation");
  return std::nullopt;
}

namespace {

// "Concentrated nitric acid" or "acetic anhydride", where the figure or its place says so; else the formula.
std::string called_as_liquid(const Filled& filled, const chem::Formula& formula) {
  for (const std::string& text : {filled.value->figure->subject, filled.about}) {
    if (text.empty()) continue;
    const auto named = chem::formula_of(text);
    if (named ? named->same_composition(formula) : chem::commercial_solution(text).ok()) return text;
  }
  return formula.plain();
}

// What was really weighed: another form given with the relation, or the hydrate the figure names.
chem::Formula weighed_form(Drafting& d, const BalancedEquation& e, std::size_t species, const Filled& filled) {
  const chem::Formula& in_equation = e.equation.all()[species].formula;
  for (const std::string& name : {in_equation.plain(), in_equation.unicode(), filled.about}) {
    if (name.empty()) continue;
    if (const auto form = d.given("form:" + name)) {
      const auto formula = chem::formula_of(*form);
      if (formula) return *formula;
      d.missing("a form of " + in_equation.unicode() + " that is known (" + formula.fault().sentence + ")");
    }
  }
  for (const std::string& text : {filled.about, filled.value->figure->subject}) {
    if (text.empty()) continue;
    const auto formula = chem::formula_of(text);
    if (formula && !formula->water_of_crystallisation().zero() &&
        formula->parts().front().composition == in_equation.parts().front().composition) {
      return *formula;
    }
  }
  return in_equation;
}

// A liquid by its volume: pure, or the solution a trade name means.
std::optional<std::size_t> amount_in_volume(Drafting& d, const BalancedEquation& e, std::size_t species,
                                            const Filled& filled) {
  const std::string name = e.name(species);
  const std::string called = called_as_liquid(filled, e.equation.all()[species].formula);
  const auto density = density_of_substance(d, Piece::of_symbol("ρ", name), "density of " + called, called);
  const auto molar_mass = density ? d.molar_mass(e.equation.all()[species].formula) : std::nullopt;
  if (!molar_mass) return std::nullopt;
  const std::size_t n = d.hidden("amount of " + name, Piece::of_symbol("n", name), Kind::amount);
  std::vector<Weighted> members{{n, -1}, {*density, 1}, {filled.quantity, 1}, {*molar_mass, -1}};
  if (const auto usual = usual_strength(d, name, called)) members.push_back({usual->quantity, 1});
  d.product("the amount and volume of " + name, members);
  return n;
}

std::optional<std::size_t> purity_behind(Drafting& d, const BalancedEquation& e, std::size_t species) {
  const chem::Formula& formula = e.equation.all()[species].formula;
  for (const std::string& name : {formula.plain(), formula.unicode()}) {
    const std::string key = "purity:" + name;
    if (d.given(key)) {
      return d.given_quantity(key, Kind::fraction, Piece::of_symbol("w", formula.unicode()),
                              "purity of " + formula.unicode());
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::size_t> amount_behind(Drafting& d, const BalancedEquation& e, std::size_t species,
                                         const Filled& filled) {
  const std::string name = e.name(species);
  d.at(filled.quantity).symbol.below = name;
  const quantity::Dimension& has = filled.value->unit.dimension();
  if (has == dimension::amount) return filled.quantity;
  const auto amount = [&] { return d.hidden("amount of " + name, Piece::of_symbol("n", name), Kind::amount); };
  if (has == dimension::mass) {
    const chem::Formula form = weighed_form(d, e, species, filled);
    const auto molar_mass = d.molar_mass(form);
    if (!molar_mass) return std::nullopt;
    if (!form.same_composition(e.equation.all()[species].formula)) {
      d.at(filled.quantity).symbol.below = form.unicode();
      d.note(name + " is taken to be weighed as " + form.unicode() + ".");
    }
    const std::size_t n = amount();
    std::vector<Weighted> members{{n, -1}, {filled.quantity, 1}, {*molar_mass, -1}};
    if (const auto purity = purity_behind(d, e, species)) members.push_back({*purity, 1});
    d.product("the amount and mass of " + name, members);
    return n;
  }
  const bool is_gas = filled.value->figure->kind == Kind::gas_volume ||
                      e.equation.all()[species].state == std::optional(chem::State::gas);
  if (has == dimension::volume && is_gas) {
    const std::size_t n = amount();
    d.product("the amount and volume of gaseous " + name,
              {{filled.quantity, -1}, {n, 1}, {gas_constant(d), 1}, {temperature_of(d), 1}, {pressure_of(d), -1}});
    return n;
  }
  if (has == dimension::volume) {
    if (const auto n = amount_in_volume(d, e, species, filled)) return n;
    d.missing("the mass or amount of " + name + ": its volume alone does not tell (tie it by a strength or a density)");
  } else {
    d.missing("a mass or amount of " + name + ": " + filled.value->name + " is " +
              with_article(quantity::name_of(has)));
  }
  return std::nullopt;
}

std::size_t temperature_of(Drafting& d) {
  if (const auto figure = d.figure("temperature", {dimension::temperature})) return figure->quantity;
  const Piece symbol = Piece::of_symbol("T");
  if (const auto given = d.given_quantity("temperature", Kind::temperature, symbol, "temperature")) return *given;
  d.note("The gas is taken to be at the temperature of the room.");
  const quantity::Unit unit = quantity::default_unit(Kind::temperature);
  // A room is known to a degree or two; taken as plus-minus 2 degrees (common practice, no source).
  return d.constant("room temperature", "room temperature", symbol, Kind::temperature, unit,
                    unit.to_si(d.bench().room_celsius), 2 / 1.7320508075688772, "of the room, as the record has it");
}

std::size_t pressure_of(Drafting& d) {
  if (const auto figure = d.figure("pressure", {dimension::pressure})) return figure->quantity;
  const Piece symbol = Piece::of_symbol("p");
  if (const auto given = d.given_quantity("pressure", Kind::pressure, symbol, "pressure")) return *given;
  d.note("The gas is taken to be at the pressure of the room.");
  const quantity::Unit unit = quantity::default_unit(Kind::pressure);
  // Weather moves it by a few kilopascal; taken as plus-minus 2 kPa (common practice, no source).
  return d.constant("room pressure", "room pressure", symbol, Kind::pressure, unit, 1000 * d.bench().pressure_kpa,
                    2000 / 1.7320508075688772, "of the room, as the record has it");
}

std::size_t gas_constant(Drafting& d) {
  return d.constant("R", "gas constant", Piece::of_symbol("R"), Kind::other, quantity::Unit::known("J/(mol.K)"),
                    chem::gas_constant, 0, "SI Brochure, 9th ed. (2019), product of the exact k and NA");
}

}  // namespace sash::workings
