#include "desk/shown/wiring.h"

#include <algorithm>
#include <array>
#include <utility>

#include "chem/balance.h"
#include "chem/equation.h"
#include "support/text.h"

namespace sash::desk {
namespace {

using model::RelationType;
using quantity::Kind;

// What goes where, by kind of figure.
constexpr std::array mass{Kind::mass};
constexpr std::array volume{Kind::volume};
constexpr std::array amount{Kind::amount};
constexpr std::array density{Kind::density};
constexpr std::array molar_mass{Kind::molar_mass};
constexpr std::array purity{Kind::mass_percent, Kind::fraction, Kind::percent_other};
constexpr std::array strength{Kind::molar_concentration, Kind::mass_concentration, Kind::molality,
                              Kind::mass_percent,        Kind::volume_percent,     Kind::mass_volume_percent};
constexpr std::array share{Kind::fraction, Kind::percent_other, Kind::percent_yield, Kind::mass_percent};
constexpr std::array yield_share{Kind::percent_yield, Kind::percent_other, Kind::fraction};
constexpr std::array count{Kind::count};
constexpr std::array quantity_of{Kind::mass, Kind::amount, Kind::gas_volume, Kind::volume};
constexpr std::array gas{Kind::gas_volume, Kind::volume};
constexpr std::array temperature{Kind::temperature};
constexpr std::array pressure{Kind::pressure};
constexpr std::array warmth{Kind::temperature_change};
constexpr std::array energy{Kind::energy};
constexpr std::array duration{Kind::duration};
constexpr std::array current{Kind::current};
constexpr std::array charge{Kind::charge};
constexpr std::array equivalents{Kind::equivalents};
constexpr std::array mass_or_volume{Kind::volume, Kind::mass};

constexpr std::array same_portion_slots{
    SlotShape{"mass", "mass", true, false, mass},
    SlotShape{"volume", "volume", true, false, volume},
    SlotShape{"amount", "amount of substance", true, false, amount},
    SlotShape{"density", "density", false, false, density},
    SlotShape{"molar_mass", "molar mass", false, false, molar_mass},
    SlotShape{"purity", "purity", false, false, purity},
    SlotShape{"same", "said again", true, false, {}},
};
constexpr std::array same_portion_given{
    GivenShape{"substance", "Substance", "CuSO4·5H2O or a name"},
    GivenShape{"density", "Density", "1.42 g/mL"},
    GivenShape{"molar_mass", "Molar mass", "249.68 g/mol"},
    GivenShape{"purity", "Purity", "98 %"},
};
constexpr std::array in_solution_slots{
    SlotShape{"strength", "strength", true, false, strength},
    SlotShape{"solution_volume", "volume of the solution", true, false, volume},
    SlotShape{"solute_mass", "mass of the solute", true, false, mass},
    SlotShape{"solute_amount", "amount of the solute", true, false, amount},
    SlotShape{"solution_mass", "mass of the solution", true, false, mass},
    SlotShape{"solvent_mass", "mass of the solvent", true, false, mass},
    SlotShape{"solute_volume", "volume of the solute", true, false, volume},
    SlotShape{"density", "density of the solution", false, false, density},
};
constexpr std::array in_solution_given{
    GivenShape{"substance", "Solute", "NaOH or a name"},
    GivenShape{"density", "Density of the solution", "1.04 g/mL"},
    GivenShape{"molar_mass", "Molar mass", "40.00 g/mol"},
};
constexpr std::array dilution_slots{
    SlotShape{"strength_before", "strength before", false, false, strength},
    SlotShape{"volume_before", "volume before", false, false, volume},
    SlotShape{"strength_after", "strength after", false, false, strength},
    SlotShape{"volume_after", "volume after", false, false, volume},
    SlotShape{"mass_before", "mass before", false, false, mass},
    SlotShape{"mass_after", "mass after", false, false, mass},
    SlotShape{"solvent_added", "solvent added", false, false, mass_or_volume},
};
constexpr std::array substance_given{GivenShape{"substance", "Substance", "HNO3 or a name"}};
constexpr std::array mixing_slots{
    SlotShape{"part", "part", true, true, mass_or_volume},
    SlotShape{"part_strength", "strength of a part", true, true, strength},
    SlotShape{"whole", "the mixture", false, false, mass_or_volume},
    SlotShape{"whole_strength", "strength of the mixture", false, false, strength},
};
constexpr std::array share_slots{
    SlotShape{"fraction", "fraction", false, false, share},
    SlotShape{"part", "part", false, false, {}},
    SlotShape{"whole", "whole", false, false, {}},
    SlotShape{"rest", "rest", false, false, {}},
};
constexpr std::array share_given{GivenShape{"fraction", "Fraction", "0.25, 25 % or 3/8"}};
constexpr std::array total_slots{
    SlotShape{"whole", "whole", false, false, {}},
    SlotShape{"part", "part", true, false, {}},
    SlotShape{"less", "taken away", true, false, {}},
};
constexpr std::array count_slots{
    SlotShape{"count", "count", false, false, count},
    SlotShape{"each", "each", false, false, {}},
    SlotShape{"whole", "all together", false, false, {}},
};
constexpr std::array count_given{GivenShape{"count", "Count", "3"}};
constexpr std::array reaction_slots{
    SlotShape{"equivalents", "equivalents", true, true, equivalents},
    SlotShape{"reactant", "put in", true, true, quantity_of},
    SlotShape{"product", "formed in theory", true, true, quantity_of},
    SlotShape{"used", "used up", true, true, quantity_of},
    SlotShape{"left_over", "left over", true, true, quantity_of},
};
constexpr std::array reaction_given{
    GivenShape{"equation", "Equation", "Cu + HNO3 -> Cu(NO3)2 + NO2 + H2O"},
    GivenShape{"limiting", "Limiting reactant", "found when left empty"},
    GivenShape{"excess", "In excess", "HNO3"},
};
constexpr std::array chain_slots{
    SlotShape{"start", "put in at the start", false, false, quantity_of},
    SlotShape{"step_yield", "yield of a step", true, true, yield_share},
    SlotShape{"product", "product of a step", true, true, quantity_of},
    SlotShape{"overall_yield", "yield over all", false, false, yield_share},
};
constexpr std::array chain_given{
    GivenShape{"equation:1", "First step", "equation"},
    GivenShape{"equation:2", "Second step", "equation"},
    GivenShape{"equation:3", "Third step", "equation"},
};
constexpr std::array yield_slots{
    SlotShape{"percent", "yield", false, false, yield_share},
    SlotShape{"actual", "weighed out", false, false, quantity_of},
    SlotShape{"theoretical", "theoretical", false, false, quantity_of},
    SlotShape{"reactant", "put in", true, true, quantity_of},
};
constexpr std::array yield_given{
    GivenShape{"equation", "Equation", "CuO + H2SO4 -> CuSO4 + H2O"},
    GivenShape{"product", "Product", "CuSO4"},
    GivenShape{"limiting", "Limiting reactant", "found when left empty"},
};
constexpr std::array gas_slots{
    SlotShape{"amount", "amount of gas", false, false, amount},
    SlotShape{"mass", "mass of gas", false, false, mass},
    SlotShape{"volume", "volume of gas", false, false, gas},
    SlotShape{"temperature", "temperature", false, false, temperature},
    SlotShape{"pressure", "pressure", false, false, pressure},
};
constexpr std::array gas_given{
    GivenShape{"substance", "Gas", "NO2"},           GivenShape{"temperature", "Temperature", "20 Cel"},
    GivenShape{"pressure", "Pressure", "101.3 kPa"}, GivenShape{"over_water", "Over water", "yes"},
    GivenShape{"water", "Led through", "200 mL"},
};
constexpr std::array heat_slots{
    SlotShape{"heat", "heat", false, false, energy},
    SlotShape{"mass", "mass warmed", false, false, mass},
    SlotShape{"amount", "amount reacted", false, false, amount},
    SlotShape{"reacting_mass", "mass reacted or dissolved", false, false, mass},
    SlotShape{"temperature_before", "temperature before", false, false, temperature},
    SlotShape{"temperature_after", "temperature after", false, false, temperature},
    SlotShape{"temperature_change", "temperature change", false, false, warmth},
    SlotShape{"vessel_mass", "mass of the vessel", false, false, mass},
};
constexpr std::array heat_given{
    GivenShape{"content", "What is warmed", "water"},
    GivenShape{"substance", "What reacts or dissolves", "NaOH"},
    GivenShape{"process", "By", "dissolving, neutralisation, melting or boiling"},
    GivenShape{"equation", "Or by the equation", "CH4 + 2 O2 -> CO2 + 2 H2O(l)"},
    GivenShape{"heat_capacity", "Heat capacity", "4.18 J/(g.K)"},
    GivenShape{"enthalpy", "Enthalpy", "-44.5 kJ/mol"},
    GivenShape{"vessel", "Vessel of", "glass"},
};
constexpr std::array quench_slots{
    SlotShape{"target", "to be destroyed", true, true, quantity_of},
    SlotShape{"destroyer", "destroyer", true, true, quantity_of},
    SlotShape{"margin", "margin", false, false, share},
};
constexpr std::array equation_given{GivenShape{"equation", "Equation", "CO3^2- + 2H+ -> CO2 + H2O"}};
constexpr std::array titration_slots{
    SlotShape{"titrant_volume", "titrant run in", false, false, volume},
    SlotShape{"titrant_strength", "strength of the titrant", false, false, strength},
    SlotShape{"sample_volume", "volume of the sample", false, false, volume},
    SlotShape{"sample_strength", "strength of the sample", false, false, strength},
    SlotShape{"sample_mass", "mass of the sample", false, false, mass},
    SlotShape{"sample_amount", "amount in the sample", false, false, amount},
    SlotShape{"blank_volume", "blank", false, false, volume},
};
constexpr std::array titration_given{
    GivenShape{"equation", "Equation", "HCl + NaOH -> NaCl + H2O"},
    GivenShape{"titrant", "Titrant", "NaOH"},
    GivenShape{"analyte", "Analyte", "HCl"},
};
constexpr std::array electrolysis_slots{
    SlotShape{"current", "current", false, false, current},
    SlotShape{"duration", "duration", false, false, duration},
    SlotShape{"charge", "charge", false, false, charge},
    SlotShape{"product", "product", true, true, quantity_of},
    SlotShape{"efficiency", "current efficiency", false, false, share},
};
constexpr std::array electrolysis_given{
    GivenShape{"electrons", "Electrons for one", "2"},
    GivenShape{"substance", "Product", "Cu"},
};
constexpr std::array balance_slots{
    SlotShape{"in", "put in", true, true, quantity_of},
    SlotShape{"out", "found", true, true, quantity_of},
};
constexpr std::array balance_given{GivenShape{"element", "Element", "Cu"}};
constexpr std::array duration_slots{SlotShape{"stated", "stated time", false, false, duration}};
constexpr std::array duration_given{
    GivenShape{"from", "From", "1:20"},
    GivenShape{"until", "Until", "3:45"},
};

constexpr std::array ph{Kind::pH};
constexpr std::array put_in{Kind::molar_concentration, Kind::amount, Kind::mass};
constexpr std::array equilibrium_slots{
    SlotShape{"total", "put in", true, true, put_in},
    SlotShape{"volume", "volume of the solution", false, false, volume},
    SlotShape{"pH", "pH", false, false, ph},
    SlotShape{"species", "dissolved at equilibrium", true, true, put_in},
    SlotShape{"precipitate", "precipitated", true, true, put_in},
    SlotShape{"solubility", "dissolves", true, true, put_in},
};
constexpr std::array equilibrium_given{
    GivenShape{"constants", "Constants", "HF = H^+ + F^-: 6.4e-4; from the tables when left empty"},
    GivenShape{"held_pH", "pH held at", "9.2, or yes for the figure"},
    GivenShape{"temperature", "Temperature", "25 Cel"},
};

constexpr std::array shapes{
    RelationShape{RelationType::same_portion, "one portion: mass, volume, amount, by density and molar mass",
                  same_portion_slots, same_portion_given},
    RelationShape{RelationType::in_solution, "solute, solution and strength", in_solution_slots, in_solution_given},
    RelationShape{RelationType::reaction, "amounts tied by a balanced equation", reaction_slots, reaction_given},
    RelationShape{RelationType::yield, "weighed out against theoretical", yield_slots, yield_given},
    RelationShape{RelationType::share, "part = fraction × whole", share_slots, share_given},
    RelationShape{RelationType::total, "the parts make the whole", total_slots, {}},
    RelationShape{RelationType::count_each, "count × each = all together", count_slots, count_given},
    RelationShape{RelationType::dilution, "more solvent, the solute unchanged", dilution_slots, substance_given},
    RelationShape{RelationType::mixing, "several solutions into one", mixing_slots, substance_given},
    RelationShape{RelationType::gas_given_off, "amount of gas and its volume", gas_slots, gas_given},
    RelationShape{RelationType::heat, "heat, mass and temperature change", heat_slots, heat_given},
    RelationShape{RelationType::quench, "destroyer against what it must destroy", quench_slots, equation_given},
    RelationShape{RelationType::titration, "titrant against sample", titration_slots, titration_given},
    RelationShape{RelationType::electrolysis, "charge passed and product", electrolysis_slots, electrolysis_given},
    RelationShape{RelationType::element_balance, "an element across vessels", balance_slots, balance_given},
    RelationShape{RelationType::chain, "one step's product is the next one's reactant", chain_slots, chain_given},
    RelationShape{RelationType::duration, "stated time against the footage", duration_slots, duration_given},
    RelationShape{RelationType::equilibrium, "what was put in and what is there at equilibrium", equilibrium_slots,
                  equilibrium_given},
};

bool takes(const SlotShape& slot, Kind kind) {
  return slot.kinds.empty() || std::find(slot.kinds.begin(), slot.kinds.end(), kind) != slot.kinds.end();
}

bool has_room(const SlotShape& slot, const model::Relation& relation) {
  return slot.many || std::none_of(relation.terms.begin(), relation.terms.end(),
                                   [&](const model::Term& t) { return t.slot == slot.slot; });
}

}  // namespace

std::span<const RelationShape> relation_shapes() { return shapes; }

const RelationShape* shape_of(RelationType type) {
  const auto it = std::find_if(shapes.begin(), shapes.end(), [&](const RelationShape& s) { return s.type == type; });
  return it == shapes.end() ? nullptr : &*it;
}

const SlotShape* slot_of(const RelationShape& shape, std::string_view slot) {
  const auto it =
      std::find_if(shape.slots.begin(), shape.slots.end(), [&](const SlotShape& s) { return s.slot == slot; });
  return it == shape.slots.end() ? nullptr : &*it;
}

std::optional<std::string_view> next_slot(const RelationShape& shape, const model::Relation& relation, Kind kind) {
  // An empty slot made for this kind first, then one that takes several, then one that takes anything.
  for (const bool only_empty : {true, false}) {
    for (const SlotShape& s : shape.slots) {
      if (s.kinds.empty() || !takes(s, kind) || !has_room(s, relation)) continue;
      const bool filled = std::any_of(relation.terms.begin(), relation.terms.end(),
                                      [&](const model::Term& t) { return t.slot == s.slot; });
      if (!(only_empty && filled)) return s.slot;
    }
  }
  for (const SlotShape& s : shape.slots) {
    if (s.kinds.empty() && has_room(s, relation)) return s.slot;
  }
  return std::nullopt;
}

void toggle_figure(model::Relation& relation, const model::Figure& figure, std::optional<std::string_view> wanted) {
  const RelationShape* shape = shape_of(relation.type);
  if (shape == nullptr) return;
  const auto there = std::find_if(relation.terms.begin(), relation.terms.end(),
                                  [&](const model::Term& t) { return t.figure == figure.id; });
  if (there != relation.terms.end()) {
    const bool same = !wanted || there->slot == *wanted;
    relation.terms.erase(there);
    if (same) return;
  }
  const auto slot = wanted ? wanted : next_slot(*shape, relation, figure.kind);
  if (!slot) return;
  const SlotShape* s = slot_of(*shape, *slot);
  if (s == nullptr) return;
  if (!s->many) std::erase_if(relation.terms, [&](const model::Term& t) { return t.slot == s->slot; });
  relation.terms.push_back({std::string(s->slot), figure.id, s->about ? figure.subject : std::string()});
}

void retype(WiringState& wiring, const model::Record& record, RelationType type) {
  const auto terms = std::exchange(wiring.relation.terms, {});
  wiring.relation.type = type;
  wiring.slot.reset();
  for (const auto& term : terms) {
    if (const auto* figure = model::find(record, term.figure)) toggle_figure(wiring.relation, *figure, std::nullopt);
  }
}

void pick_figure(WiringState& wiring, const model::Record& record, model::FigureId id) {
  const auto* figure = model::find(record, id);
  if (figure == nullptr) return;
  toggle_figure(wiring.relation, *figure, wiring.slot);
  wiring.slot.reset();
  if (wiring.type_chosen) return;
  std::vector<Kind> kinds;
  for (const auto& term : wiring.relation.terms) {
    if (const auto* f = model::find(record, term.figure)) kinds.push_back(f->kind);
  }
  if (const RelationType likely = likely_type(kinds); likely != wiring.relation.type) retype(wiring, record, likely);
}

std::string lacking(const model::Relation& relation) {
  if (relation.terms.empty()) return "Click figures in the sheet to put them in.";
  const bool needs_equation = relation.type == RelationType::reaction || relation.type == RelationType::chain;
  const std::string key = relation.type == RelationType::chain ? "equation:1" : "equation";
  if (needs_equation) {
    const auto equation = relation.given.find(key);
    if (equation == relation.given.end() || trim(equation->second).empty()) return "Type the equation.";
  }
  const bool something_given =
      std::any_of(relation.given.begin(), relation.given.end(), [](const auto& g) { return !trim(g.second).empty(); });
  const bool one_is_enough = relation.type == RelationType::duration || something_given;
  if (relation.terms.size() < 2 && !one_is_enough) return "Put in at least one more figure, or give a value.";
  return {};
}

EquationOffer offer_for(std::string_view typed) {
  using State = EquationOffer::State;
  if (trim(typed).empty()) return {};
  const auto equation = chem::read_equation(typed);
  if (!equation) return {State::cannot, equation.fault().sentence};
  if (const auto checked = chem::verify(*equation); checked.ok() && checked->balanced)
    return {State::balanced, equation->unicode()};
  const auto balanced = chem::balance(*equation);
  if (!balanced) return {State::cannot, balanced.fault().sentence};
  if (balanced->status != chem::BalanceStatus::balanced) return {State::cannot, balanced->why};
  return {State::balance_offered, balanced->balanced};
}

RelationType likely_type(std::span<const Kind> kinds) {
  const auto has = [&](std::span<const Kind> wanted) {
    return std::any_of(kinds.begin(), kinds.end(),
                       [&](Kind k) { return std::find(wanted.begin(), wanted.end(), k) != wanted.end(); });
  };
  constexpr std::array yields{Kind::percent_yield};
  constexpr std::array shares{Kind::fraction, Kind::percent_other};
  if (has(yields)) return RelationType::yield;
  if (has(strength)) return RelationType::in_solution;
  if (has(count)) return RelationType::count_each;
  if (has(shares)) return RelationType::share;
  if (has(duration) && kinds.size() == 1) return RelationType::duration;
  return RelationType::same_portion;
}

std::optional<session::PutThing> kept_relation(const WiringState& wiring) {
  if (!lacking(wiring.relation).empty()) return std::nullopt;
  model::Relation r = wiring.relation;
  std::erase_if(r.given, [](const auto& g) { return g.second.empty(); });
  r.origin = {};
  return session::PutThing{r, r.id.known() ? "Change relation" : "Tie figures together"};
}

}  // namespace sash::desk
