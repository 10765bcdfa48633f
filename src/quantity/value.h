#pragma once
// One figure's value with its dimension and standard uncertainty: the only way a number with a unit travels
// through the computing. It does not know who said it, when, or in which unit: the figure does.
// Pure values, no I/O, no locale, no globals; const calls are safe from any thread.
// Sources: SI Brochure, 9th ed. (units); JCGM 100:2008, 4.3 (standard uncertainty).

#include "quantity/dimension.h"
#include "quantity/unit.h"
#include "support/outcome.h"

namespace sash::quantity {

/// A finite value and its standard uncertainty (one standard deviation), in coherent SI units (kg, m, s, mol, K).
/// Values carry no arithmetic: two of them may share a source of error, so they are combined by `propagate`
/// (propagate.h).
class Value {
 public:
  /// Makes `number` with `spread`, both in `unit`; a spread of 0 means exact by definition. The spread of a temperature
  /// is a difference: 25 °C with 0.5 is 298.15 K with 0.5 K. Fails: Code::not_finite (NaN, infinity, or a number the
  /// unit cannot carry); Code::out_of_range (negative spread, or below absolute zero).
  static Outcome<Value> of(double number, double spread, const Unit& unit);

  /// Makes a value from what computing gave, in coherent SI units of `dimension`. Fails: as `of`.
  static Outcome<Value> of_si(double si, double si_spread, const Dimension& dimension, Stance stance = Stance::either);

  double si() const noexcept { return si_; }             ///< value, SI unit of dimension()
  double si_spread() const noexcept { return spread_; }  ///< same unit, never negative
  const Dimension& dimension() const noexcept { return dimension_; }
  Stance stance() const noexcept { return stance_; }

  /// The number to show in `unit`: 0.250 kg asked in gram gives 250.
  /// Fails: Code::wrong_dimension, naming both; a temperature change asked as a temperature on a scale, likewise.
  Outcome<double> in(const Unit& unit) const;

  /// The standard uncertainty in `unit`. Fails: as `in`.
  Outcome<double> spread_in(const Unit& unit) const;

  bool operator==(const Value&) const = default;

 private:
  Value(double si, double spread, const Dimension& dimension, Stance stance)
      : si_(si), spread_(spread), dimension_(dimension), stance_(stance) {}

  Outcome<void> fits(const Unit& unit) const;

  double si_;
  double spread_;
  Dimension dimension_;
  Stance stance_;
};

}  // namespace sash::quantity
