#include "workings/relations/table_density.h"

#include <algorithm>
#include <cmath>

#include "chem/commercial.h"
#include "chem/density.h"
#include "chem/names.h"
#include "workings/relations/strength.h"

namespace sash::workings {
namespace {

using quantity::Kind;

constexpr double label_spread =
    0.003;  // of the density: what the limits of a label come to; common practice, no source

// Bleach is no solution of hypochlorite alone, so no table of solutions has it: its density goes with its available
// chlorine, which by mass depends on the density in turn.
std::optional<chem::Density> density_of_bleach(const std::string& solute, const Filled& strength, double si) {
  constexpr double usual_alkali = 0.5;  // percent of free NaOH that keeps it: common practice, no source
  static const chem::Formula hypochlorite = *chem::read_formula("NaOCl");
  const auto formula = chem::formula_of(solute);
  const auto in = strength_for_tables(strength, si);
  if (!formula || !formula->same_composition(hypochlorite) || !in) return std::nullopt;
  if (in->kind != chem::StrengthKind::mass_fraction) return std::nullopt;
  const double factor = chem::available_chlorine_factor();
  Outcome<chem::Density> density = chem::bleach_density(0, usual_alkali);
  for (int round = 0; round < 20 && density; ++round) {
    density = chem::bleach_density(1000 * density->value * in->number * factor, usual_alkali);
  }
  return density ? std::optional(*density) : std::nullopt;
}

std::optional<chem::Density> density_at(const std::string& solute, const Filled& strength, double si, double celsius) {
  const auto in = strength_for_tables(strength, si);
  if (!in) return std::nullopt;
  const auto solution = chem::solution_of(solute, in->kind, in->number, celsius);
  if (!solution) return density_of_bleach(solute, strength, si);
  return solution->density;
}

// What solutions bought under a trade name weigh, where the strength is about theirs.
std::optional<chem::Density> density_on_label(const std::string& substance, const Filled& strength) {
  constexpr double near = 0.02;  // of the strength
  const auto in = strength_for_tables(strength);
  if (!in || in->kind != chem::StrengthKind::mass_fraction || chem::formula_of(substance)) return std::nullopt;
  const auto trade = chem::commercial_solution(substance);
  if (!trade || std::fabs(in->number / trade->solution.w - 1) > near) return std::nullopt;
  chem::Density density = trade->solution.density;
  density.spread = std::hypot(density.spread, label_spread * density.value);
  return density;
}

// A solution so dilute that it weighs what water does: parts per million without a table.
std::optional<chem::Density> density_of_water(Drafting& d, const Filled& strength, double celsius) {
  constexpr double dilute = 0.005;
  const auto in = strength_for_tables(strength);
  if (!in || in->kind != chem::StrengthKind::mass_fraction || !(in->number <= dilute)) return std::nullopt;
  const auto water = chem::water_density(celsius);
  if (!water) return std::nullopt;
  d.note("So dilute a solution in water is taken to have the density of water.");
  return chem::Density{water->value, std::hypot(water->spread, in->number), water->source, {}};
}

// Organic liquids are poured as such; acids, ammonia and peroxide come as solutions, and of a solid that dissolves a
// volume is most likely one of its solution. Of liquids the table knows no density this far from its temperature.
bool is_poured_pure(const std::string& substance) {
  constexpr int carbon = 6;
  constexpr double hot = 90;  // °C
  const auto formula = chem::formula_of(substance);
  return formula && !formula->count_of({carbon, std::nullopt}).zero() && !chem::density_of(substance, hot);
}

std::size_t as_constant(Drafting& d, const chem::Density& density, double spread, Piece symbol,
                        const std::string& name) {
  if (!density.note.empty()) d.note(density.note);
  const quantity::Unit unit = quantity::Unit::known("g/mL");
  return d.constant("density " + std::to_string(d.relation().id.number) + " " + name, name, std::move(symbol),
                    Kind::density, unit, unit.to_si(density.value), unit.to_si(spread), density.source);
}

}  // namespace

double table_temperature(Drafting& d) {
  const auto given = d.given_quantity("temperature", Kind::temperature, Piece::of_symbol("T"), "temperature");
  return given ? quantity::Unit::known("Cel").from_si(d.at(*given).value) : chem::table_celsius;
}

std::optional<TableStrength> strength_for_tables(const Filled& strength, std::optional<double> si) {
  if (!si && !strength.value->stated) return std::nullopt;
  const double number = si.value_or(strength.value->si);
  switch (strength.value->figure->kind) {
    case Kind::molar_concentration:
      return TableStrength{chem::StrengthKind::molarity, number / 1000};
    case Kind::molality:
      return TableStrength{chem::StrengthKind::molality, number};
    case Kind::mass_concentration:
      return TableStrength{chem::StrengthKind::grams_per_litre, number};
    case Kind::mass_volume_percent:
      return TableStrength{chem::StrengthKind::mass_per_volume, number / 1000};
    case Kind::mass_percent:
    case Kind::percent_other:
    case Kind::fraction:
      return TableStrength{chem::StrengthKind::mass_fraction, number};
    case Kind::volume_percent:
      return TableStrength{chem::StrengthKind::volume_fraction, number};
    default:
      break;
  }
  if (strength.value->unit.dimension() != quantity::dimension::molar_concentration) return std::nullopt;
  return TableStrength{chem::StrengthKind::molarity, number / 1000};
}

std::optional<std::size_t> density_of_solution(Drafting& d, const Filled& strength, Piece symbol,
                                               const std::string& name) {
  const std::string solute = d.solute();
  if (solute.empty() || !strength.value->stated) return std::nullopt;
  const double celsius = table_temperature(d);
  const double counted = counted_over_solute(d, strength);
  const double si = strength.value->si / counted;
  const double step = strength.value->si_spread / counted;
  auto density = density_at(solute, strength, si, celsius);
  if (!density) density = density_on_label(d.substance(), strength);
  if (!density) density = density_of_water(d, strength, celsius);
  if (!density) return std::nullopt;
  // How the density goes with the strength, to whichever side the table reaches.
  double slope = 0;
  for (const double side : {step, -step}) {
    const auto there = density_at(solute, strength, si + side, celsius);
    if (there) slope = std::max(slope, std::fabs(there->value - density->value));
  }
  return as_constant(d, *density, std::hypot(density->spread, slope), std::move(symbol), name);
}

std::optional<std::size_t> density_of_substance(Drafting& d, Piece symbol, const std::string& name,
                                                const std::string& other) {
  const std::string& substance = other.empty() ? d.substance() : other;
  if (substance.empty()) return std::nullopt;
  if (const auto trade = chem::formula_of(substance) ? Outcome<chem::CommercialSolution>(Fault{})
                                                     : chem::commercial_solution(substance)) {
    const double spread = std::hypot(trade->solution.density.spread, label_spread * trade->solution.density.value);
    return as_constant(d, trade->solution.density, spread, std::move(symbol), name);
  }
  const auto density = chem::density_of(substance, table_temperature(d));
  if (!density) return std::nullopt;
  if (chem::strongest_covered(substance)) {
    if (!is_poured_pure(substance)) return std::nullopt;
    d.note(substance + " is taken to be pure, not a solution.");
  }
  return as_constant(d, *density, density->spread, std::move(symbol), name);
}

}  // namespace sash::workings
