#pragma once
// A decimal number as its digits, for rounding by hand rules. Pure.

#include <string>

namespace sash::quantity::inner {

/// `digits` (first not zero, unless the number is zero) stand before the place `exponent`: 0.0665 is "665" and -4.
/// The value is digits × 10^exponent.
struct Decimal {
  bool negative = false;
  std::string digits = "0";
  int exponent = 0;

  /// The shortest decimal that reads back as `number`. Requires: finite.
  static Decimal of(double number);

  bool is_zero() const { return digits == "0"; }
  /// Power of ten of the first digit: 0.0665 gives -2. Requires: !is_zero().
  int magnitude() const { return exponent + static_cast<int>(digits.size()) - 1; }
  /// Half to even at 10^place; ends exactly at that place, zeros added where needed.
  Decimal rounded(int place) const;
  /// Zeros after the last other digit taken off.
  Decimal trimmed() const;
  /// Plain notation with grouped thousands: "12 000", "0.0665", "−3.0".
  std::string plain() const;
  /// Moves the decimal mark: the value times 10^by.
  Decimal shifted(int by) const;
};

}  // namespace sash::quantity::inner
