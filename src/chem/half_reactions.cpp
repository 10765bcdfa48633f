// Adding half-reactions so that their electrons cancel.

#include <algorithm>

#include "chem/balance.h"

namespace sash::chem {
namespace {

struct Half {
  Coefficients coefficients;
  std::int64_t electrons_given = 0;  // on the right; negative when taken
};

Outcome<Half> settle_half(const Equation& equation) {
  const Outcome<Balance> found = balance(equation);
  if (!found) return found.fault();
  if (found->status != BalanceStatus::balanced) {
    return Fault::of(Code::impossible, "The half-reaction '" + equation.plain() + "' does not balance. " + found->why);
  }
  Half half{found->coefficients, 0};
  for (std::size_t i = 0; i < half.coefficients.size(); ++i) {
    if (!equation.all()[i].formula.is_electron()) continue;
    half.electrons_given += equation.on_left(i) ? -half.coefficients[i] : half.coefficients[i];
  }
  if (half.electrons_given == 0) {
    return Fault::of(Code::impossible,
                     "'" + equation.plain() + "' shows no electrons; write e^- on the side where they stand.");
  }
  return half;
}

// Net amounts of each species: positive formed, negative used up.
struct Net {
  Species species;
  Fraction amount;
};

void pour(const Equation& equation, const Coefficients& coefficients, Fraction times, std::vector<Net>& into) {
  for (std::size_t i = 0; i < coefficients.size(); ++i) {
    const Species& s = equation.all()[i];
    if (s.formula.is_electron()) continue;
    const Fraction amount = times * coefficients[i] * (equation.on_left(i) ? -1 : 1);
    const auto same = std::ranges::find_if(into, [&s](const Net& n) {
      return n.species.formula.same_composition(s.formula) && n.species.state == s.state;
    });
    if (same == into.end()) {
      into.push_back({s, amount});
    } else {
      same->amount = same->amount + amount;
    }
  }
}

}  // namespace

Outcome<Equation> combine_half_reactions(const Equation& one, const Equation& other) {
  const Outcome<Half> first = settle_half(one);
  if (!first) return first.fault();
  const Outcome<Half> second = settle_half(other);
  if (!second) return second.fault();
  if ((first->electrons_given > 0) == (second->electrons_given > 0)) {
    return Fault::of(Code::impossible, std::string("Both half-reactions ") +
                                           (first->electrons_given > 0 ? "give" : "take") +
                                           " electrons; turn one of them round.");
  }
  const auto size = [](std::int64_t n) { return n < 0 ? -n : n; };
  const auto common = common_multiple(first->electrons_given, second->electrons_given);
  std::vector<Net> net;
  pour(one, first->coefficients, Fraction::ratio(*common, size(first->electrons_given)), net);
  pour(other, second->coefficients, Fraction::ratio(*common, size(second->electrons_given)), net);

  WideInteger shared = 0;
  for (const Net& n : net) {
    if (n.amount.lost()) return Fault::of(Code::out_of_range, "The half-reactions grow too large to add exactly.");
    shared = common_divisor(shared, n.amount.top());
  }
  std::vector<Species> left;
  std::vector<Species> right;
  for (Net& n : net) {
    if (n.amount.zero()) continue;
    const bool used = n.amount.sign() < 0;
    n.species.coefficient = (used ? -n.amount : n.amount) / Fraction::ratio(shared, 1);
    (used ? left : right).push_back(std::move(n.species));
  }
  if (left.empty() || right.empty()) {
    return Fault::of(Code::impossible, "The half-reactions cancel each other: nothing is left.");
  }
  return Equation(std::move(left), std::move(right));
}

}  // namespace sash::chem
