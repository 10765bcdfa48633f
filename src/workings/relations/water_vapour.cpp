#include "workings/relations/water_vapour.h"

#include <limits>

#include "chem/gas.h"
#include "chem/vapour_pressure.h"
#include "quantity/show.h"

namespace sash::workings {
namespace {

using quantity::Kind;

double vapour_pressure(double kelvin) {
  return chem::water_vapour_pressure(kelvin - chem::zero_celsius).value_or(std::numeric_limits<double>::quiet_NaN());
}

double vapour_slope(double kelvin) {
  constexpr double step = 0.01;  // K: the curve is smooth, and the difference still has eight digits
  return (vapour_pressure(kelvin + step) - vapour_pressure(kelvin - step)) / (2 * step);
}

// Stated, or a constant.
std::optional<double> known(const Drafting& d, std::size_t quantity) {
  const Quantity& q = d.at(quantity);
  return q.from == Quantity::From::constant ? std::optional(q.value) : d.stated(quantity);
}

}  // namespace

std::size_t pressure_without_water(Drafting& d, std::size_t pressure, std::size_t temperature) {
  if (const auto kelvin = known(d, temperature)) {
    const auto there = chem::water_vapour_pressure(*kelvin - chem::zero_celsius);
    if (!there) {
      d.missing("a temperature at which gas can be collected over water (" + there.fault().sentence + ")");
    } else if (const auto all = known(d, pressure); all && *all <= *there) {
      d.missing("a pressure above that of water vapour alone, " + quantity::show_with_unit(*there / 1000, "kPa", 3) +
                " at that temperature");
    }
  }
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
                 Piece::words(" at " + quantity::show_number(x[1] - chem::zero_celsius, 4) + " °C")}};
  };
  d.special("the pressure of water vapour", {vapour, temperature}, law, writer);
  d.sum("the pressures of gas and water vapour", {{own, -1}, {pressure, 1}, {vapour, -1}});
  d.note("Collected over water: the vapour pressure of water is taken off (Wagner and Pruss, 2002).");
  return own;
}

}  // namespace sash::workings
