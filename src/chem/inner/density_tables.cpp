#include "chem/inner/density_tables.h"

#include <cmath>

#include "chem/inner/substance_rows.h"
#include "chem/inner/table.h"
#include "embedded/density_models.h"
#include "embedded/pure_densities.h"
#include "embedded/solution_densities.h"
#include "support/text.h"

namespace sash::chem::inner {
namespace {

std::vector<DensityCurve> read_curves() {
  std::vector<DensityCurve> read;
  std::string_view last;
  each_row(embedded::solution_densities, [&](TableRow row) {
    if (read.empty() || row[0] != last) {
      last = row[0];
      read.push_back(
          {names_in(row[0]), std::string(row[1]), formula_in(row[1]), std::string(row[4]), {{0, water_at_20}}});
    }
    read.back().points.push_back({cell_number(row[2]) / 100, cell_number(row[3])});
  });
  return read;
}

std::vector<DensityModel> read_models() {
  std::vector<DensityModel> read;
  each_row(embedded::density_models, [&read](TableRow row) {
    read.push_back({names_in(row[0]), std::string(row[1]), formula_in(row[1]), std::string(row[10]),
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
                    formula_in(row[2]),
                    std::string(row[6]),
                    row[3] == "liquid",
                    cell_number(row[4]),
                    cell_number(row[5])});
  });
  return read;
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
  const auto curve = find_row(std::span(curves), solute, "density");
  const auto model = find_row(std::span(models), solute, "density");
  if (!curve && !model) return curve.fault();
  if (!curve && curve.fault().code == Code::ambiguous) return curve.fault();
  return SolutionTables{std::string(solute), curve.value_or(nullptr), model.value_or(nullptr)};
}

Outcome<const PureDensity*> pure_row(std::string_view substance) {
  static const std::vector<PureDensity> rows = read_pure();
  return find_row(std::span(rows), substance, "density");
}

}  // namespace sash::chem::inner
