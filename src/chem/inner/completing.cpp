#include "chem/inner/completing.h"

#include <algorithm>
#include <limits>

#include "chem/inner/conservation.h"
#include "chem/inner/integer_lattice.h"

namespace sash::chem::inner {
namespace {

Formula helper_formula(std::string_view text) { return read_formula(text).value(); }

const Formula& electron_itself() {
  static const Formula f = helper_formula("e^-");
  return f;
}

bool fits(WideInteger n) {
  return n <= std::numeric_limits<std::int64_t>::max() && n >= -std::numeric_limits<std::int64_t>::max();
}

// The skeleton with the helpers behind it, on a side that has nothing yet.
Equation with_helpers(const Skeleton& s, std::span<const Helper> helpers) {
  std::vector<Species> left = s.left;
  std::vector<Species> right = s.right;
  std::vector<Species>& side = right.empty() ? right : left;
  for (const Helper h : helpers) side.push_back(helper_species(h));
  return Equation(std::move(left), std::move(right));
}

}  // namespace

const Formula& proton() {
  static const Formula f = helper_formula("H^+");
  return f;
}
const Formula& hydronium() {
  static const Formula f = helper_formula("H3O^+");
  return f;
}
const Formula& hydroxide() {
  static const Formula f = helper_formula("OH^-");
  return f;
}
const Formula& water_itself() {
  static const Formula f = helper_formula("H2O");
  return f;
}
Species helper_species(Helper helper) {
  const Formula& formula = helper == ion ? proton() : (helper == electron ? electron_itself() : water_itself());
  return {formula, std::nullopt, std::nullopt};
}

Skeleton skeleton_of(const Equation& equation) {
  Skeleton s;
  s.reversible = equation.reversible();
  s.text = equation.plain();
  for (std::size_t i = 0; i < equation.all().size(); ++i) {
    const Species& one = equation.all()[i];
    const auto is = [&one](const Formula& f) { return one.formula.same_composition(f); };
    if (one.formula.is_electron()) {
      s.electrons = true;
    } else if (is(hydronium())) {
      s.hydronium = true;
    } else if (!is(proton()) && !is(hydroxide()) && !is(water_itself())) {
      s.states = s.states && one.state.has_value();
      (equation.on_left(i) ? s.left : s.right).push_back({one.formula, std::nullopt, one.state});
    }
  }
  return s;
}

// In acid: every way to keep atoms and charge with these helpers, which may stand on either side.
std::optional<Attempt> attempt(const Skeleton& s, std::span<const Helper> helpers) {
  const Equation equation = with_helpers(s, helpers);
  const Conservation kept = conservation(equation);
  const auto basis = null_space(kept.rows, equation.all().size());
  if (!basis) return std::nullopt;
  Attempt out{basis->size(), std::nullopt, {}};
  if (basis->size() != 1) return out;
  // with_helpers puts them behind the left side, or, when nothing stands on the right, there.
  const IntegerVector& v = basis->front();
  const bool on_right = s.right.empty();
  const std::size_t helpers_at = s.left.size();
  Solved solved;
  for (std::size_t i = 0; i < s.size(); ++i) {
    solved.substances.push_back(v[i < s.left.size() ? i : i + helpers.size()]);
  }
  for (std::size_t h = 0; h < helpers.size(); ++h) {
    solved.helpers[helpers[h]] = on_right ? -v[helpers_at + h] : v[helpers_at + h];
  }
  const auto below_zero = std::ranges::count_if(solved.substances, [](WideInteger n) { return n < 0; });
  if (below_zero * 2 > static_cast<std::ptrdiff_t>(s.size())) {
    for (WideInteger& n : solved.substances) n = -n;
    for (WideInteger& n : solved.helpers) n = -n;
  }
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (solved.substances[i] > 0) continue;
    out.off_side += (out.off_side.empty() ? "" : " ") + s.at(i).formula.plain() +
                    (solved.substances[i] == 0 ? " takes no part as written."
                                               : " would have to stand on the other side of the arrow.");
  }
  if (out.off_side.empty()) out.solved = std::move(solved);
  return out;
}

// Writes a solution out, in acid or base: in base each H+ is water less a hydroxide, H3O+ is H+ and water.
std::optional<Equation> written(const Skeleton& s, const Solved& solved, Medium medium) {
  HelperCounts n = solved.helpers;
  const Formula* charged = &proton();
  if (medium == Medium::base) {
    n[water] += n[ion];
    n[ion] = -n[ion];
    charged = &hydroxide();
  } else if (s.hydronium) {
    n[water] -= n[ion];
    charged = &hydronium();
  }
  std::vector<Species> sides[2] = {s.left, s.right};
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (!fits(solved.substances[i])) return std::nullopt;
    const bool left = i < s.left.size();
    sides[left ? 0 : 1][left ? i : i - s.left.size()].coefficient = static_cast<std::int64_t>(solved.substances[i]);
  }
  for (const Helper h : {ion, electron, water}) {
    if (!fits(n[h])) return std::nullopt;
    if (n[h] == 0) continue;
    Species added;
    added.formula = h == ion ? *charged : (h == electron ? electron_itself() : water_itself());
    added.coefficient = static_cast<std::int64_t>(n[h] < 0 ? -n[h] : n[h]);
    if (s.states && h != electron) added.state = h == water ? State::liquid : State::aqueous;
    sides[n[h] > 0 ? 0 : 1].push_back(std::move(added));
  }
  if (sides[0].empty() || sides[1].empty()) return std::nullopt;
  return Equation(std::move(sides[0]), std::move(sides[1]), s.reversible);
}

}  // namespace sash::chem::inner
