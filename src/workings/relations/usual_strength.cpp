#include "workings/relations/usual_strength.h"

#include <numbers>

#include "chem/commercial.h"
#include "chem/names.h"

namespace sash::workings {

using quantity::Kind;

std::optional<Filled> usual_strength(Drafting& d, const std::string& below, const std::string& name) {
  const std::string trade = name.empty() ? d.substance() : name;
  if (trade.empty() || chem::formula_of(trade)) return std::nullopt;
  const auto usual = chem::commercial_solution(trade);
  if (!usual) return std::nullopt;
  d.note(usual->assumption);
  // Labels give their limits in the measure they are written in; by mass they lie about as far apart.
  const double middle = (usual->high + usual->low) / 2;
  const double reach = middle > 0 ? (usual->high - usual->low) / 2 / middle : 0;
  const double w = usual->solution.w;
  const quantity::Unit unit = *quantity::unit_for(Kind::mass_percent, "%");
  return d.as_if_stated(d.constant("usual strength of " + trade, "usual strength of " + trade,
                                   Piece::of_symbol("w", below), Kind::mass_percent, unit, w,
                                   w * reach / std::numbers::sqrt3, usual->source));
}

Filled pure_strength(Drafting& d, const std::string& below, Kind percent) {
  const quantity::Unit unit = *quantity::unit_for(percent, "%");
  return d.as_if_stated(d.constant("pure " + below, "strength of pure " + below,
                                   Piece::of_symbol(letter_of(percent), below), percent, unit, 1, 0,
                                   "the pure substance"));
}

}  // namespace sash::workings
