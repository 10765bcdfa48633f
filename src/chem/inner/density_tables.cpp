#include "chem/inner/density_tables.h"

#include <cmath>

#include "chem/formula.h"
#include "chem/inner/table.h"
#include "chem/names.h"
#include "embedded/density_models.h"
#include "embedded/pure_densities.h"
#include "embedded/solution_densities.h"
#include "support/text.h"

namespace sash::chem::inner {
namespace {

std::vector<std::string> names_in(std::string_view cell) {
  std::vector<std::string> names;
  for (const auto name : split(cell, ';')) names.push_back(to_lower(trim(name)));
  return names;
}

std::optional<Formula> read_quietly(std::string_view text) {
  auto formula = read_formula(text);
  if (!formula) return std::nullopt;
  return *std::move(formula);
}

std::vector<DensityCurve> read_curves() {
  std::vector<DensityCurve> read;
  std::string_view last;
  each_row(embedded::solution_densities, [&](TableRow row) {
    if (read.empty() || row[0] != last) {
      last = row[0];
      read.push_back(
          {names_in(row[0]), std::string(row[1]), read_quietly(row[1]), std::string(row[4]), {{0, water_at_20}}});
    }
    read.back().points.push_back({cell_number(row[2]) / 100, cell_number(row[3])});
  });
  return read;
}

std::vector<DensityModel> read_models() {
  std::vector<DensityModel> read;
  each_row(embedded::density_models, [&read](TableRow row) {
    read.push_back({names_in(row[0]), std::string(row[1]), read_quietly(row[1]), std::string(row[10]),
                    cell_number(row[2]), cell_number(row[3]), cell_number(row[4]), cell_number(row[5]),
                    cell_number(row[6]), cell_number(row[7]), cell_number(row[8]), cell_number(row[9])});
  });
  return read;
}

std::vector<PureDensity> read_pure() {
  std::vector<PureDensity> read;
  each_row(embedded::pure_densities, [&read](TableRow row) {
    read.push_back({{to_lower(row[0]), to_lower(row[1])},
                    std::string(row[2]),
                    read_quietly(row[2]),
                    std::string(row[6]),
                    row[3] == "liquid",
                    cell_number(row[4]),
                    cell_number(row[5])});
  });
  return read;
}

template <class Row>
const Row* named(std::span<const Row> rows, std::string_view name) {
  for (const Row& row : rows) {
    for (const std::string& known : row.names) {
      if (known == name) return &row;
    }
  }
  return nullptr;
}

/// By the name as typed; by its preferred name; by the formula as typed; by composition when only one row has it.
template <class Row>
Outcome<const Row*> find_row(std::span<const Row> rows, std::string_view text) {
  const std::string typed = to_lower(trim(text));
  if (const Row* row = named(rows, typed)) return row;
  for (const Row& row : rows) {
    if (row.formula == trim(text)) return &row;
  }
  const auto known = normalise_name(text);
  if (known && known->reading == NameReading::name) {
    if (const Row* row = named(rows, to_lower(known->preferred))) return row;
  }
  const Outcome<Formula> formula = formula_of(text);
  if (!formula) return formula.fault();
  std::vector<const Row*> alike;
  for (const Row& row : rows) {
    if (row.read && row.read->same_composition(*formula)) alike.push_back(&row);
  }
  // A name reaches a row by composition only where that composition has this name: dimethyl ether is not ethanol.
  const bool by_name = known && known->reading == NameReading::name;
  const bool same_thing = !by_name || name_of(*formula) == known->preferred;
  if (alike.size() == 1 && same_thing) return alike.front();
  if (alike.empty() || by_name) {
    return Fault::of(Code::not_found, "No density is tabulated for " + std::string(text) + "; state it.",
                     std::string(text));
  }
  Fault fault =
      Fault::of(Code::ambiguous, std::string(text) + " stands for several substances; use a name.", std::string(text));
  for (const Row* row : alike) fault.others.push_back(row->names.front());
  return fault;
}

}  // namespace

bool DensityModel::covers(double w, double celsius) const {
  // A little beyond the measured strengths: 70 % is meant when the table ends at 69.99 %.
  constexpr double beyond = 0.005;
  return w >= 0 && w <= w_max + beyond && celsius >= t_min - 1e-9 && celsius <= t_max + 1e-9;
}

double DensityModel::density(double w, double celsius, double water) const {
  constexpr double per_litre = 1000;
  const double power = std::exp(1e-6 * (celsius + c4) * (celsius + c4));
  const double apparent = (w + c2 + c3 * celsius) / ((c0 * w + c1) * power);  // m3/kg
  return 1 / ((1 - w) / water + w * apparent * per_litre);
}

Outcome<SolutionTables> tables_of(std::string_view solute) {
  static const std::vector<DensityCurve> curves = read_curves();
  static const std::vector<DensityModel> models = read_models();
  const auto curve = find_row(std::span(curves), solute);
  const auto model = find_row(std::span(models), solute);
  if (!curve && !model) return curve.fault();
  if (!curve && curve.fault().code == Code::ambiguous) return curve.fault();
  return SolutionTables{std::string(solute), curve.value_or(nullptr), model.value_or(nullptr)};
}

Outcome<const PureDensity*> pure_row(std::string_view substance) {
  static const std::vector<PureDensity> rows = read_pure();
  return find_row(std::span(rows), substance);
}

}  // namespace sash::chem::inner
