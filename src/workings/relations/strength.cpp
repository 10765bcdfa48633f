#include "workings/relations/strength.h"

#include "chem/commercial.h"
#include "support/text.h"
#include "workings/relations/table_density.h"

namespace sash::workings {

using quantity::Kind;
namespace dimension = quantity::dimension;

double counted_over_solute(Drafting& d, const Filled& strength) {
  const std::string& about = strength.about.empty() ? strength.value->figure->subject : strength.about;
  const std::string word = to_lower(about);
  if (word != "available chlorine" && word != "active chlorine") return 1;
  d.note("Available chlorine is the chlorine with the oxidising power of the bleach: 0.952 times the mass of NaOCl.");
  return chem::available_chlorine_factor();
}

void limit_share(Quantity& fraction, const std::string& what) {
  if (fraction.unit.dimension() != dimension::plain) return;
  fraction.most = 1;
  fraction.past_most = "cannot be " + what;
}

std::optional<StrengthMeaning> meaning_of(Drafting& d, const Filled& strength) {
  switch (strength.value->figure->kind) {
    case Kind::molar_concentration:
      return StrengthMeaning{SoluteIn::amount, false};
    case Kind::mass_concentration:
    case Kind::mass_volume_percent:
      return StrengthMeaning{SoluteIn::mass, false};
    case Kind::volume_percent:
      return StrengthMeaning{SoluteIn::volume, false};
    case Kind::molality:
      d.missing("a strength by volume or mass of solution: a molality counts the solvent only");
      return std::nullopt;
    default:
      break;
  }
  const quantity::Dimension& has = strength.value->unit.dimension();
  if (has == dimension::plain) return StrengthMeaning{SoluteIn::mass, true};
  if (has == dimension::density) return StrengthMeaning{SoluteIn::mass, false};
  if (has == dimension::molar_concentration) return StrengthMeaning{SoluteIn::amount, false};
  d.missing("a strength that is one: " + strength.value->name + " is " + with_article(quantity::name_of(has)));
  return std::nullopt;
}

std::size_t base_of(Drafting& d, SolutionSide& side, const StrengthMeaning& meaning, const Filled* strength) {
  std::optional<std::size_t>& wanted = meaning.per_mass ? side.mass : side.volume;
  const std::optional<std::size_t>& other = meaning.per_mass ? side.volume : side.mass;
  if (wanted) return *wanted;
  wanted = meaning.per_mass
               ? d.hidden("mass of the " + side.name, Piece::of_symbol("m", side.below), Kind::mass, !other)
               : d.hidden("volume of the " + side.name, Piece::of_symbol("V", side.below), Kind::volume, !other);
  if (other) {
    const std::string name = "density of the " + side.name;
    const Piece symbol = Piece::of_symbol("ρ", side.below);
    std::optional<std::size_t> density = d.given_quantity(side.density_key, Kind::density, symbol, name);
    if (!density && strength != nullptr) density = density_of_solution(d, *strength, symbol, name);
    if (!density) density = d.asked(name, symbol, Kind::density, side.density_key + ", such as 1.05 g/mL");
    d.product("the mass and volume of the " + side.name, {{*side.mass, -1}, {*density, 1}, {*side.volume, 1}});
  }
  return *wanted;
}

std::optional<std::size_t> solute_of(Drafting& d, SolutionSide& side, const Filled& strength, SoluteIn wanted) {
  const auto meaning = meaning_of(d, strength);
  if (!meaning) return std::nullopt;
  const std::size_t base = base_of(d, side, *meaning, &strength);
  const std::string name = d.substance().empty() ? "solute" : d.substance();
  const auto hidden = [&](SoluteIn in) {
    const std::string in_solution = " in the " + side.name;
    if (in == SoluteIn::amount)
      return d.hidden("amount of " + name + in_solution, Piece::of_symbol("n", side.below), Kind::amount);
    if (in == SoluteIn::mass)
      return d.hidden("mass of " + name + in_solution, Piece::of_symbol("m", "solute " + side.below), Kind::mass);
    return d.hidden("volume of " + name + in_solution, Piece::of_symbol("V", "solute " + side.below), Kind::volume);
  };
  const std::size_t solute = hidden(meaning->solute);
  limit_share(d.at(strength.quantity), "a share of a solution");
  d.product("the solute in the " + side.name, {{solute, -1}, {strength.quantity, 1}, {base, 1}},
            1 / counted_over_solute(d, strength));
  if (meaning->solute == wanted) return solute;
  if (meaning->solute == SoluteIn::volume || wanted == SoluteIn::volume) {
    d.missing("strengths of one sort: one is by volume of solute");
    return std::nullopt;
  }
  const std::size_t other = hidden(wanted);
  const std::size_t molar_mass = molar_mass_of(d, d.formula(), name);
  const bool have_mass = meaning->solute == SoluteIn::mass;
  d.product("the amount and mass of " + name,
            {{have_mass ? other : solute, -1}, {have_mass ? solute : other, 1}, {molar_mass, -1}});
  return other;
}

}  // namespace sash::workings
