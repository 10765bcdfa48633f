#include "chem/gas.h"

#include <array>
#include <cmath>

#include "chem/inner/substance_rows.h"
#include "chem/inner/table.h"
#include "chem/inner/wording.h"
#include "chem/vapour_pressure.h"
#include "embedded/henry_constants.h"
#include "support/text.h"

namespace sash::chem {
namespace {

using inner::shown;

std::optional<Fault> not_above_zero(const std::optional<double>& value, std::string_view what) {
  if (!value || (std::isfinite(*value) && *value > 0)) return std::nullopt;
  return Fault::of(Code::out_of_range,
                   "The " + std::string(what) + " of a gas must be above 0, not " + shown(*value) + ".");
}

std::optional<Fault> check(const GasState& s) {
  if (auto f = not_above_zero(s.pascal, "pressure")) return f;
  if (auto f = not_above_zero(s.cubic_metres, "volume")) return f;
  if (auto f = not_above_zero(s.kelvin, "absolute temperature")) return f;
  return not_above_zero(s.mol, "amount");
}

int missing(const GasState& s) { return !s.pascal + !s.cubic_metres + !s.kelvin + !s.mol; }

/// The value of the one left out in `s`, when pV = k nT.
double fill(const GasState& s, double k) {
  if (!s.pascal) return k * *s.mol * *s.kelvin / *s.cubic_metres;
  if (!s.cubic_metres) return k * *s.mol * *s.kelvin / *s.pascal;
  if (!s.kelvin) return *s.pascal * *s.cubic_metres / (k * *s.mol);
  return *s.pascal * *s.cubic_metres / (k * *s.kelvin);
}

/// What is known on neither side does not change: any value will do.
void settle(std::optional<double>& before, std::optional<double>& after) {
  if (!before && !after) before = after = 1;
}

struct Henry {
  std::vector<std::string> names;
  std::string formula;
  std::optional<Formula> read;
  double constant;  // mol/(m3 Pa) at 298.15 K
  std::string note;
  std::string source;
};

std::vector<Henry> read_henry() {
  std::vector<Henry> rows;
  inner::each_row(embedded::henry_constants, [&rows](inner::TableRow row) {
    rows.push_back({inner::names_in(row[0]), std::string(row[1]), inner::formula_in(row[1]), inner::cell_number(row[2]),
                    std::string(row[3]), std::string(row[4])});
  });
  return rows;
}

}  // namespace

Outcome<GasConditions> named_conditions(std::string_view name) {
  const std::string key = to_lower(trim(name));
  if (key == "stp") {
    return GasConditions{zero_celsius, bar, "STP (IUPAC since 1982: 0 °C, 100 kPa)",
                         "STP is taken as 0 °C and 100 kPa; before 1982 it meant 101.325 kPa (22.414 L/mol)."};
  }
  if (key == "stp before 1982" || key == "stp at 1 atm" || key == "old stp") {
    return GasConditions{zero_celsius, atmosphere, "STP before 1982 (0 °C, 101.325 kPa)", {}};
  }
  if (key == "ntp") {
    return GasConditions{zero_celsius + 20, atmosphere, "NTP (20 °C, 101.325 kPa)",
                         "NTP is taken as 20 °C and 101.325 kPa; some use 0 °C."};
  }
  if (key == "satp") return GasConditions{zero_celsius + 25, bar, "SATP (25 °C, 100 kPa)", {}};
  return Fault::of(Code::unknown_name,
                   "No gas conditions are called \"" + std::string(name) + "\"; say temperature and pressure.",
                   std::string(name));
}

Outcome<double> solve_gas(const GasState& state, double r) {
  if (missing(state) != 1) {
    return Fault::of(Code::wrong_use, "Of pressure, volume, temperature and amount of a gas exactly one is computed.");
  }
  if (auto fault = check(state)) return *fault;
  return fill(state, r);
}

Outcome<double> solve_gas_change(const GasState& before, const GasState& after) {
  GasState a = before, b = after;
  settle(a.pascal, b.pascal);
  settle(a.cubic_metres, b.cubic_metres);
  settle(a.kelvin, b.kelvin);
  settle(a.mol, b.mol);
  if (missing(a) != 0 || missing(b) != 1) {
    return Fault::of(Code::wrong_use, "Of a gas before and after a change exactly one quantity, after, is computed.");
  }
  if (auto fault = check(a)) return *fault;
  if (auto fault = check(b)) return *fault;
  return fill(b, *a.pascal * *a.cubic_metres / (*a.mol * *a.kelvin));
}

Outcome<WetGas> over_water(double pascal, double cubic_metres, double celsius, std::optional<double> vapour) {
  GasState dry{pascal, cubic_metres, celsius + zero_celsius, std::nullopt};
  if (auto fault = check(dry)) return *fault;
  if (!vapour) {
    const auto table = water_vapour_pressure(celsius);
    if (!table) return table.fault();
    vapour = *table;
  }
  if (!(*vapour >= 0) || *vapour >= pascal) {
    return Fault::of(Code::impossible, "Water vapour of " + shown(*vapour) + " Pa leaves nothing of a pressure of " +
                                           shown(pascal) + " Pa for the gas.");
  }
  WetGas gas;
  gas.vapour = *vapour;
  gas.dry = pascal - *vapour;
  dry.pascal = gas.dry;
  gas.mol = fill(dry, gas_constant);
  gas.dry_volume = cubic_metres * gas.dry / pascal;
  return gas;
}

Outcome<Dissolved> dissolved_share(std::string_view gas, double pascal, double cubic_metres, double water_litres) {
  static const std::vector<Henry> rows = read_henry();
  if (auto fault = check({pascal, cubic_metres, std::nullopt, std::nullopt})) return *fault;
  if (!(water_litres > 0) || !std::isfinite(water_litres)) {
    return Fault::of(Code::out_of_range, "The volume of water must be above 0.");
  }
  const auto row = inner::find_row(std::span(rows), gas, "solubility as a gas");
  if (!row) return row.fault();
  const Henry& henry = **row;
  constexpr double litres_per_cubic_metre = 1000;
  const double held = henry.constant * water_litres / litres_per_cubic_metre;  // mol/Pa in water
  const double free = cubic_metres / (gas_constant * (zero_celsius + 25));     // mol/Pa above it
  constexpr double negligible = 0.01;
  Dissolved d;
  d.fraction = held / (held + free);
  d.molarity = henry.constant * pascal / litres_per_cubic_metre;
  d.considerable = d.fraction > negligible;
  d.source = henry.source;
  d.note = henry.note;
  return d;
}

}  // namespace sash::chem
