#pragma once
// The size of a unit in its coherent SI unit, kept as one number over another so that a millilitre is 1/1000000 m³ and
// not the nearest binary fraction to 0.000001: conversions then round once. Pure values; safe from any thread.

namespace sash::quantity {

/// A positive factor `over()/under()`. Both stay whole numbers, in lowest terms, as long as they fit 2^53.
class Scale {
 public:
  constexpr Scale() = default;
  constexpr explicit Scale(double over, double under = 1) : over_(over), under_(under) {}

  double over() const noexcept { return over_; }
  double under() const noexcept { return under_; }
  double factor() const noexcept { return over_ / under_; }

  double apply(double number) const noexcept { return number * over_ / under_; }
  double undo(double number) const noexcept { return number * under_ / over_; }

  Scale times(const Scale& other) const noexcept;
  Scale divided_by(const Scale& other) const noexcept { return times(Scale(other.under_, other.over_)); }
  Scale to_the(int power) const noexcept;

  bool operator==(const Scale&) const = default;

 private:
  double over_ = 1;
  double under_ = 1;
};

}  // namespace sash::quantity
