#include "chem/inner/conservation.h"

#include <algorithm>

namespace sash::chem::inner {

Conservation conservation(const Equation& equation) {
  Conservation kept;
  const std::size_t columns = equation.all().size();
  std::vector<Fraction> charge(columns, Fraction(0));
  bool charged = false;
  for (std::size_t i = 0; i < columns; ++i) {
    const Formula& formula = equation.all()[i].formula;
    const Fraction sign = equation.on_left(i) ? 1 : -1;
    for (const AtomCount& a : formula.composition()) {
      const auto at = std::ranges::find(kept.kinds, a.what);
      const auto row = static_cast<std::size_t>(at - kept.kinds.begin());
      if (at == kept.kinds.end()) {
        kept.kinds.push_back(a.what);
        kept.names.push_back(symbol_of(a.what));
        kept.rows.emplace_back(columns, Fraction(0));
      }
      kept.rows[row][i] = sign * a.count;
    }
    charge[i] = sign * formula.charge();
    charged = charged || formula.charge() != 0;
  }
  if (charged) {
    kept.names.emplace_back("charge");
    kept.rows.push_back(std::move(charge));
  }
  return kept;
}

}  // namespace sash::chem::inner
