#include "workings/relations/water_vapour.h"

#include <cmath>

#include "quantity/show.h"

namespace sash::workings {
namespace {

using quantity::Kind;

// Magnus formula over water: e = 611.2 Pa exp(17.62 t / (243.12 °C + t)). Good to 0.3 % between -45 and 60 °C.
// Source: WMO-No. 8, Guide to Instruments and Methods of Observation, Annex 4.B.
constexpr double magnus_pressure = 611.2;
constexpr double magnus_a = 17.62;
constexpr double magnus_b = 243.12;
constexpr double ice_point = 273.15;

double vapour_pressure(double kelvin) {
  const double t = kelvin - ice_point;
  return magnus_pressure * std::exp(magnus_a * t / (magnus_b + t));
}

double vapour_slope(double kelvin) {
  const double below = magnus_b + kelvin - ice_point;
  return vapour_pressure(kelvin) * magnus_a * magnus_b / (below * below);
}

}  // namespace

std::size_t pressure_without_water(Drafting& d, std::size_t pressure, std::size_t temperature) {
  const std::size_t vapour = d.hidden("pressure of water vapour", Piece::of_symbol("p", "H₂O"), Kind::pressure);
  const std::size_t own = d.hidden("pressure of the gas itself", Piece::of_symbol("p", "gas"), Kind::pressure);
  const LawPtr law = general_law([](std::span<const double> x, std::span<double> slope) {
    slope[0] = 1;
    slope[1] = -vapour_slope(x[1]);
    return x[0] - vapour_pressure(x[1]);
  });
  const quantity::Unit unit = quantity::default_unit(Kind::pressure);
  const Writer writer = [unit](std::size_t wanted, const std::vector<double>& x) -> std::optional<Step> {
    if (wanted != 0) return std::nullopt;
    const double value = vapour_pressure(x[1]);
    return Step{value,
                {Piece::of_symbol("p", "H₂O"), Piece::of_sign("="),
                 Piece::of_number(quantity::show_significant(unit.from_si(value), 4), unit.symbol()),
                 Piece::words(" at " + quantity::show_number(x[1] - ice_point, 4) + " °C")}};
  };
  d.special("the pressure of water vapour", {vapour, temperature}, law, writer);
  d.sum("the pressures of gas and water vapour", {{own, -1}, {pressure, 1}, {vapour, -1}});
  d.note("Collected over water: the vapour pressure of water is taken off (Magnus formula, WMO-No. 8, Annex 4.B).");
  return own;
}

}  // namespace sash::workings
