// From a formula to its names: listed compounds of the same composition, then ions, then salts taken apart.

#include <algorithm>

#include "chem/inner/name_rules.h"

namespace sash::chem {
namespace {

using inner::Ion;

// What is left of `from` when `n` times `part` is taken away; nothing when there is not enough.
std::optional<Composition> without(const Composition& from, const Composition& part, std::int64_t n) {
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

std::optional<std::string> salt_of(const Composition& whole) {
  for (const Ion& anion : inner::anions()) {
    for (std::int64_t n = 4; n >= 1; --n) {
      const auto rest = without(whole, anion.atoms, n);
      if (!rest || rest->empty()) continue;
      const std::int64_t negative = -anion.charge * n;
      for (const Ion& cation : inner::polyatomic_cations()) {
        if (negative % cation.charge != 0) continue;
        const auto none = without(*rest, cation.atoms, negative / cation.charge);
        if (none && none->empty()) return inner::salt_name(cation, anion);
      }
      if (rest->size() != 1 || rest->front().what.mass_number || !rest->front().count.whole()) continue;
      const Element& e = element(rest->front().what.number);
      const auto m = static_cast<std::int64_t>(rest->front().count.top());
      const inner::CationElement* known = inner::find_cation_element(e.symbol);
      if (known == nullptr || negative % m != 0) continue;
      const auto charge = static_cast<int>(negative / m);
      if (std::ranges::find(known->charges, charge) == known->charges.end()) continue;
      if (e.symbol == "H" && !anion.acids.empty() && anion.name.ends_with("ate")) return anion.acids.front();
      return inner::salt_name(inner::element_cation(e, charge), anion);
    }
  }
  return std::nullopt;
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
  const auto [begin, end] = parts.by_composition.equal_range(formula.hill());
  for (auto at = begin; at != end; ++at) {
    const ListedCompound& c = parts.compounds[static_cast<std::size_t>(at->second)];
    if (c.solution()) continue;
    names.push_back(c.name);
  }
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
    if (auto name = salt_of(main)) base = *std::move(name);
  }
  if (base.empty() && main.size() == 1 && main[0].count == Fraction(1) && !main[0].what.mass_number) {
    base = element(main[0].what.number).name;
  }
  if (base.empty()) return names;
  names.push_back(water > 0 ? base + " " + hydrate_word(water) : base);
  return names;
}

}  // namespace sash::chem
