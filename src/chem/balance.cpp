#include "chem/balance.h"

#include <algorithm>
#include <limits>

#include "chem/inner/conservation.h"
#include "chem/inner/integer_lattice.h"
#include "support/text.h"

namespace sash::chem {
namespace {

using inner::Conservation;
using inner::IntegerVector;

Fault too_large(const Equation& equation) {
  return Fault::of(Code::out_of_range,
                   "The coefficients of '" + equation.plain() + "' grow beyond what can be computed exactly.");
}

std::optional<Coefficients> to_coefficients(const IntegerVector& v) {
  Coefficients out;
  for (const WideInteger n : v) {
    if (n > std::numeric_limits<std::int64_t>::max() || n < -std::numeric_limits<std::int64_t>::max()) {
      return std::nullopt;
    }
    out.push_back(static_cast<std::int64_t>(n));
  }
  return out;
}

std::string and_list(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) out += i + 1 == words.size() ? " and " : ", ";
    out += words[i];
  }
  return out;
}

std::vector<std::string> names_of(const Equation& equation, const std::vector<std::size_t>& which) {
  std::vector<std::string> names;
  for (const std::size_t i : which) names.push_back(equation.all()[i].formula.plain());
  return names;
}

// The equation of one solution, its idle species left out and those of negative coefficient moved across.
std::string reaction_text(const Equation& equation, const Coefficients& coefficients) {
  std::vector<Species> sides[2];
  for (std::size_t i = 0; i < coefficients.size(); ++i) {
    if (coefficients[i] == 0) continue;
    Species s = equation.all()[i];
    s.coefficient = coefficients[i] < 0 ? -coefficients[i] : coefficients[i];
    sides[equation.on_left(i) == (coefficients[i] > 0) ? 0 : 1].push_back(std::move(s));
  }
  if (sides[0].empty() || sides[1].empty()) return "";
  return Equation(std::move(sides[0]), std::move(sides[1]), equation.reversible()).plain();
}

// Kinds of atom that stand on one side only.
std::string one_sided(const Equation& equation, const Conservation& kept) {
  std::vector<std::string> lonely[2];
  for (std::size_t row = 0; row < kept.rows.size(); ++row) {
    if (kept.is_charge(row)) continue;
    bool on[2] = {false, false};
    for (std::size_t i = 0; i < equation.all().size(); ++i) {
      if (!kept.rows[row][i].zero()) on[equation.on_left(i) ? 0 : 1] = true;
    }
    if (on[0] != on[1]) lonely[on[0] ? 0 : 1].push_back(kept.names[row]);
  }
  std::string out;
  for (const int side : {0, 1}) {
    if (lonely[side].empty()) continue;
    if (!out.empty()) out += "; ";
    out += and_list(lonely[side]);
    out += lonely[side].size() == 1 ? " stands only on the " : " stand only on the ";
    out += side == 0 ? "left" : "right";
  }
  return out.empty() ? out : out + ".";
}

// Which single kind of atom, left uncounted, would let the rest balance.
std::string odd_one_out(const Equation& equation, const Conservation& kept) {
  std::string out;
  for (std::size_t row = 0; row < kept.rows.size(); ++row) {
    inner::Matrix others = kept.rows;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(row));
    const auto basis = inner::null_space(std::move(others), equation.all().size());
    if (!basis || basis->size() != 1) continue;
    const auto& v = basis->front();
    if (!std::ranges::all_of(v, [](WideInteger n) { return n > 0; })) continue;
    const auto coefficients = to_coefficients(v);
    if (!coefficients) continue;
    const auto checked = verify(equation.with(*coefficients));
    if (!checked) continue;
    const auto tally = std::ranges::find(checked->tallies, kept.names[row], &Tally::what);
    out += " Without " + kept.names[row] + " it would balance as " + equation.with(*coefficients).plain() + ", with " +
           tally->what + " at " + tally->left.decimal_text() + " on the left and " + tally->right.decimal_text() +
           " on the right.";
  }
  return out;
}

std::string why_nothing(const Equation& equation, const Conservation& kept) {
  const std::string lonely = one_sided(equation, kept);
  if (!lonely.empty()) return lonely;
  const std::string odd = odd_one_out(equation, kept);
  if (!odd.empty())
    return "Not every kind of atom" + std::string(kept.has_charge() ? " and the charge" : "") +
           " can be kept at once." + odd;
  return "No coefficients keep " + and_list(kept.names) + " all at once; a species is missing or wrong.";
}

std::string why_idle(const Equation& equation, const Conservation& kept, const std::vector<std::size_t>& idle) {
  std::string out = and_list(names_of(equation, idle)) +
                    " would need the coefficient 0: " + (idle.size() == 1 ? "it takes" : "they take") +
                    " no part as written.";
  const std::string lonely = one_sided(equation, kept);
  return lonely.empty() ? out : out + " " + lonely;
}

Balance settle_single(const Equation& equation, const Conservation& kept, Coefficients v) {
  Balance result;
  const auto negatives = std::ranges::count_if(v, [](std::int64_t n) { return n < 0; });
  if (negatives * 2 > static_cast<std::ptrdiff_t>(v.size())) {
    for (std::int64_t& n : v) n = -n;
  }
  for (std::size_t i = 0; i < v.size(); ++i) {
    if (v[i] == 0) result.idle.push_back(i);
    if (v[i] < 0) result.wrong_side.push_back(i);
  }
  result.solutions = {v};
  if (result.idle.empty() && result.wrong_side.empty()) {
    result.status = BalanceStatus::balanced;
    result.balanced = equation.with(v).plain();
    result.coefficients = std::move(v);
    return result;
  }
  if (!result.wrong_side.empty()) {
    result.why =
        and_list(names_of(equation, result.wrong_side)) + " would have to stand on the other side of the arrow";
    const std::string as = reaction_text(equation, v);
    result.why += as.empty() ? "." : ", as in " + as + ".";
  }
  if (!result.idle.empty()) {
    if (!result.why.empty()) result.why += ' ';
    result.why += why_idle(equation, kept, result.idle);
  }
  return result;
}

Outcome<Balance> settle_several(const Equation& equation, const Conservation& kept,
                                const std::vector<IntegerVector>& basis) {
  Balance result;
  auto rays = inner::positive_rays(kept.rows, equation.all().size());
  std::vector<IntegerVector> chosen = basis;
  if (rays) {
    for (std::size_t i = 0; i < equation.all().size(); ++i) {
      if (std::ranges::none_of(*rays, [i](const IntegerVector& ray) { return ray[i] > 0; })) result.idle.push_back(i);
    }
    auto independent = inner::independent_among(*std::move(rays));
    if (independent) chosen = *std::move(independent);
  }
  std::vector<std::string> reactions;
  for (const IntegerVector& v : chosen) {
    auto coefficients = to_coefficients(v);
    if (!coefficients) return too_large(equation);
    reactions.push_back(reaction_text(equation, *coefficients));
    result.solutions.push_back(*std::move(coefficients));
  }
  std::erase(reactions, "");
  if (!result.idle.empty()) {
    result.why = why_idle(equation, kept, result.idle);
    if (!reactions.empty()) result.why += " The rest can react as " + and_list(reactions) + ".";
    return result;
  }
  result.status = BalanceStatus::not_unique;
  result.why = std::to_string(basis.size()) +
               " independent reactions are mixed here, in any proportion: " + join(reactions, "; ") + ".";
  return result;
}

}  // namespace

std::string_view status_text(BalanceStatus status) {
  switch (status) {
    case BalanceStatus::balanced:
      return "balanced";
    case BalanceStatus::impossible:
      return "impossible";
    case BalanceStatus::not_unique:
      return "not unique";
  }
  return "";
}

Outcome<Balance> balance(const Equation& equation) {
  const Conservation kept = inner::conservation(equation);
  const auto basis = inner::null_space(kept.rows, equation.all().size());
  if (!basis) return too_large(equation);
  if (basis->empty()) {
    Balance result;
    result.why = why_nothing(equation, kept);
    return result;
  }
  if (basis->size() > 1) return settle_several(equation, kept, *basis);
  auto only = to_coefficients(basis->front());
  if (!only) return too_large(equation);
  return settle_single(equation, kept, *std::move(only));
}

Outcome<Verification> verify(const Equation& equation) {
  const Conservation kept = inner::conservation(equation);
  Verification result;
  std::vector<std::string> off;
  for (std::size_t row = 0; row < kept.rows.size(); ++row) {
    Tally tally{kept.names[row], 0, 0};
    for (std::size_t i = 0; i < equation.all().size(); ++i) {
      const Fraction n = kept.rows[row][i] * equation.all()[i].coefficient.value_or(1);
      if (equation.on_left(i)) {
        tally.left = tally.left + n;
      } else {
        tally.right = tally.right - n;
      }
    }
    if (tally.left.lost() || tally.right.lost()) return too_large(equation);
    if (!tally.even()) {
      off.push_back(tally.what + ": " + tally.left.decimal_text() + " on the left, " + tally.right.decimal_text() +
                    " on the right");
    }
    result.tallies.push_back(std::move(tally));
  }
  result.balanced = off.empty();
  if (!off.empty()) result.why = join(off, "; ") + ".";
  return result;
}

}  // namespace sash::chem
