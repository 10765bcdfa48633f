#pragma once
// Fraction: an exact rational number, for counting atoms and balancing equations. No floating point anywhere.
// It holds 128-bit terms in lowest form; a result that does not fit is `lost`, stays lost through further arithmetic,
// and is asked about once at the end, as NaN would be. Pure values, safe from any thread.

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "support/moment.h"

namespace sash::chem {

class Fraction {
 public:
  constexpr Fraction() = default;
  constexpr Fraction(std::int64_t whole) : top_(whole) {}  // NOLINT(google-explicit-constructor): a count is a fraction
  /// top/bottom in lowest terms; lost when bottom is 0.
  static Fraction ratio(WideInteger top, WideInteger bottom);

  bool lost() const { return bottom_ == 0; }  ///< some step did not fit into 128 bits, or divided by zero
  bool whole() const { return bottom_ == 1; }
  bool zero() const { return top_ == 0 && bottom_ != 0; }
  int sign() const { return top_ > 0 ? 1 : (top_ < 0 ? -1 : 0); }
  WideInteger top() const { return top_; }
  WideInteger bottom() const { return bottom_; }  ///< positive, unless lost
  double number() const { return static_cast<double>(top_) / static_cast<double>(bottom_); }

  Fraction operator-() const;
  friend Fraction operator+(Fraction a, Fraction b);
  friend Fraction operator-(Fraction a, Fraction b);
  friend Fraction operator*(Fraction a, Fraction b);
  friend Fraction operator/(Fraction a, Fraction b);  ///< lost when b is zero
  friend bool operator==(Fraction a, Fraction b) = default;
  friend bool operator<(Fraction a, Fraction b) { return (a - b).sign() < 0; }

  /// "3", "1/2", "-7/3". Requires: not lost.
  std::string text() const;
  /// "3", "0.5", "4.5" where the decimal form ends within six digits, otherwise as text(). Requires: not lost.
  std::string decimal_text() const;

  /// Reads "12", "0.5", ".5", "1/2" that fills all of `s`, without sign; nothing otherwise, or beyond nine digits a
  /// side.
  static std::optional<Fraction> read(std::string_view s);

 private:
  WideInteger top_ = 0;
  WideInteger bottom_ = 1;
};

/// Greatest common divisor and least common multiple of magnitudes; the multiple is nothing when it does not fit.
WideInteger common_divisor(WideInteger a, WideInteger b);
std::optional<WideInteger> common_multiple(WideInteger a, WideInteger b);
std::string integer_text(WideInteger n);

}  // namespace sash::chem
