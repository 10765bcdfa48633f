#include "chem/thermochemistry.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "chem/inner/substance_rows.h"
#include "chem/inner/table.h"
#include "chem/inner/wording.h"
#include "chem/molar_mass.h"
#include "embedded/material_heat_capacities.h"
#include "embedded/neutralisation_enthalpies.h"
#include "embedded/phase_changes.h"
#include "embedded/solution_enthalpies.h"
#include "embedded/thermochemistry.h"
#include "embedded/water_heat_capacity.h"

namespace sash::chem {
namespace {

using inner::shown;

/// Half of the last digit written, as a standard uncertainty.
double last_digit_spread(std::string_view cell) {
  const auto point = cell.find('.');
  const double digit =
      point == std::string_view::npos ? 1 : std::pow(10, -static_cast<double>(cell.size() - point - 1));
  return digit / 2 / std::numbers::sqrt3;
}

std::optional<Tabulated> tabulated(std::string_view cell, std::string_view source) {
  if (cell.empty()) return std::nullopt;
  return Tabulated{inner::cell_number(cell), last_digit_spread(cell), std::string(source)};
}

std::optional<double> optional_number(std::string_view cell) {
  if (cell.empty()) return std::nullopt;
  return inner::cell_number(cell);
}

State state_in(std::string_view cell) {
  if (cell == "solid") return State::solid;
  if (cell == "liquid") return State::liquid;
  if (cell == "gas") return State::gas;
  promise(cell == "aqueous", "a state in a table is one of four words");
  return State::aqueous;
}

struct Row {
  Formula formula;
  State state;
  std::optional<Tabulated> enthalpy, heat_capacity;
};

Formula table_formula(std::string_view cell) {
  auto formula = read_formula(cell);
  promise(formula.ok(), "the formulas in our tables read");
  return *std::move(formula);
}

std::vector<Row> read_formation() {
  std::vector<Row> rows;
  inner::each_row(embedded::thermochemistry, [&rows](inner::TableRow cells) {
    rows.push_back(
        {table_formula(cells[0]), state_in(cells[1]), tabulated(cells[2], cells[4]), tabulated(cells[3], cells[4])});
  });
  return rows;
}

std::vector<Row> read_solution() {
  std::vector<Row> rows;
  inner::each_row(embedded::solution_enthalpies, [&rows](inner::TableRow cells) {
    rows.push_back({table_formula(cells[0]), state_in(cells[1]), tabulated(cells[2], cells[3]), std::nullopt});
  });
  return rows;
}

using Column = std::optional<Tabulated> Row::*;

/// The one figure in a column for a formula in a state, or in its only state.
Outcome<Tabulated> look_up(std::span<const Row> rows, Column column, const Formula& what, std::optional<State> state,
                           std::string_view quantity) {
  std::vector<const Row*> found;
  for (const Row& row : rows) {
    if ((row.*column) && (!state || row.state == *state) && row.formula.same_composition(what)) found.push_back(&row);
  }
  // Isomers share a composition: the one written the same way is meant.
  const bool one_state =
      std::all_of(found.begin(), found.end(), [&](const Row* row) { return row->state == found.front()->state; });
  if (found.size() > 1 && one_state) {
    std::erase_if(found, [&](const Row* row) { return row->formula.plain() != what.plain(); });
    if (found.size() > 1) found.erase(found.begin() + 1, found.end());
  }
  const std::string name = what.unicode() + (state ? std::string(state_text(*state)) : "");
  if (found.empty()) {
    return Fault::of(Code::not_found, "No " + std::string(quantity) + " is tabulated for " + name + "; state it.",
                     name);
  }
  if (found.size() == 1) return *(found.front()->*column);
  Fault fault = Fault::of(
      Code::ambiguous,
      "The " + std::string(quantity) + " of " + name + " depends on its state; write the state after the formula.",
      name);
  for (const Row* row : found) fault.others.push_back(what.unicode() + std::string(state_text(row->state)));
  return fault;
}

std::span<const Row> formation_rows() {
  static const std::vector<Row> rows = read_formation();
  return rows;
}

struct NamedFigure {
  std::vector<std::string> names;
  std::string formula;
  std::optional<Formula> read;
  Tabulated figure;
};

std::vector<NamedFigure> read_neutralisation() {
  std::vector<NamedFigure> rows;
  inner::each_row(embedded::neutralisation_enthalpies, [&rows](inner::TableRow cells) {
    rows.push_back({inner::names_in(cells[0]), std::string(cells[1]), inner::formula_in(cells[1]),
                    *tabulated(cells[2], cells[3])});
  });
  return rows;
}

std::vector<NamedFigure> read_materials() {
  std::vector<NamedFigure> rows;
  inner::each_row(embedded::material_heat_capacities, [&rows](inner::TableRow cells) {
    rows.push_back({inner::names_in(cells[0]), {}, std::nullopt, *tabulated(cells[1], cells[2])});
  });
  return rows;
}

struct PhaseRow {
  std::vector<std::string> names;
  std::string formula;
  std::optional<Formula> read;
  PhaseChange change;
};

std::vector<PhaseRow> read_phases() {
  std::vector<PhaseRow> rows;
  inner::each_row(embedded::phase_changes, [&rows](inner::TableRow cells) {
    rows.push_back({inner::names_in(cells[0]),
                    std::string(cells[1]),
                    inner::formula_in(cells[1]),
                    {optional_number(cells[2]), optional_number(cells[3]), optional_number(cells[4]),
                     optional_number(cells[5]), optional_number(cells[6]), std::string(cells[7])}});
  });
  return rows;
}

Outcome<Tabulated> water_heat_capacity(double celsius) {
  struct Point {
    double celsius, value;
  };
  static const std::vector<Point> points = [] {
    std::vector<Point> read;
    inner::each_row(embedded::water_heat_capacity, [&read](inner::TableRow cells) {
      read.push_back({inner::cell_number(cells[0]), inner::cell_number(cells[1])});
    });
    return read;
  }();
  constexpr double boiling = 100;  // less than half a kelvin beyond the last point; the last piece is carried on
  if (!(celsius >= 0 && celsius <= boiling)) {
    return Fault::of(Code::out_of_range,
                     "The heat capacity of liquid water is known from 0 to 100 °C, not at " + shown(celsius) + " °C.");
  }
  std::size_t i = 1;
  while (i + 1 < points.size() && points[i].celsius < celsius) ++i;
  const Point &a = points[i - 1], &b = points[i];
  const double t = (celsius - a.celsius) / (b.celsius - a.celsius);
  // Over 5 K the curve bends by less than 0.001 J/(g K) except near 0 °C.
  constexpr double bend = 0.0005;
  return Tabulated{a.value + t * (b.value - a.value), bend, "IAPWS-95"};
}

}  // namespace

Outcome<Tabulated> formation_enthalpy(const Formula& what, std::optional<State> state) {
  return look_up(formation_rows(), &Row::enthalpy, what, state, "enthalpy of formation");
}

Outcome<Tabulated> molar_heat_capacity(const Formula& what, std::optional<State> state) {
  return look_up(formation_rows(), &Row::heat_capacity, what, state, "heat capacity");
}

double reaction_enthalpy(std::span<const HeatTerm> terms) {
  double sum = 0;
  for (const HeatTerm& term : terms) sum += term.coefficient * term.enthalpy;
  return sum;
}

Outcome<ReactionHeat> reaction_enthalpy(const Equation& equation) {
  ReactionHeat heat;
  std::vector<HeatTerm> terms;
  std::vector<std::string> lacking;
  double variance = 0;
  std::optional<Fault> first;
  for (std::size_t i = 0; i < equation.all().size(); ++i) {
    const Species& species = equation.all()[i];
    if (species.formula.is_electron()) {
      return Fault::of(Code::unsupported, "A half-reaction has no enthalpy of its own; combine it with another.");
    }
    auto state = species.state;
    if (!state && species.formula.charge() != 0) state = State::aqueous;
    const auto formation = formation_enthalpy(species.formula, state);
    if (!formation) {
      if (!first) first = formation.fault();
      lacking.push_back(species.formula.unicode() + (state ? std::string(state_text(*state)) : ""));
      continue;
    }
    const double times = species.coefficient.value_or(Fraction(1)).number();
    terms.push_back({equation.on_left(i) ? -times : times, formation->value});
    variance += times * times * formation->spread * formation->spread;
    if (std::find(heat.sources.begin(), heat.sources.end(), formation->source) == heat.sources.end()) {
      heat.sources.push_back(formation->source);
    }
  }
  if (first) {
    if (lacking.size() > 1) first->others = lacking;
    return *std::move(first);
  }
  heat.value = reaction_enthalpy(terms);
  heat.spread = std::sqrt(variance);
  return heat;
}

Outcome<Tabulated> solution_enthalpy(const Formula& solute, std::optional<State> state) {
  static const std::vector<Row> rows = read_solution();
  return look_up(rows, &Row::enthalpy, solute, state, "enthalpy of solution");
}

Outcome<Tabulated> neutralisation_enthalpy(std::string_view acid_or_base) {
  static const std::vector<NamedFigure> rows = read_neutralisation();
  const auto row = inner::find_row(std::span(rows), acid_or_base, "enthalpy of neutralisation");
  if (!row) return row.fault();
  return (*row)->figure;
}

Outcome<PhaseChange> phase_change(std::string_view substance) {
  static const std::vector<PhaseRow> rows = read_phases();
  const auto row = inner::find_row(std::span(rows), substance, "heat of fusion or vaporisation");
  if (!row) return row.fault();
  return (*row)->change;
}

Outcome<Tabulated> heat_capacity(std::string_view material, double celsius) {
  static const std::vector<NamedFigure> materials = read_materials();
  if (const NamedFigure* row = inner::row_named(std::span(materials), to_lower(trim(material)))) return row->figure;
  const auto formula = formula_of(material);
  if (!formula) return formula.fault();
  if (inner::is_water(material)) return water_heat_capacity(celsius);
  auto molar = molar_heat_capacity(*formula);
  if (!molar && molar.fault().code == Code::ambiguous) {
    // In a vessel the condensed form is meant.
    molar = molar_heat_capacity(*formula, State::solid);
    if (!molar) molar = molar_heat_capacity(*formula, State::liquid);
  }
  if (!molar) return molar.fault();
  const auto mass = molar_mass(*formula);
  if (!mass) return mass.fault();
  return Tabulated{molar->value / mass->value, molar->spread / mass->value, molar->source};
}

Outcome<Tabulated> mean_heat_capacity(std::string_view material, double from, double to) {
  constexpr int slices = 40;  // finer than the table
  auto mean = heat_capacity(material, from);
  if (!mean || from == to) return mean;
  double sum = 0;
  for (int i = 0; i < slices; ++i) {
    const auto here = heat_capacity(material, from + (to - from) * (i + 0.5) / slices);
    if (!here) return here;
    sum += here->value;
  }
  if (const auto last = heat_capacity(material, to); !last) return last;
  mean->value = sum / slices;
  return mean;
}

}  // namespace sash::chem
