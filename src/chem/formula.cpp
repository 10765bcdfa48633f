#include "chem/formula.h"

#include <algorithm>

#include "chem/inner/formula_reader.h"

namespace sash::chem {

Outcome<Formula> read_formula(std::string_view text) { return FormulaReader(text).read(); }

void add_atoms(Composition& to, Nuclide what, Fraction n) {
  const auto at = std::ranges::find(to, what, &AtomCount::what);
  if (at == to.end()) {
    to.push_back({what, n});
  } else {
    at->count = at->count + n;
  }
}

Fraction Formula::count_of(Nuclide what) const {
  const auto at = std::ranges::find(composition_, what, &AtomCount::what);
  return at == composition_.end() ? Fraction(0) : at->count;
}

Fraction Formula::atoms() const {
  Fraction sum = 0;
  for (const AtomCount& a : composition_) sum = sum + a.count;
  return sum;
}

Fraction Formula::water_of_crystallisation() const {
  const Nuclide hydrogen{1, std::nullopt};
  const Nuclide oxygen{8, std::nullopt};
  Fraction water = 0;
  for (const FormulaPart& part : parts().subspan(1)) {
    const Composition& c = part.composition;
    const bool is_water = c.size() == 2 && part.charge == 0 && std::ranges::count(c, AtomCount{hydrogen, 2}) == 1 &&
                          std::ranges::count(c, AtomCount{oxygen, 1}) == 1;
    if (is_water) water = water + part.multiplier;
  }
  return water;
}

bool Formula::same_composition(const Formula& other) const {
  return charge_ == other.charge_ && composition_.size() == other.composition_.size() &&
         std::ranges::is_permutation(composition_, other.composition_);
}

std::string reading_taken(const Formula& formula) {
  for (const FormulaPiece& piece : formula.pieces()) {
    if (piece.text != "Ac" || piece.mass_number) continue;
    return piece.kind == FormulaPiece::Kind::abbreviation ? "Ac is read as acetyl, CH₃CO." : "Ac is read as actinium.";
  }
  return {};
}

}  // namespace sash::chem
