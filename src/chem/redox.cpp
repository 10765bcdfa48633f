#include "chem/redox.h"

#include <algorithm>
#include <numeric>
#include <span>

#include "chem/inner/completing.h"
#include "chem/inner/conservation.h"
#include "chem/inner/integer_lattice.h"
#include "support/text.h"

namespace sash::chem {
namespace {

using inner::Attempt;
using inner::Helper;
using inner::hydronium;
using inner::hydroxide;
using inner::IntegerVector;
using inner::proton;
using inner::Skeleton;
using inner::Solved;
using inner::water_itself;
using inner::with_electrons;
using inner::without_electrons;

constexpr int hydrogen = 1;
constexpr int oxygen = 8;

Fault too_large(const Skeleton& s) {
  return Fault::of(Code::out_of_range,
                   "The coefficients of '" + s.text + "' grow beyond what can be computed exactly.");
}

// One of each substance, as a couple is written: water for the oxygen, the ion for the hydrogen, electrons for the
// charge.
std::optional<Solved> one_of_each(const Skeleton& s) {
  Fraction oxygens = 0;
  Fraction hydrogens = 0;
  Fraction charge = 0;
  Composition rest;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const Fraction sign = i < s.left.size() ? 1 : -1;
    const Formula& f = s.at(i).formula;
    charge = charge + sign * f.charge();
    for (const AtomCount& a : f.composition()) {
      if (a.what == Nuclide{oxygen, std::nullopt}) {
        oxygens = oxygens + sign * a.count;
      } else if (a.what == Nuclide{hydrogen, std::nullopt}) {
        hydrogens = hydrogens + sign * a.count;
      } else {
        add_atoms(rest, a.what, sign * a.count);
      }
    }
  }
  const bool even = std::ranges::all_of(rest, [](const AtomCount& a) { return a.count.zero(); });
  if (!even || !oxygens.whole() || !hydrogens.whole()) return std::nullopt;
  Solved solved;
  solved.substances.assign(s.size(), 1);
  solved.helpers[inner::water] = -oxygens.top();
  solved.helpers[inner::ion] = -hydrogens.top() + 2 * oxygens.top();
  solved.helpers[inner::electron] = charge.top() + solved.helpers[inner::ion];
  return solved;
}

// A half-reaction. Where water could also split by itself, as beside H2O2 -> O2, no more of it is taken than needed;
// where that leaves no electrons, as with O3 -> O2, one goes over into one.
std::optional<Solved> settle_half(const Skeleton& s) {
  const auto full = inner::attempt(s, with_electrons);
  if (!full || full->freedom <= 1) return full ? full->solved : std::nullopt;
  const auto dry = inner::attempt(s, inner::without_water);
  if (dry && dry->solved && dry->solved->helpers[inner::electron] != 0) return dry->solved;
  auto each = one_of_each(s);
  return each && each->helpers[inner::electron] != 0 ? each : std::nullopt;
}

// Substances that share an element other than O and H belong to one couple; those of O and H alone to one of their own.
std::vector<std::vector<std::size_t>> couples(const Skeleton& s) {
  std::vector<std::size_t> group(s.size());
  std::iota(group.begin(), group.end(), 0);
  const auto marks = [&s](std::size_t i) {
    std::vector<int> elements;
    for (const AtomCount& a : s.at(i).formula.composition()) {
      if (a.what.number != hydrogen && a.what.number != oxygen) elements.push_back(a.what.number);
    }
    if (elements.empty()) elements.push_back(0);
    return elements;
  };
  for (std::size_t i = 0; i < s.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const auto a = marks(i);
      const auto b = marks(j);
      if (std::ranges::find_first_of(a, b) == a.end()) continue;
      const std::size_t from = group[i];
      for (std::size_t& g : group) {
        if (g == from) g = group[j];
      }
    }
  }
  std::vector<std::vector<std::size_t>> out;
  for (std::size_t g = 0; g < s.size(); ++g) {
    std::vector<std::size_t> members;
    for (std::size_t i = 0; i < s.size(); ++i) {
      if (group[i] == g) members.push_back(i);
    }
    if (!members.empty()) out.push_back(std::move(members));
  }
  return out;
}

Skeleton part_of(const Skeleton& s, const std::vector<std::size_t>& members) {
  Skeleton part = s;
  part.left.clear();
  part.right.clear();
  for (const std::size_t i : members) (i < s.left.size() ? part.left : part.right).push_back(s.at(i));
  return part;
}

// Substances first, then the ions of the medium, then water.
Equation helpers_last(const Equation& equation) {
  const auto rank = [](const Species& one) {
    if (one.formula.same_composition(water_itself())) return 2;
    for (const Formula* ion_form : {&proton(), &hydronium(), &hydroxide()}) {
      if (one.formula.same_composition(*ion_form)) return 1;
    }
    return 0;
  };
  std::vector<Species> left(equation.left().begin(), equation.left().end());
  std::vector<Species> right(equation.right().begin(), equation.right().end());
  std::ranges::stable_sort(left, {}, rank);
  std::ranges::stable_sort(right, {}, rank);
  return Equation(std::move(left), std::move(right), equation.reversible());
}

Outcome<Completion> added_up(Equation one, Equation other) {
  Outcome<Equation> sum = combine_half_reactions(one, other);
  if (!sum) return sum.fault();
  Completion out;
  out.status = BalanceStatus::balanced;
  out.equation = helpers_last(*sum);
  out.halves = {std::move(one), std::move(other)};
  return out;
}

// Two couples whose proportion only the electrons fix.
std::optional<Completion> by_couples(const Skeleton& s, Medium medium) {
  const auto groups = couples(s);
  if (groups.size() != 2) return std::nullopt;
  std::vector<Equation> halves;
  for (const auto& members : groups) {
    const Skeleton part = part_of(s, members);
    const auto solved = settle_half(part);
    if (!solved || solved->helpers[inner::electron] == 0) return std::nullopt;
    auto half = inner::written(part, *solved, medium);
    if (!half) return std::nullopt;
    halves.push_back(*std::move(half));
  }
  auto sum = added_up(std::move(halves[0]), std::move(halves[1]));
  if (!sum) return std::nullopt;
  return std::move(sum).value();
}

// Independent reactions when several are possible: each with as few substances as will do.
void list_solutions(const Skeleton& s, std::span<const Helper> helpers, Medium medium, Completion& out) {
  std::vector<Species> left = s.left;
  std::vector<Species> right = s.right;
  const std::size_t n = helpers.size();
  for (auto* side : {&left, &right}) {
    for (const Helper h : helpers) side->push_back(inner::helper_species(h));
  }
  const Equation both(left, right);
  auto rays = inner::positive_rays(inner::conservation(both).rows, both.all().size());
  if (!rays) return;
  const std::size_t right_at = s.left.size() + n;
  const auto substance = [&](const IntegerVector& ray, std::size_t i) { return ray[i < s.left.size() ? i : i + n]; };
  std::erase_if(*rays, [&](const IntegerVector& ray) {
    for (std::size_t i = 0; i < s.size(); ++i) {
      if (substance(ray, i) != 0) return false;
    }
    return true;
  });
  auto chosen = inner::independent_among(*std::move(rays));
  if (!chosen) return;
  for (const IntegerVector& ray : *chosen) {
    Skeleton part = s;
    part.left.clear();
    part.right.clear();
    Solved solved;
    for (std::size_t i = 0; i < s.size(); ++i) {
      if (substance(ray, i) == 0) continue;
      (i < s.left.size() ? part.left : part.right).push_back(s.at(i));
      solved.substances.push_back(substance(ray, i));
    }
    for (std::size_t h = 0; h < n; ++h) {
      solved.helpers[helpers[h]] = ray[s.left.size() + h] - ray[right_at + s.right.size() + h];
    }
    if (auto equation = inner::written(part, solved, medium)) out.solutions.push_back(*std::move(equation));
  }
}

std::string why_not_unique(const Completion& c) {
  std::vector<std::string> reactions;
  for (const Equation& e : c.solutions) reactions.push_back(e.plain());
  return std::to_string(reactions.size()) +
         " independent reactions are mixed here, in any proportion: " + join(reactions, "; ") +
         ". Write the two half-reactions apart to say which electrons go where.";
}

// Which elements keep it from balancing, or which substances would have to change sides.
std::string why_impossible(const Skeleton& s, const Attempt& tried, Medium medium) {
  const std::string even = "Even with water, " + std::string(medium == Medium::acid ? "H^+" : "OH^-") +
                           " and electrons it does not balance. ";
  std::vector<std::string> lonely;
  const auto note_lonely = [&lonely](const std::vector<Species>& side, const std::vector<Species>& other,
                                     const char* which) {
    for (const Species& one : side) {
      for (const AtomCount& a : one.formula.composition()) {
        const bool plenty = a.what == Nuclide{hydrogen, std::nullopt} || a.what == Nuclide{oxygen, std::nullopt};
        const bool faced =
            std::ranges::any_of(other, [&a](const Species& o) { return !o.formula.count_of(a.what).zero(); });
        const std::string said = symbol_of(a.what) + " stands only on the " + which;
        if (!plenty && !faced && std::ranges::find(lonely, said) == lonely.end()) lonely.push_back(said);
      }
    }
  };
  note_lonely(s.left, s.right, "left");
  note_lonely(s.right, s.left, "right");
  if (!lonely.empty()) return even + join(lonely, "; ") + ".";
  if (!tried.off_side.empty()) return even + tried.off_side;
  return even + "No coefficients keep every kind of atom at once; a substance is missing or wrong.";
}

Outcome<Completion> settle(const Skeleton& s, Medium medium, bool half) {
  auto tried = inner::attempt(s, without_electrons);
  if (!tried) return too_large(s);
  std::span<const Helper> helpers = without_electrons;
  std::optional<Solved> solved = half ? std::nullopt : tried->solved;
  if (half || tried->freedom == 0) {
    helpers = with_electrons;
    tried = inner::attempt(s, with_electrons);
    if (!tried) return too_large(s);
    solved = settle_half(s);
  }
  Completion out;
  if (solved) {
    out.equation = inner::written(s, *solved, medium);
    if (!out.equation) return too_large(s);
    out.status = BalanceStatus::balanced;
    out.half_reaction = solved->helpers[inner::electron] != 0;
    return out;
  }
  if (tried->freedom > 1 && !half) {
    if (auto couple = by_couples(s, medium)) return *std::move(couple);
  }
  if (tried->freedom > 1) {
    list_solutions(s, helpers, medium, out);
    if (out.solutions.size() > 1) {
      out.status = BalanceStatus::not_unique;
      out.why = why_not_unique(out);
      return out;
    }
  }
  out.why = why_impossible(s, *tried, medium);
  return out;
}

// Already complete: nothing to add, and no ion of the wrong medium to replace.
std::optional<Equation> complete_already(const Equation& equation, Medium medium) {
  const bool foreign = std::ranges::any_of(equation.all(), [medium](const Species& one) {
    const Formula& f = one.formula;
    return medium == Medium::acid ? f.same_composition(hydroxide())
                                  : f.same_composition(proton()) || f.same_composition(hydronium());
  });
  if (foreign) return std::nullopt;
  const auto found = balance(equation);
  if (!found || found->status != BalanceStatus::balanced) return std::nullopt;
  return equation.with(found->coefficients);
}

bool only_oxygen_and_hydrogen(const Skeleton& s) {
  for (std::size_t i = 0; i < s.size(); ++i) {
    for (const AtomCount& a : s.at(i).formula.composition()) {
      if (a.what.number != hydrogen && a.what.number != oxygen) return false;
    }
  }
  return true;
}

Outcome<Completion> complete_as(const Equation& equation, Medium medium, bool half) {
  const Skeleton s = inner::skeleton_of(equation);
  if (s.size() == 0) {
    return Fault::of(Code::wrong_use,
                     "'" + s.text + "' holds nothing but water, its ions and electrons; there is nothing to complete.",
                     s.text);
  }
  // O3 -> O2 keeps its atoms as it stands; asked to complete such a couple, a chemist wants its electrons. With water
  // or ions typed it is a reaction: 2 H2O2 -> O2 + 2 H2O.
  const bool helped = equation.all().size() > s.size();
  const bool couple = !helped && only_oxygen_and_hydrogen(s);
  half = half || couple || s.electrons;
  if (auto done = complete_already(equation, medium); done && (s.electrons || !half)) {
    Completion out;
    out.status = BalanceStatus::balanced;
    out.equation = *std::move(done);
    out.half_reaction = s.electrons;
    return out;
  }
  return settle(s, medium, half);
}

}  // namespace

std::string_view medium_text(Medium medium) { return medium == Medium::acid ? "acid" : "base"; }

Outcome<Completion> complete(const Equation& equation, Medium medium) { return complete_as(equation, medium, false); }

Outcome<Completion> complete_halves(const Equation& one, const Equation& other, Medium medium) {
  std::vector<Equation> halves;
  for (const Equation* each : {&one, &other}) {
    Outcome<Completion> half = complete_as(*each, medium, true);
    if (!half) return half.fault();
    if (!half->equation) {
      return Fault::of(Code::impossible, "The half-reaction '" + each->plain() + "' cannot be completed. " + half->why,
                       each->plain());
    }
    halves.push_back(*std::move(half->equation));
  }
  return added_up(std::move(halves[0]), std::move(halves[1]));
}

}  // namespace sash::chem
