#include "chem/commercial.h"

#include <vector>

#include "chem/inner/table.h"
#include "chem/inner/wording.h"
#include "chem/molar_mass.h"
#include "embedded/commercial_strengths.h"
#include "support/text.h"

namespace sash::chem {
namespace {

using inner::shown;

struct Row {
  std::vector<std::string_view> names;
  std::string_view solute;
  bool by_volume;
  double percent, low, high;
  std::optional<double> density;
  double celsius;
  std::string_view source;
};

std::vector<Row> read_rows() {
  std::vector<Row> rows;
  inner::each_row(embedded::commercial_strengths, [&rows](inner::TableRow cells) {
    Row row;
    for (const auto name : split(cells[0], ';')) row.names.push_back(trim(name));
    row.solute = cells[1];
    row.by_volume = cells[2] == "v";
    row.percent = inner::cell_number(cells[3]);
    row.low = inner::cell_number(cells[4]);
    row.high = inner::cell_number(cells[5]);
    if (!cells[6].empty()) row.density = inner::cell_number(cells[6]);
    row.celsius = inner::cell_number(cells[7]);
    row.source = cells[8];
    rows.push_back(std::move(row));
  });
  return rows;
}

/// One spelling for what is said in several.
std::string settled(std::string_view name) {
  std::string text = to_lower(trim(name));
  text = replace_all(std::move(text), "sulph", "sulf");
  text = replace_all(std::move(text), "conc. ", "concentrated ");
  text = replace_all(std::move(text), "conc ", "concentrated ");
  if (text.starts_with("the ")) text.erase(0, 4);
  return text;
}

CommercialSolution described(const Row& row, Solution solution) {
  CommercialSolution c;
  c.solution = std::move(solution);
  c.low = row.low / 100;
  c.high = row.high / 100;
  c.source = row.source;
  c.assumption =
      "Taken as " + shown(row.percent) + " % " + std::string(row.solute) + (row.by_volume ? " by volume" : " by mass");
  c.assumption += row.low == row.high ? "." : "; labels give " + shown(row.low) + " to " + shown(row.high) + " %.";
  return c;
}

double weight(std::string_view formula) { return molar_mass(*read_formula(formula))->value; }

constexpr double molar_volume_stp = 22.41396954;  // L/mol at 0 °C and 101.325 kPa, CODATA 2018
constexpr double peroxide_per_oxygen = 2;         // 2 H2O2 = 2 H2O + O2

}  // namespace

Outcome<CommercialSolution> commercial_solution(std::string_view name) {
  static const std::vector<Row> rows = read_rows();
  const std::string wanted = settled(name);
  std::vector<std::string_view> all;
  for (const Row& row : rows) {
    for (const auto known : row.names) {
      all.push_back(known);
      if (settled(known) != wanted) continue;
      const auto kind = row.by_volume ? StrengthKind::volume_fraction : StrengthKind::mass_fraction;
      auto solution = solution_of(row.solute, kind, row.percent / 100, row.celsius, row.density);
      if (!solution) return solution.fault();
      return described(row, *std::move(solution));
    }
  }
  Fault fault = Fault::of(Code::unknown_name,
                          "No usual strength is known for \"" + std::string(name) + "\"; say it in percent or mol/L.",
                          std::string(name));
  if (const auto near = nearest_spelling(wanted, all)) fault.others.emplace_back(*near);
  return fault;
}

double available_chlorine_factor() { return weight("Cl2") / weight("NaOCl"); }
double available_chlorine(double hypochlorite_fraction) { return hypochlorite_fraction * available_chlorine_factor(); }
double hypochlorite_for(double available_chlorine_fraction) {
  return available_chlorine_fraction / available_chlorine_factor();
}
double trade_percent(double available_chlorine_fraction, double density) {
  return 100 * available_chlorine_fraction * density;
}

double peroxide_molarity(double volume_strength) { return volume_strength / molar_volume_stp * peroxide_per_oxygen; }
double peroxide_volume_strength(double molarity) { return molarity / peroxide_per_oxygen * molar_volume_stp; }

}  // namespace sash::chem
