// What several relation kinds need alike.
#include "workings/relations/kinds.h"

namespace sash::workings {

using quantity::Kind;
namespace dimension = quantity::dimension;

std::size_t molar_mass_of(Drafting& d, const std::optional<chem::Formula>& formula, const std::string& substance) {
  if (const auto figure = d.figure("molar_mass", {dimension::molar_mass})) return figure->quantity;
  const Piece symbol = Piece::of_symbol("M");
  if (const auto given = d.given_quantity("molar_mass", Kind::molar_mass, symbol, "molar mass of " + substance)) {
    return *given;
  }
  if (formula) {
    if (const auto constant = d.molar_mass(*formula)) return *constant;
  }
  return d.asked("formula or molar mass of " + substance, symbol, Kind::molar_mass,
                 "substance, such as CuSO4·5H2O, or molar_mass, such as 249.68 g/mol");
}

void limit_yield(Quantity& percent) {
  percent.most = 1;
  percent.past_most = "cannot be pure, dry product";
}

std::optional<std::size_t> purity_of(Drafting& d, const std::string& key) {
  if (const auto figure = d.figure(key, {dimension::plain})) return figure->quantity;
  return d.given_quantity(key, Kind::fraction, Piece::of_symbol("w"), "purity");
}

}  // namespace sash::workings
