#include "workings/relations/table_density.h"

#include <algorithm>
#include <cmath>

#include "chem/density.h"

namespace sash::workings {
namespace {

using quantity::Kind;

std::optional<chem::Density> density_at(const std::string& solute, const Filled& strength, double si, double celsius) {
  const auto in = strength_for_tables(strength, si);
  if (!in) return std::nullopt;
  const auto solution = chem::solution_of(solute, in->kind, in->number, celsius);
  if (!solution) return std::nullopt;
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
