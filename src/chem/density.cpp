#include "chem/density.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "chem/inner/density_tables.h"
#include "chem/inner/table.h"
#include "chem/inner/wording.h"
#include "embedded/bleach_gravity.h"

namespace sash::chem {
namespace {

using inner::shown;

double rectangular(double half_width) { return half_width / std::numbers::sqrt3; }

constexpr double last_digit = 0.00005;  // the tables print four decimals

Fault finite_fault(std::string_view what) {
  return Fault::of(Code::not_finite, "The " + std::string(what) + " is no number.");
}

}  // namespace

Outcome<Density> water_density(double celsius) {
  if (!std::isfinite(celsius)) return finite_fault("temperature");
  if (celsius < 0 || celsius > 100) {
    return Fault::of(Code::out_of_range,
                     "The density of water is known from 0 to 100 °C, not at " + shown(celsius) + " °C.");
  }
  const double t = celsius;
  if (t <= 40) {
    constexpr double a1 = -3.983035, a2 = 301.797, a3 = 522528.9, a4 = 69.34881, a5 = 0.999974950;
    return Density{a5 * (1 - (t + a1) * (t + a1) * (t + a2) / (a3 * (t + a4))),
                   5e-7,
                   "Tanaka et al., Metrologia 38 (2001) 301",
                   {}};
  }
  constexpr std::array k{999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12};
  const double over = k[0] + t * (k[1] + t * (k[2] + t * (k[3] + t * (k[4] + t * k[5]))));
  return Density{over / (1 + 16.879850e-3 * t) / 1000, 5e-6, "Kell, J. Chem. Eng. Data 20 (1975) 97", {}};
}

Outcome<Density> density_of(std::string_view substance, double celsius) {
  if (!std::isfinite(celsius)) return finite_fault("temperature");
  const auto row = inner::pure_row(substance);
  if (!row) {
    if (inner::is_water(substance)) return water_density(celsius);
    return row.fault();
  }
  const inner::PureDensity& pure = **row;
  const double away = std::abs(celsius - pure.celsius);
  constexpr double liquid_reach = 10, solid_low = -50, solid_high = 100;
  if (pure.liquid ? away > liquid_reach : celsius < solid_low || celsius > solid_high) {
    return Fault::of(Code::out_of_range, "The density of " + pure.names.front() + " is tabulated at " +
                                             shown(pure.celsius) + " °C only, too far from " + shown(celsius) +
                                             " °C; state it.");
  }
  // Organic liquids expand by 0.0008 to 0.0016 per kelvin, solids by less than 0.0002 (common practice, no source).
  const double expansion = pure.liquid ? 0.0016 : 0.0002;
  Density d{
      pure.density, std::hypot(rectangular(last_digit), rectangular(pure.density * expansion * away)), pure.source, {}};
  if (away > 0 && pure.liquid) d.note = "Density of " + shown(pure.celsius) + " °C, not corrected for expansion.";
  return d;
}

Outcome<Density> solution_density(std::string_view solute, double w, double celsius) {
  if (!std::isfinite(w)) return finite_fault("mass fraction");
  const auto tables = inner::tables_of(solute);
  if (!tables) return tables.fault();
  return tables->at(w, celsius);
}

std::optional<double> strongest_covered(std::string_view solute, double celsius) {
  const auto tables = inner::tables_of(solute);
  if (!tables) return std::nullopt;
  const double w = tables->strongest(celsius);
  if (w <= 0) return std::nullopt;
  return w;
}

Outcome<std::vector<double>> strengths_at_density(std::string_view solute, double density, double celsius) {
  if (!std::isfinite(density)) return finite_fault("density");
  const auto tables = inner::tables_of(solute);
  if (!tables) return tables.fault();
  const double most = tables->strongest(celsius);
  if (const auto some = tables->at(most, celsius); !some) return some.fault();
  const auto difference = [&](double w) { return tables->at(w, celsius)->value - density; };
  std::vector<double> found;
  constexpr int steps = 400;
  double low = 0, at_low = difference(low);
  for (int i = 1; i <= steps; ++i) {
    const double high = most * i / steps;
    const double at_high = difference(high);
    if (at_high == 0) found.push_back(high);
    if (at_low * at_high < 0) {
      double a = low, b = high;
      for (int k = 0; k < 60; ++k) {
        const double mid = (a + b) / 2;
        ((difference(mid) < 0) == (at_low < 0) ? a : b) = mid;
      }
      found.push_back((a + b) / 2);
    }
    low = high;
    at_low = at_high;
  }
  if (found.empty()) {
    return Fault::of(Code::out_of_range, "No solution of " + std::string(solute) + " up to " + shown(most * 100) +
                                             " % has a density of " + shown(density) + " g/mL at " + shown(celsius) +
                                             " °C.");
  }
  return found;
}

Outcome<Density> bleach_density(double available_chlorine, double excess_alkali) {
  if (!std::isfinite(available_chlorine) || !std::isfinite(excess_alkali)) return finite_fault("strength");
  if (available_chlorine < 0 || available_chlorine > 200 || excess_alkali < 0 || excess_alkali > 1.5) {
    return Fault::of(Code::out_of_range,
                     "The density of bleach is estimated up to 200 g/L of available chlorine and 1.5 % of alkali; "
                     "state it.");
  }
  struct Row {
    double alkali, gravity;
  };
  std::vector<Row> rows;
  double tabulated = 0;
  std::string source;
  inner::each_row(embedded::bleach_gravity, [&](inner::TableRow row) {
    tabulated = inner::cell_number(row[0]);
    rows.push_back({inner::cell_number(row[1]), inner::cell_number(row[2])});
    source = row[3];
  });
  const Row &a = rows.front(), &b = rows.back();
  const double gravity = a.gravity + (excess_alkali - a.alkali) / (b.alkali - a.alkali) * (b.gravity - a.gravity);
  Density d;
  d.value = 1 + (gravity - 1) * available_chlorine / tabulated;
  d.source = source;
  d.spread = rectangular(0.0005);
  if (available_chlorine != tabulated) {
    d.spread = 0.01 * std::max(0.5, std::abs(available_chlorine / tabulated - 1));
    d.note = "Scaled from bleach of 120 g/L of available chlorine.";
  }
  return d;
}

}  // namespace sash::chem
