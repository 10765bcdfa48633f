#pragma once
// A unit of measurement: its UCUM code for files, its spelling for the screen, its dimension and its size in coherent
// SI units (kg, m, s, K, mol, A, cd). It does not know what is measured (kind.h) or how people spell it (trade_unit.h).
// Pure values; const calls are safe from any thread.
// Sources: The Unified Code for Units of Measure, version 2.1; SI Brochure, 9th ed.; NIST SP 811 (2008), appendix B.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/dimension.h"
#include "quantity/scale.h"
#include "support/outcome.h"

namespace sash::quantity {

/// A temperature on a scale (25 °C) or a difference of two (a rise of 25 °C). `either` is a unit that serves both (K)
/// and every unit that is no temperature.
enum class Stance : std::uint8_t { either, point, difference };

/// Whether one is a temperature on a scale and the other a difference of two.
constexpr bool opposed(Stance a, Stance b) {
  return (a == Stance::point && b == Stance::difference) || (a == Stance::difference && b == Stance::point);
}

/// How a number in this unit becomes SI. Hydrometer degrees are not proportional to density.
enum class Law : std::uint8_t { linear, baume_heavy, baume_light };

class Unit {
 public:
  /// The unit one: a plain number.
  Unit() = default;

  /// Reads a UCUM code, case sensitive: prefixes, `.`, `/`, exponents, parentheses, whole factors and {annotations}.
  /// `Cel` and `[degF]` alone are temperatures on a scale; inside a product they are refused (write K). `[degBe]`,
  /// `[degBe_l]` (Baumé, heavier and lighter than water, 60/60 °F) and `[SG]` (relative to water at 4 °C) are private
  /// codes of ours. Fails: Code::malformed with the place; Code::unknown_name with the nearest code;
  /// Code::out_of_range.
  static Outcome<Unit> parse(std::string_view ucum);

  /// The unit of a code written in our own source. Requires: parse(ucum) is good.
  static Unit known(std::string_view ucum);

  const std::string& code() const noexcept { return code_; }      ///< UCUM, as in files
  const std::string& symbol() const noexcept { return symbol_; }  ///< as on the screen; empty for a plain number
  const Dimension& dimension() const noexcept { return dimension_; }
  const Scale& scale() const noexcept { return scale_; }
  Stance stance() const noexcept { return stance_; }
  bool is_linear() const noexcept { return law_ == Law::linear; }

  double to_si(double number) const noexcept;     ///< number in this unit to coherent SI
  double from_si(double si) const noexcept;       ///< the inverse
  double slope_at(double number) const noexcept;  ///< SI units per step of this unit; never negative

  /// The same unit for a difference: 10 °C then means 10 K. Units that are no temperature come back unchanged.
  Unit as_difference() const;
  /// The same unit as a point on a temperature scale. Units that are no temperature come back unchanged.
  Unit as_point() const;
  /// The same unit with another spelling on the screen.
  Unit spelled(std::string symbol) const;

  /// The same unit under another code, for a code whose meaning depends on the kind (% by mass in volume).
  Unit coded(std::string code) const;

  /// Whether a number in one can be given in the other: same dimension, and not a temperature against a difference.
  bool converts_to(const Unit& other) const noexcept;

  /// The same code read the same way.
  bool operator==(const Unit& other) const noexcept { return code_ == other.code_ && stance_ == other.stance_; }

 private:
  friend class UnitReader;

  std::string code_ = "1";
  std::string symbol_;
  Dimension dimension_;
  Scale scale_;
  double zero_ = 0;  // SI value at which the scale of a point reads 0, before scaling: 0 °C is 273.15 K
  Stance stance_ = Stance::either;
  Law law_ = Law::linear;
};

/// Every code without prefix that Unit::parse knows, in table order.
std::vector<std::string_view> known_unit_codes();

/// The fault for a number that cannot be given in a unit: "This is a mass, but a volume (mL) was wanted."
Fault wrong_dimension(const Dimension& have, Stance stance, const Unit& wanted);

}  // namespace sash::quantity
