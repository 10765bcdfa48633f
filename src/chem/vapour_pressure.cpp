#include "chem/vapour_pressure.h"

#include <cmath>

#include "chem/gas.h"
#include "chem/inner/substance_rows.h"
#include "chem/inner/table.h"
#include "chem/inner/wording.h"
#include "embedded/antoine.h"

namespace sash::chem {
namespace {

using inner::shown;

constexpr double magnus_pascal = 611.2, magnus_slope = 17.62, magnus_offset = 243.12;  // WMO-No. 8, Annex 4.B

struct Row {
  std::vector<std::string> names;
  std::string formula;
  std::optional<Formula> read;
  Antoine antoine;
};

std::vector<Row> read_rows() {
  std::vector<Row> rows;
  inner::each_row(embedded::antoine, [&rows](inner::TableRow cells) {
    Row row{inner::names_in(cells[0]), std::string(cells[1]), inner::formula_in(cells[1]), {}};
    row.antoine = {row.names.front(),
                   inner::cell_number(cells[2]),
                   inner::cell_number(cells[3]),
                   inner::cell_number(cells[4]),
                   inner::cell_number(cells[5]),
                   inner::cell_number(cells[6]),
                   std::string(cells[7])};
    rows.push_back(std::move(row));
  });
  return rows;
}

Fault outside(std::string_view what, double celsius, double low, double high) {
  return Fault::of(Code::out_of_range, "The vapour pressure of " + std::string(what) + " is known from " + shown(low) +
                                           " to " + shown(high) + " °C, not at " + shown(celsius) + " °C.");
}

}  // namespace

Outcome<double> water_vapour_pressure(double celsius) {
  constexpr double critical_kelvin = 647.096, critical_pascal = 22.064e6;
  constexpr double high = 373.9;
  if (!(celsius >= 0 && celsius <= high)) return outside("water", celsius, 0, high);
  const double kelvin = celsius + zero_celsius;
  const double x = 1 - kelvin / critical_kelvin;
  const double sum = -7.85951783 * x + 1.84408259 * std::pow(x, 1.5) - 11.7866497 * std::pow(x, 3) +
                     22.6807411 * std::pow(x, 3.5) - 15.9618719 * std::pow(x, 4) + 1.80122502 * std::pow(x, 7.5);
  return critical_pascal * std::exp(critical_kelvin / kelvin * sum);
}

Outcome<double> magnus_pressure(double celsius) {
  constexpr double low = -45, high = 60;
  if (!(celsius >= low && celsius <= high)) return outside("water by the Magnus form", celsius, low, high);
  return magnus_pascal * std::exp(magnus_slope * celsius / (magnus_offset + celsius));
}

Outcome<double> dew_point(double celsius, double humidity) {
  if (!(humidity > 0 && humidity <= 1)) {
    return Fault::of(Code::out_of_range,
                     "A relative humidity lies above 0 and up to 100 %, not at " + shown(humidity * 100) + " %.");
  }
  const auto saturated = magnus_pressure(celsius);
  if (!saturated) return saturated.fault();
  const double x = std::log(humidity * *saturated / magnus_pascal);
  return magnus_offset * x / (magnus_slope - x);
}

Outcome<double> Antoine::pressure(double kelvin) const {
  if (!(kelvin >= t_min - 1e-9 && kelvin <= t_max + 1e-9)) {
    return outside(name, kelvin - zero_celsius, t_min - zero_celsius, t_max - zero_celsius);
  }
  return std::pow(10, a - b / (kelvin + c));
}

Outcome<double> Antoine::boiling_point(double pascal) const {
  if (!(pascal > 0) || !std::isfinite(pascal)) return Fault::of(Code::out_of_range, "A pressure must be above 0.");
  const double kelvin = b / (a - std::log10(pascal)) - c;
  if (!(kelvin >= t_min && kelvin <= t_max)) {
    return outside(name, kelvin - zero_celsius, t_min - zero_celsius, t_max - zero_celsius);
  }
  return kelvin;
}

Outcome<Antoine> antoine_of(std::string_view substance) {
  static const std::vector<Row> rows = read_rows();
  const auto row = inner::find_row(std::span(rows), substance, "vapour pressure");
  if (!row) return row.fault();
  return (*row)->antoine;
}

Outcome<double> vapour_pressure(std::string_view substance, double celsius) {
  if (inner::is_water(substance)) return water_vapour_pressure(celsius);
  const auto antoine = antoine_of(substance);
  if (!antoine) return antoine.fault();
  return antoine->pressure(celsius + zero_celsius);
}

}  // namespace sash::chem
