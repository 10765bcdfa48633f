#include "workings/relations/density_law.h"

#include <cmath>
#include <utility>

#include "chem/density_curve.h"
#include "quantity/show.h"
#include "workings/relations/table_density.h"

namespace sash::workings {
namespace {

using quantity::Kind;

constexpr double hydrometer_celsius = 15.56;  // 60 degF
constexpr double si_per_gram_millilitre = 1000;
constexpr double table_spread = 0.0005;  // g/mL

// The curve of one solute at one temperature; NaN outside.
struct Curve {
  std::string solute;
  double celsius;
  chem::SolutionCurve table;

  double at(double w) const { return table.density(w); }
  double slope(double w) const {
    constexpr double step = 1e-4;
    const double up = at(w + step), down = at(w - step), here = at(w);
    if (std::isnan(up)) return (here - down) / step;
    if (std::isnan(down)) return (up - here) / step;
    return (up - down) / (2 * step);
  }
  std::optional<double> back(double density) const {
    const auto w = chem::strengths_at_density(solute, density, celsius);
    return w && !w->empty() ? std::optional(w->front()) : std::nullopt;
  }
};

// How much heavier than by the table the solution was when its density was read, g/mL.
struct Deviation {
  double value;
  double spread;
};

// Solutions strong enough to be told by hydrometer get lighter by some 0.001 g/mL in a kelvin.
Deviation deviation_of(const DensityRead& read, bool temperature_known, double celsius) {
  constexpr double expansion = 0.001, expansion_spread = 0.0003;  // g/mL in a kelvin; common practice, no source
  constexpr double some_kelvin = 5;                               // a room is not exactly at that of the table
  if (temperature_known) return {0, table_spread};
  if (!read.hydrometer) return {0, std::hypot(table_spread, some_kelvin * expansion / 2)};
  const double warmer = celsius - hydrometer_celsius;
  return {warmer * expansion, std::hypot(table_spread, warmer * expansion_spread)};
}

// Where the curve turns, as that of sulfuric acid does, two strengths weigh the same.
void note_two_strengths(Drafting& d, const std::vector<double>& strengths) {
  if (strengths.size() < 2) return;
  d.note("Two strengths have this density, " + quantity::show_number(100 * strengths.front(), 3) + " and " +
         quantity::show_number(100 * strengths.back(), 3) + " % by mass; the weaker one is taken.");
}

}  // namespace

bool is_density(const Filled& strength) {
  const Kind kind = strength.value->figure->kind;
  const std::string& code = strength.value->unit.code();
  const bool on_hydrometer = code == "[SG]" || code == "[degBe]" || code == "[degBe_l]";
  const bool strength_by_volume = kind == Kind::mass_concentration || kind == Kind::mass_volume_percent;
  return kind == Kind::density || (on_hydrometer && !strength_by_volume);
}

bool tie_density_to_strength(Drafting& d, std::size_t density, std::size_t fraction, const DensityRead& read) {
  const bool told = d.given("temperature").has_value();
  const auto stated = d.stated(density);
  const bool at_scale =
      read.hydrometer && !told && stated &&
      chem::strengths_at_density(d.solute(), *stated / si_per_gram_millilitre, hydrometer_celsius).ok();
  const double celsius = at_scale ? hydrometer_celsius : table_temperature(d);
  auto table = d.solute().empty() ? Outcome<chem::SolutionCurve>(Fault{}) : chem::solution_curve(d.solute(), celsius);
  if (!table) return false;
  const Curve curve{d.solute(), celsius, *std::move(table)};
  const Deviation off = deviation_of(read, told || at_scale, curve.celsius);
  if (stated) {
    const auto strengths =
        chem::strengths_at_density(curve.solute, *stated / si_per_gram_millilitre - off.value, curve.celsius);
    if (!strengths) {
      read.needed ? d.missing("a density that the tables know (" + strengths.fault().sentence + ")")
                  : d.note(strengths.fault().sentence);
      return false;
    }
    note_two_strengths(d, *strengths);
  }
  if (off.value != 0) {
    d.note("Hydrometer scales refer to 60 °F: at " + quantity::show_number(curve.celsius, 3) + " °C the solution is " +
           quantity::show_with_unit(off.value, "g/mL", 2) + " lighter.");
  }
  const quantity::Unit unit = quantity::Unit::known("g/mL");
  const std::size_t deviation = d.constant(
      "density table " + std::to_string(d.relation().id.number), "how far the density lies off the table",
      Piece::of_symbol("δ"), Kind::density, unit, unit.to_si(off.value), unit.to_si(off.spread), curve.table.source);
  const LawPtr law = general_law([curve](std::span<const double> x, std::span<double> slope) {
    slope[0] = 1;
    slope[1] = -si_per_gram_millilitre * curve.slope(x[1]);
    slope[2] = -1;
    return x[0] - si_per_gram_millilitre * curve.at(x[1]) - x[2];
  });
  const Piece rho = d.at(density).symbol;
  const Piece w = d.at(fraction).symbol;
  const Writer writer = [=](std::size_t wanted, const std::vector<double>& x) -> std::optional<Step> {
    if (wanted == 2) return std::nullopt;
    const std::string where = "by the table of densities at " + quantity::show_number(curve.celsius, 3) + " °C";
    const auto percent = [](double si) { return Piece::of_number(quantity::show_significant(100 * si, 4), "% w/w"); };
    const auto grams = [](double si) {
      return Piece::of_number(quantity::show_significant(si / si_per_gram_millilitre, 5), "g/mL");
    };
    if (wanted == 1) {
      const auto found = curve.back((x[0] - x[2]) / si_per_gram_millilitre);
      if (!found) return std::nullopt;
      return Step{*found,
                  {w, Piece::of_sign("="), percent(*found), Piece::words(" for "), rho, Piece::of_sign("="),
                   grams(x[0]), Piece::words(", " + where)}};
    }
    const double value = si_per_gram_millilitre * curve.at(x[1]) + x[2];
    if (!std::isfinite(value)) return std::nullopt;
    return Step{value,
                {rho, Piece::of_sign("="), grams(value), Piece::words(" for "), w, Piece::of_sign("="), percent(x[1]),
                 Piece::words(", " + where)}};
  };
  d.special("the density and strength of the solution", {density, fraction, deviation}, law, writer);
  d.slow();
  return true;
}

}  // namespace sash::workings
