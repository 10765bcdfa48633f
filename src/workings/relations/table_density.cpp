#include "workings/relations/table_density.h"

#include <algorithm>
#include <cmath>

#include "chem/commercial.h"
#include "chem/density.h"
#include "chem/names.h"

namespace sash::workings {
namespace {

using quantity::Kind;

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
      return std::nullopt;
  }
}

std::optional<std::size_t> density_of_solution(Drafting& d, const Filled& strength, Piece symbol,
                                               const std::string& name) {
  const std::string solute = d.substance();
  if (solute.empty() || !strength.value->stated) return std::nullopt;
  const double celsius = table_temperature(d);
  const double si = strength.value->si;
  const double step = strength.value->si_spread;
  const auto density = density_at(solute, strength, si, celsius);
  if (!density) return std::nullopt;
  // How the density goes with the strength, to whichever side the table reaches.
  double slope = 0;
  for (const double side : {step, -step}) {
    const auto there = density_at(solute, strength, si + side, celsius);
    if (there) slope = std::max(slope, std::fabs(there->value - density->value));
  }
  return as_constant(d, *density, std::hypot(density->spread, slope), std::move(symbol), name);
}

std::optional<std::size_t> density_of_substance(Drafting& d, Piece symbol, const std::string& name) {
  const std::string substance = d.substance();
  if (substance.empty() || chem::strongest_covered(substance)) return std::nullopt;
  const auto density = chem::density_of(substance, table_temperature(d));
  if (!density) return std::nullopt;
  return as_constant(d, *density, density->spread, std::move(symbol), name);
}

}  // namespace sash::workings
