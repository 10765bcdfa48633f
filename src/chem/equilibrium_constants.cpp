#include "chem/equilibrium_constants.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "chem/gas.h"
#include "chem/inner/table.h"
#include "embedded/equilibrium_constants.h"
#include "quantity/said.h"
#include "support/check.h"

namespace sash::chem {
namespace {

struct Table {
  std::vector<EquilibriumConstant> rows;
  std::vector<Formula> components;
};

bool holds(std::span<const Formula> list, const Formula& what) {
  return std::any_of(list.begin(), list.end(), [&](const Formula& f) { return f.same_composition(what); });
}

const Formula& water() {
  static const Formula formula = *read_formula("H2O");
  return formula;
}
const Formula& proton() {
  static const Formula formula = *read_formula("H^+");
  return formula;
}
const Formula& hydroxide() {
  static const Formula formula = *read_formula("OH^-");
  return formula;
}

/// Components are what no row of the solver's set makes: the species it only uses.
std::vector<Formula> find_components(std::span<const EquilibriumConstant> rows) {
  std::vector<Formula> made, used;
  for (const EquilibriumConstant& row : rows) {
    if (!row.for_solver) continue;
    const bool dissolves = row.equation.all().front().state == State::solid;
    for (std::size_t i = 0; i < row.equation.all().size(); ++i) {
      const Species& s = row.equation.all()[i];
      if (s.state == State::solid || s.formula.same_composition(water())) continue;
      const bool product = !dissolves && !row.equation.on_left(i);
      if (product && !s.formula.same_composition(proton()) && !holds(made, s.formula)) made.push_back(s.formula);
      if (!product && !holds(used, s.formula)) used.push_back(s.formula);
    }
  }
  std::vector<Formula> components{proton()};
  for (const Formula& f : used) {
    if (!holds(made, f) && !holds(components, f)) components.push_back(f);
  }
  return components;
}

Table read_table() {
  Table table;
  inner::each_row(embedded::equilibrium_constants, [&table](inner::TableRow cells) {
    auto equation = read_equation(cells[0]);
    promise(equation.ok(), "the equations in our tables read");
    EquilibriumConstant row{*std::move(equation), 0, 0, std::nullopt, {}, false, {}};
    const bool logarithm = !cells[1].empty();
    const double printed = inner::cell_number(cells[logarithm ? 1 : 2]);
    const double half_unit = quantity::reach_of(
        quantity::Said{printed, {}, std::string(cells[logarithm ? 1 : 2]), quantity::Hedge::exact, true});
    row.log_k = logarithm ? printed : std::log10(printed);
    row.rounding = logarithm ? half_unit : half_unit / printed / std::numbers::ln10;
    if (!cells[3].empty()) row.delta_h = inner::cell_number(cells[3]);
    row.set = cells[4];
    row.for_solver = cells[5] == "solver";
    row.source = cells[6];
    table.rows.push_back(std::move(row));
  });
  table.components = find_components(table.rows);
  return table;
}

const Table& table() {
  static const Table read = read_table();
  return read;
}

double count_of(const Species& s) { return s.coefficient.value_or(Fraction(1)).number(); }

/// Every species of `a` stands in `b` on the same side with the same count.
bool all_in(const Equation& a, const Equation& b) {
  for (std::size_t i = 0; i < a.all().size(); ++i) {
    const Species& s = a.all()[i];
    const bool solid = s.state == State::solid;
    bool found = false;
    for (std::size_t j = 0; j < b.all().size(); ++j) {
      const Species& t = b.all()[j];
      found = found || (a.on_left(i) == b.on_left(j) && solid == (t.state == State::solid) &&
                        count_of(s) == count_of(t) && s.formula.same_composition(t.formula));
    }
    if (!found) return false;
  }
  return true;
}

/// Whether an equation can be added: all its dissolved species but one are known.
bool ready(const ChemicalSystem& system, const Equation& equation) {
  std::size_t fresh = 0;
  for (const Species& s : equation.all()) {
    if (s.formula.same_composition(water())) continue;
    fresh += s.state == State::solid || !system.find(s.formula);
  }
  return fresh == 1;
}

bool pairs_an_alkali_ion(const Formula& made) {
  constexpr int lithium = 3, sodium = 11, potassium = 19;
  const auto there = [&made](int number) { return !made.count_of(Nuclide{number, std::nullopt}).zero(); };
  return there(lithium) || there(sodium) || there(potassium);
}

const Formula* made_by(const ChemicalSystem& system, const Equation& equation) {
  for (const Species& s : equation.all()) {
    if (s.formula.same_composition(water())) continue;
    if (s.state == State::solid || !system.find(s.formula)) return &s.formula;
  }
  return nullptr;
}

}  // namespace

double EquilibriumConstant::log_k_at(double celsius) const {
  if (!delta_h) return log_k;
  constexpr double reference = zero_celsius + 25;
  const double kelvin = zero_celsius + celsius;
  return log_k + *delta_h * 1000 / gas_constant * (1 / reference - 1 / kelvin) / std::numbers::ln10;
}

std::span<const EquilibriumConstant> equilibrium_constants() { return table().rows; }
std::span<const Formula> known_components() { return table().components; }

std::vector<const EquilibriumConstant*> constants_of(const Equation& equation) {
  std::vector<const EquilibriumConstant*> found;
  for (const EquilibriumConstant& row : table().rows) {
    if (row.equation.all().size() == equation.all().size() && all_in(equation, row.equation)) found.push_back(&row);
  }
  return found;
}

double log_k_spread(const ChemicalSystem& system, std::size_t constant, double celsius) {
  constexpr double too_far = 1;
  const TyingConstant& own = system.constants()[constant];
  double low = 0, high = 0, rounding = 0;
  const auto known = [&system](const Species& s) {
    return s.formula.same_composition(water()) ||
           (s.state == State::solid ? system.find_solid(s.formula) : system.find(s.formula)).has_value();
  };
  // A solid and what of it is dissolved as such have one formula.
  const auto state_of_made = [&own](const Equation& equation) {
    const auto made = equation.find(own.made);
    return made ? equation.all()[*made].state : std::nullopt;
  };
  const auto own_state = state_of_made(own.equation);
  for (const EquilibriumConstant& row : table().rows) {
    const auto made = row.equation.find(own.made);
    if (!made || !std::ranges::all_of(row.equation.all(), known) || state_of_made(row.equation) != own_state) continue;
    const auto ours = system.log_k(row.equation);
    if (!ours) continue;
    // What another source says of the substance, as if all else were as here.
    const double off = row.log_k_at(celsius) - *ours;
    if (std::fabs(off) > too_far) continue;
    low = std::min(low, off);
    high = std::max(high, off);
    if (row.for_solver) rounding = std::max(rounding, row.rounding);
  }
  return std::max((high - low) / 2, rounding) / std::numbers::sqrt3;
}

Outcome<ChemicalSystem> system_of(std::span<const Formula> components, const SystemChoice& choice) {
  std::vector<Formula> all{proton()};
  for (const Formula& f : components) {
    if (!holds(known_components(), f)) {
      return Fault::of(Code::not_found, "No equilibrium constant is tabulated for " + f.unicode() + ".", f.plain());
    }
    if (!holds(all, f)) all.push_back(f);
  }
  auto system = ChemicalSystem::of(all);
  if (!system) return system;
  // Rows may build on species of other rows: go round until nothing more can be added.
  std::vector<bool> done(table().rows.size(), false);
  for (bool more = true; more;) {
    more = false;
    for (std::size_t i = 0; i < table().rows.size(); ++i) {
      const EquilibriumConstant& row = table().rows[i];
      if (done[i] || !row.for_solver || !ready(*system, row.equation)) continue;
      done[i] = true;
      const Formula& made = *made_by(*system, row.equation);
      const bool solid = row.equation.all().front().state == State::solid;
      const bool water_ion = made.same_composition(hydroxide());
      if (holds(choice.without, made) || (solid && !choice.solids)) continue;
      if (!solid && !choice.alkali_pairs && pairs_an_alkali_ion(made)) continue;
      if (!choice.only.empty() && !water_ion && !holds(choice.only, made)) continue;
      if (solid ? system->find_solid(made).has_value() : system->find(made).has_value()) continue;
      const auto added = system->add(row.equation, row.log_k_at(choice.celsius));
      if (!added) return added.fault();
      more = true;
    }
  }
  return system;
}

}  // namespace sash::chem
