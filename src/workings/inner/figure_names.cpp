#include "workings/inner/figure_names.h"

#include <algorithm>
#include <string_view>

#include "chem/formula.h"
#include "quantity/kind.h"

namespace sash::workings::inner {
namespace {

using model::RelationType;
using quantity::Kind;

// How a place in a relation says what a figure is: "{lead} mass of {who} {tail}".
struct Phrase {
  RelationType type;
  std::string_view slot;
  std::string_view lead;
  std::string_view who;  // where nothing is known of what it is about
  std::string_view tail;
  std::string_view measure = {};  // instead of that of its kind
};

constexpr Phrase phrases[] = {
    {RelationType::in_solution, "solution_volume", "", "the solution", ""},
    {RelationType::in_solution, "solution_mass", "", "the solution", ""},
    {RelationType::in_solution, "solute_amount", "", "the solute", ""},
    {RelationType::in_solution, "solute_mass", "", "the solute", ""},
    {RelationType::in_solution, "solute_volume", "", "the solute", ""},
    {RelationType::in_solution, "solvent_mass", "", "the solvent", ""},
    {RelationType::in_solution, "solvent_volume", "", "the solvent", ""},
    {RelationType::dilution, "strength_before", "", "", "before dilution"},
    {RelationType::dilution, "strength_after", "", "", "after dilution"},
    {RelationType::dilution, "volume_before", "", "", "before dilution"},
    {RelationType::dilution, "volume_after", "", "", "after dilution"},
    {RelationType::dilution, "mass_before", "", "", "before dilution"},
    {RelationType::dilution, "mass_after", "", "", "after dilution"},
    {RelationType::dilution, "solvent_added", "", "the solvent", "added"},
    {RelationType::mixing, "whole", "", "the mixture", ""},
    {RelationType::mixing, "whole_strength", "", "the mixture", ""},
    {RelationType::share, "part", "", "the part", ""},
    {RelationType::share, "whole", "", "the whole", ""},
    {RelationType::share, "rest", "", "what is left", ""},
    {RelationType::total, "whole", "total", "", ""},
    {RelationType::count_each, "each", "", "each", ""},
    {RelationType::count_each, "whole", "total", "", ""},
    {RelationType::reaction, "used", "", "", "used up"},
    {RelationType::reaction, "left_over", "", "", "left over"},
    {RelationType::chain, "start", "", "what it starts with", ""},
    {RelationType::chain, "overall_yield", "overall", "", ""},
    {RelationType::yield, "actual", "isolated", "", ""},
    {RelationType::yield, "theoretical", "theoretical", "", ""},
    {RelationType::heat, "reacting_mass", "", "what reacts or dissolves", ""},
    {RelationType::heat, "vessel_mass", "", "the vessel", ""},
    {RelationType::heat, "temperature_before", "", "", "before"},
    {RelationType::heat, "temperature_after", "", "", "after"},
    {RelationType::titration, "titrant_volume", "", "the titrant", ""},
    {RelationType::titration, "titrant_strength", "", "the titrant", ""},
    {RelationType::titration, "sample_volume", "", "the sample", ""},
    {RelationType::titration, "sample_mass", "", "the sample", ""},
    {RelationType::titration, "sample_amount", "", "the analyte", ""},
    {RelationType::titration, "sample_strength", "", "the sample", ""},
    {RelationType::titration, "blank_volume", "", "the blank", ""},
    {RelationType::element_balance, "in", "", "", "going in"},
    {RelationType::element_balance, "out", "", "", "coming out"},
    {RelationType::element_balance, "unaccounted", "", "", "unaccounted for"},
    {RelationType::equilibrium, "volume", "", "the solution", ""},
    {RelationType::equilibrium, "species", "", "", "at equilibrium"},
    {RelationType::equilibrium, "precipitate", "", "", "precipitated"},
    {RelationType::equilibrium, "solubility", "", "", "", "solubility"},
    {RelationType::electrolysis, "efficiency", "", "", "", "current efficiency"},
    {RelationType::quench, "margin", "", "the quench", "", "margin"},
};

const Phrase* phrase_of(RelationType type, std::string_view slot) {
  const auto* const it = std::find_if(std::begin(phrases), std::end(phrases),
                                      [&](const Phrase& p) { return p.type == type && p.slot == slot; });
  return it != std::end(phrases) ? it : nullptr;
}

// What a figure measures, in words that go before "of copper".
std::string_view measure_of(Kind kind, bool about_something) {
  switch (kind) {
    case Kind::amount:
      return about_something ? "amount" : quantity::kind_label(kind);
    case Kind::gas_volume:
      return about_something ? "volume" : quantity::kind_label(kind);
    case Kind::mass_percent:
    case Kind::volume_percent:
    case Kind::mass_volume_percent:
      return "strength";
    case Kind::percent_other:
      return "percentage";
    default:
      return quantity::kind_label(kind);
  }
}

// "Cu(NO3)2" is written Cu(NO₃)₂; "step 2" for a bare number, which counts the steps of a chain.
std::string shown(const std::string& about, RelationType type) {
  if (type == RelationType::chain && about.find_first_not_of("0123456789") == std::string::npos) return "step " + about;
  const auto formula = chem::read_formula(about);
  return formula ? formula->unicode() : about;
}

std::string about_of(const model::Figure& figure, const model::Record& record) {
  if (!figure.subject.empty()) return figure.subject;
  const model::Portion* portion = figure.portion ? model::find(record, *figure.portion) : nullptr;
  if (portion == nullptr) return {};
  return portion->name.empty() ? portion->subject : portion->name;
}

}  // namespace

FigureNames::FigureNames(const model::Record& record) : record_(record) {
  std::vector<const model::Relation*> relations;
  for (const model::Relation& r : record.relations) {
    if (r.origin.standing == model::Standing::confirmed) relations.push_back(&r);
  }
  std::sort(relations.begin(), relations.end(), [](const auto* a, const auto* b) { return a->id < b->id; });
  for (const model::Relation* r : relations) {
    for (const model::Term& t : r->terms) places_.try_emplace(t.figure, Place{r, &t});
  }
}

std::string FigureNames::of(const model::Figure& figure) const {
  if (!figure.label.empty()) return "\u201C" + figure.label + "\u201D";
  std::string who = about_of(figure, record_);
  const Phrase* phrase = nullptr;
  if (const auto place = places_.find(figure.id); place != places_.end()) {
    const auto& [relation, term] = place->second;
    phrase = phrase_of(relation->type, term->slot);
    if (who.empty() && !term->about.empty()) who = shown(term->about, relation->type);
    if (who.empty() && phrase != nullptr) who = phrase->who;
  }
  const bool measured = phrase != nullptr && !phrase->measure.empty();
  std::string name(measured ? phrase->measure : measure_of(figure.kind, !who.empty()));
  if (!who.empty()) name += " of " + who;
  if (phrase == nullptr) return name;
  if (!phrase->lead.empty()) name = std::string(phrase->lead) + " " + name;
  if (!phrase->tail.empty()) name += " " + std::string(phrase->tail);
  return name;
}

}  // namespace sash::workings::inner
