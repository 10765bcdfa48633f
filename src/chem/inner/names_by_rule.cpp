// From a formula to its names: listed compounds of the same composition, then ions, then salts taken apart.

#include <algorithm>

#include "chem/inner/name_rules.h"

namespace sash::chem {
namespace {

using inner::Ion;

// What is left of `from` when `n` times `part` is taken away; nothing when there is not enough.
std::optional<Composition> without(const Composition& from, const Composition& part, std::int64_t n) {
  // Most parts hold an element that the whole has not: nothing is copied for those.
  for (const AtomCount& a : part) {
    if (std::ranges::find(from, a.what, &AtomCount::what) == from.end()) return std::nullopt;
  }
  Composition rest = from;
  for (const AtomCount& a : part) {
    const auto at = std::ranges::find(rest, a.what, &AtomCount::what);
    if (at == rest.end()) return std::nullopt;
    at->count = at->count - a.count * n;
    if (at->count.sign() < 0) return std::nullopt;
  }
  std::erase_if(rest, [](const AtomCount& a) { return a.count.zero(); });
  return rest;
}

bool same_atoms(const Composition& a, const Composition& b) {
  return a.size() == b.size() && std::ranges::is_permutation(a, b);
}

struct Salt {
  std::string name;
  std::string formula;
  std::size_t anion_kinds = 0;
  bool organic_acid = false;
};

void take_apart(const Composition& whole, const Ion& anion, std::int64_t n, std::vector<Salt>& found) {
  const auto rest = without(whole, anion.atoms, n);
  if (!rest || rest->empty()) return;
  const auto add = [&](const Ion& cation) {
    const bool organic_acid = anion.organic && cation.core == "H";
    found.push_back(
        {inner::salt_name(cation, anion), inner::salt_formula(cation, anion), anion.atoms.size(), organic_acid});
  };
  const std::int64_t negative = -anion.charge * n;
  for (const Ion& cation : inner::polyatomic_cations()) {
    if (negative % cation.charge != 0) continue;
    const auto none = without(*rest, cation.atoms, negative / cation.charge);
    if (none && none->empty()) add(cation);
  }
  if (rest->size() != 1 || rest->front().what.mass_number || !rest->front().count.whole()) return;
  const Element& e = element(rest->front().what.number);
  const auto m = static_cast<std::int64_t>(rest->front().count.top());
  const inner::CationElement* known = inner::find_cation_element(e.symbol);
  if (known == nullptr || negative % m != 0) return;
  const auto charge = static_cast<int>(negative / m);
  if (std::ranges::find(known->charges, charge) == known->charges.end()) return;
  if (e.symbol == "H" && !anion.acids.empty() && anion.name.ends_with("ate")) {
    found.push_back({anion.acids.front(), inner::acid_formula(anion), anion.atoms.size(), anion.organic});
  } else {
    add(inner::element_cation(e, charge));
  }
}

// A salt of this composition: the one that is written as `plain`, or else the one with the richest anion.
std::optional<Salt> salt_of(const Composition& whole, std::string_view plain) {
  std::vector<Salt> found;
  for (const Ion& anion : inner::anions()) {
    for (std::int64_t n = 4; n >= 1; --n) take_apart(whole, anion, n, found);
  }
  if (found.empty()) return std::nullopt;
  const auto written = std::ranges::find(found, plain, &Salt::formula);
  if (written != found.end()) return *written;
  return *std::ranges::max_element(found, {}, &Salt::anion_kinds);
}

std::optional<std::string> ion_of(const Formula& formula) {
  for (const Ion& ion : inner::anions()) {
    if (ion.charge == formula.charge() && same_atoms(ion.atoms, formula.composition())) return ion.name + " ion";
  }
  for (const Ion& ion : inner::polyatomic_cations()) {
    if (ion.charge == formula.charge() && same_atoms(ion.atoms, formula.composition())) {
      return inner::cation_name(ion) + " ion";
    }
  }
  const Composition& c = formula.composition();
  if (c.size() != 1 || c[0].what.mass_number || c[0].count != Fraction(1) || formula.charge() < 1 ||
      formula.charge() > 9)
    return std::nullopt;
  return inner::cation_name(inner::element_cation(element(c[0].what.number), formula.charge())) + " ion";
}

}  // namespace

std::vector<std::string> names_by_rule(const NameBook::Parts& parts, const Formula& formula) {
  if (formula.is_electron()) return {"electron"};
  std::vector<std::string> names;
  if (formula.charge() != 0) {
    if (auto name = ion_of(formula)) names.push_back(*std::move(name));
    return names;
  }
  // Listed as it is written, then a salt as it is written, then whatever else has the same atoms.
  const auto [begin, end] = parts.by_composition.equal_range(formula.hill());
  const std::string plain = formula.plain();
  std::vector<std::string> isomers;
  for (auto at = begin; at != end; ++at) {
    const ListedCompound& c = parts.compounds[static_cast<std::size_t>(at->second)];
    if (!c.solution()) (read_formula(c.formula)->plain() == plain ? names : isomers).push_back(c.name);
  }
  if (names.empty() && !isomers.empty()) {
    if (auto salt = salt_of(formula.composition(), plain); salt && salt->formula == plain) names.push_back(salt->name);
  }
  names.insert(names.end(), isomers.begin(), isomers.end());
  if (!names.empty()) return names;

  const double water = formula.water_of_crystallisation().number();
  const Composition& main = formula.parts()[0].composition;
  const bool plain_hydrate =
      formula.parts()[0].multiplier == Fraction(1) &&
      std::ranges::all_of(formula.parts().subspan(1), [](const FormulaPart& p) { return p.composition.size() == 2; });
  if (formula.parts().size() > 1 && !(water > 0 && plain_hydrate)) return names;
  std::string base;
  if (water > 0) {
    const auto [first, last] = parts.by_composition.equal_range(hill_text(main, 0));
    for (auto at = first; at != last && base.empty(); ++at) {
      const ListedCompound& c = parts.compounds[static_cast<std::size_t>(at->second)];
      if (c.inorganic_solid()) base = c.name;
    }
  }
  if (base.empty()) {
    // Few organic acids take water up; those are listed.
    auto salt = salt_of(main, plain.substr(0, plain.find('*')));
    if (salt && !(salt->organic_acid && water > 0)) base = std::move(salt->name);
  }
  if (base.empty() && main.size() == 1 && main[0].count == Fraction(1) && !main[0].what.mass_number) {
    base = element(main[0].what.number).name;
  }
  if (base.empty()) return names;
  names.push_back(water > 0 ? base + " " + hydrate_word(water) : base);
  return names;
}

}  // namespace sash::chem
