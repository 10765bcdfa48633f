#include "chem/quench.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "chem/inner/table.h"
#include "chem/inner/wording.h"
#include "chem/molar_mass.h"
#include "embedded/equivalents.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::chem {
namespace {

struct Row {
  Formula formula;
  Equivalents equivalents;
};

QuenchRole role_in(std::string_view cell) {
  for (const auto role : {QuenchRole::acid, QuenchRole::base, QuenchRole::oxidiser, QuenchRole::reducer}) {
    if (role_text(role) == cell) return role;
  }
  promise(false, "a role in the table is one of four words");
  return QuenchRole::acid;
}

std::vector<Row> read_rows() {
  std::vector<Row> rows;
  inner::each_row(embedded::equivalents, [&rows](inner::TableRow cells) {
    auto formula = read_formula(cells[0]);
    promise(formula.ok(), "the formulas in our tables read");
    rows.push_back({*std::move(formula),
                    {role_in(cells[1]), inner::cell_number(cells[2]), std::string(cells[3]), std::string(cells[4])}});
  });
  return rows;
}

bool against(QuenchRole a, QuenchRole b) {
  const auto pair = [&](QuenchRole x, QuenchRole y) { return (a == x && b == y) || (a == y && b == x); };
  return pair(QuenchRole::acid, QuenchRole::base) || pair(QuenchRole::oxidiser, QuenchRole::reducer);
}

/// The part of a hydrate that acts: its first part without the water.
bool acts_as(const Formula& what, const Formula& known) {
  if (what.same_composition(known)) return true;
  if (what.parts().size() < 2) return false;
  Composition main = what.parts().front().composition;
  for (AtomCount& atoms : main) atoms.count = atoms.count * what.parts().front().multiplier;
  return hill_text(main, what.charge()) == hill_text(known.composition(), known.charge());
}

std::vector<Equivalents> ways_of(const Formula& what, std::string_view way) {
  auto ways = equivalents_of(what);
  if (!way.empty()) std::erase_if(ways, [&](const Equivalents& e) { return e.way.find(way) == std::string::npos; });
  return ways;
}

Fault unknown(const Formula& what, std::string_view way) {
  std::string sentence = "How " + what.unicode() + " is neutralised or destroyed is not tabulated";
  if (!way.empty()) sentence += " for \"" + std::string(way) + "\"";
  return Fault::of(Code::not_found, sentence + "; give the equation.", what.plain());
}

std::string plural(const std::vector<Equivalents>& ways, const Equivalents& taken, const Formula& what) {
  std::size_t alike = 0;
  for (const Equivalents& e : ways) alike += e.role == taken.role && e.count != taken.count;
  if (alike == 0) return {};
  return what.unicode() + " is taken to go " + taken.way + ".";
}

}  // namespace

std::string_view role_text(QuenchRole role) {
  switch (role) {
    case QuenchRole::acid:
      return "acid";
    case QuenchRole::base:
      return "base";
    case QuenchRole::oxidiser:
      return "oxidiser";
    case QuenchRole::reducer:
      return "reducer";
  }
  return "";
}

std::vector<Equivalents> equivalents_of(const Formula& what) {
  static const std::vector<Row> rows = read_rows();
  std::vector<Equivalents> found;
  for (const Row& row : rows) {
    if (acts_as(what, row.formula)) found.push_back(row.equivalents);
  }
  return found;
}

Outcome<Quench> quench(const Formula& target, double mol, const Formula& agent, std::string_view target_way,
                       std::string_view agent_way) {
  if (!(mol >= 0) || !std::isfinite(mol)) {
    return Fault::of(Code::out_of_range, "The amount to destroy must be 0 or above.");
  }
  const auto targets = ways_of(target, target_way), agents = ways_of(agent, agent_way);
  if (targets.empty()) return unknown(target, target_way);
  if (agents.empty()) return unknown(agent, agent_way);
  Quench best;
  for (const Equivalents& t : targets) {
    for (const Equivalents& a : agents) {
      if (!against(t.role, a.role) || t.count / a.count <= best.agent_per_target) continue;
      best.target = t;
      best.agent = a;
      best.agent_per_target = t.count / a.count;
    }
  }
  if (best.agent_per_target == 0) {
    return Fault::of(Code::impossible, agent.unicode() + " does not destroy " + target.unicode() + ": one is " +
                                           std::string(role_text(agents.front().role)) + ", the other " +
                                           std::string(role_text(targets.front().role)) + ".");
  }
  const auto mass = molar_mass(agent);
  if (!mass) return mass.fault();
  best.needed_mol = mol * best.agent_per_target;
  best.needed_grams = best.needed_mol * mass->value;
  const std::string first = plural(targets, best.target, target), second = plural(agents, best.agent, agent);
  best.assumption = first + (first.empty() || second.empty() ? "" : " ") + second;
  return best;
}

Outcome<QuenchMargin> margin_of(const Quench& need, double target_mol, double agent_grams) {
  if (!(agent_grams >= 0) || !std::isfinite(agent_grams)) {
    return Fault::of(Code::out_of_range, "The mass of what is added must be 0 or above.");
  }
  QuenchMargin margin;
  margin.times = need.needed_grams > 0 ? agent_grams / need.needed_grams : std::numeric_limits<double>::infinity();
  margin.enough = agent_grams >= need.needed_grams;
  margin.left_grams = std::max(0.0, agent_grams - need.needed_grams);
  margin.missing_grams = std::max(0.0, need.needed_grams - agent_grams);
  margin.target_left = margin.enough ? 0 : target_mol * (1 - margin.times);
  return margin;
}

}  // namespace sash::chem
