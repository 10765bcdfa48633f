#include "quantity/value.h"

#include <cmath>

namespace sash::quantity {

Outcome<Value> Value::of_si(double si, double si_spread, const Dimension& dimension, Stance stance) {
  if (!std::isfinite(si)) return Fault::of(Code::not_finite, "The value is not a finite number.");
  if (!std::isfinite(si_spread)) return Fault::of(Code::not_finite, "The uncertainty is not a finite number.");
  if (si_spread < 0) return Fault::of(Code::out_of_range, "The uncertainty is negative; give its size without a sign.");
  if (stance == Stance::point && si < 0) {
    return Fault::of(Code::out_of_range,
                     "The temperature lies below absolute zero (-273.15 °C); check the sign and the unit.");
  }
  return Value(si, si_spread, dimension, stance);
}

Outcome<Value> Value::of(double number, double spread, const Unit& unit) {
  const double si = unit.to_si(number);
  if (!unit.is_linear() && !(si > 0)) {
    return Fault::of(Code::out_of_range,
                     "The hydrometer reading lies off its scale (" + unit.symbol() + "); check the number.");
  }
  return of_si(si, spread * unit.slope_at(number), unit.dimension(), unit.stance());
}

Outcome<void> Value::fits(const Unit& unit) const {
  if (dimension_ == unit.dimension() && !opposed(stance_, unit.stance())) return {};
  return wrong_dimension(dimension_, stance_, unit);
}

Outcome<double> Value::in(const Unit& unit) const {
  if (const auto fit = fits(unit); !fit) return fit.fault();
  return unit.from_si(si_);
}

Outcome<double> Value::spread_in(const Unit& unit) const {
  if (const auto fit = fits(unit); !fit) return fit.fault();
  return spread_ / unit.slope_at(unit.from_si(si_));
}

}  // namespace sash::quantity
