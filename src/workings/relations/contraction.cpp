#include "workings/relations/contraction.h"

#include <cmath>

#include "chem/solution.h"
#include "quantity/show.h"
#include "workings/relations/table_density.h"

namespace sash::workings {
namespace {

constexpr double millilitres_in_si = 1e6;

struct Lost {
  double millilitres;
  double spread;
  std::string source;
};

std::optional<Lost> lost_by(Drafting& d, const std::vector<VolumePart>& parts) {
  const std::string solute = d.solute();
  if (solute.empty() || parts.empty()) return std::nullopt;
  const double celsius = table_temperature(d);
  std::vector<chem::Portion> portions;
  double variance = 0;
  for (const VolumePart& part : parts) {
    const auto strength = part.strength != nullptr ? strength_for_tables(*part.strength)
                                                   : TableStrength{chem::StrengthKind::mass_fraction, 0};
    if (!strength) return std::nullopt;
    const auto solution = chem::solution_of(solute, strength->kind, strength->number, celsius);
    if (!solution) return std::nullopt;
    const double millilitres = part.si * millilitres_in_si;
    portions.push_back({millilitres * solution->density.value, solution->w});
    variance += std::pow(millilitres * solution->density.spread / solution->density.value, 2);
  }
  const auto mixture = chem::mix(solute, portions, celsius);
  if (!mixture) return std::nullopt;
  const chem::Density& density = mixture->solution.density;
  variance += std::pow(mixture->millilitres * density.spread / density.value, 2);
  return Lost{mixture->lost(), std::sqrt(variance), density.source};
}

std::size_t as_constant(Drafting& d, const Lost& lost) {
  const quantity::Unit unit = quantity::Unit::known("mL");
  d.note("Mixing changes the volume by " + quantity::show_with_unit(-lost.millilitres, unit.symbol(), 2) +
         ", by the densities in the tables.");
  return d.constant("lost " + std::to_string(d.relation().id.number), "volume lost on mixing",
                    Piece::of_symbol("V", "lost"), quantity::Kind::volume, unit, unit.to_si(lost.millilitres),
                    unit.to_si(lost.spread), lost.source);
}

void say_additive(Drafting& d) {
  d.note("Volumes are taken to add up; liquids that mix can take less room than they did apart.");
}

}  // namespace

std::optional<std::size_t> volume_lost(Drafting& d, const std::vector<VolumePart>& parts) {
  if (const auto lost = lost_by(d, parts)) return as_constant(d, *lost);
  say_additive(d);
  return std::nullopt;
}

std::optional<std::size_t> volume_lost_filling_up(Drafting& d, const VolumePart& solution, double whole) {
  // What is lost depends little on how much is added: each round leaves a few hundredths of the error.
  constexpr int rounds = 8;
  double added = whole - solution.si;
  std::optional<Lost> lost;
  for (int round = 0; round < rounds && added > 0; ++round) {
    lost = lost_by(d, {solution, {added, nullptr}});
    if (!lost) break;
    added = whole - solution.si + lost->millilitres / millilitres_in_si;
  }
  if (lost) return as_constant(d, *lost);
  say_additive(d);
  return std::nullopt;
}

}  // namespace sash::workings
