#include "chem/fraction.h"

#include <algorithm>

#include "support/check.h"
#include "support/text.h"

namespace sash::chem {
namespace {

constexpr std::size_t most_digits = 9;

bool all_digits(std::string_view s) {
  return std::ranges::all_of(s, [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

WideInteger common_divisor(WideInteger a, WideInteger b) {
  if (a < 0) a = -a;
  if (b < 0) b = -b;
  while (b != 0) {
    const WideInteger rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

std::optional<WideInteger> common_multiple(WideInteger a, WideInteger b) {
  if (a == 0 || b == 0) return 0;
  WideInteger product = 0;
  if (__builtin_mul_overflow(a / common_divisor(a, b), b, &product)) return std::nullopt;
  return product < 0 ? -product : product;
}

std::string integer_text(WideInteger n) {
  if (n == 0) return "0";
  std::string digits;
  const bool negative = n < 0;
  for (; n != 0; n /= 10) {
    const auto digit = static_cast<int>(n % 10);
    digits.push_back(static_cast<char>('0' + (digit < 0 ? -digit : digit)));
  }
  if (negative) digits.push_back('-');
  std::ranges::reverse(digits);
  return digits;
}

Fraction Fraction::ratio(WideInteger top, WideInteger bottom) {
  constexpr WideInteger greatest = static_cast<WideInteger>(1) << 126;  // every term kept has a magnitude that fits
  Fraction f;
  if (bottom == 0 || top > greatest || top < -greatest || bottom > greatest || bottom < -greatest) {
    f.bottom_ = 0;
    return f;
  }
  const WideInteger shared = common_divisor(top, bottom);
  f.top_ = top / shared;
  f.bottom_ = bottom / shared;
  if (f.bottom_ < 0) {
    f.top_ = -f.top_;
    f.bottom_ = -f.bottom_;
  }
  return f;
}

Fraction Fraction::operator-() const {
  Fraction f = *this;
  f.top_ = -f.top_;
  return f;
}

Fraction operator+(Fraction a, Fraction b) {
  if (a.lost() || b.lost()) return Fraction::ratio(1, 0);
  const WideInteger shared = common_divisor(a.bottom_, b.bottom_);
  WideInteger left = 0;
  WideInteger right = 0;
  WideInteger top = 0;
  WideInteger bottom = 0;
  const bool over = __builtin_mul_overflow(a.top_, b.bottom_ / shared, &left) ||
                    __builtin_mul_overflow(b.top_, a.bottom_ / shared, &right) ||
                    __builtin_add_overflow(left, right, &top) ||
                    __builtin_mul_overflow(a.bottom_, b.bottom_ / shared, &bottom);
  return over ? Fraction::ratio(1, 0) : Fraction::ratio(top, bottom);
}

Fraction operator-(Fraction a, Fraction b) { return a + (-b); }

Fraction operator*(Fraction a, Fraction b) {
  if (a.lost() || b.lost()) return Fraction::ratio(1, 0);
  // Cancelling across first keeps the products small.
  const Fraction ab = Fraction::ratio(a.top_, b.bottom_);
  const Fraction ba = Fraction::ratio(b.top_, a.bottom_);
  WideInteger top = 0;
  WideInteger bottom = 0;
  const bool over =
      __builtin_mul_overflow(ab.top_, ba.top_, &top) || __builtin_mul_overflow(ab.bottom_, ba.bottom_, &bottom);
  return over ? Fraction::ratio(1, 0) : Fraction::ratio(top, bottom);
}

Fraction operator/(Fraction a, Fraction b) {
  if (b.lost()) return b;
  return a * Fraction::ratio(b.bottom_, b.top_);
}

std::string Fraction::text() const {
  promise(!lost(), "a lost fraction has no text");
  return whole() ? integer_text(top_) : integer_text(top_) + "/" + integer_text(bottom_);
}

std::string Fraction::decimal_text() const {
  promise(!lost(), "a lost fraction has no text");
  WideInteger scale = 1;
  for (int places = 1; places <= 6; ++places) {
    scale *= 10;
    if (whole() || scale % bottom_ != 0) continue;
    const WideInteger magnitude = (top_ < 0 ? -top_ : top_);
    const WideInteger rest = (magnitude % bottom_) * (scale / bottom_);
    std::string decimals = integer_text(rest);
    decimals.insert(0, static_cast<std::size_t>(places) - decimals.size(), '0');
    return (top_ < 0 ? "-" : "") + integer_text(magnitude / bottom_) + "." + decimals;
  }
  return text();
}

std::optional<Fraction> Fraction::read(std::string_view s) {
  const auto digits = [](std::string_view part) -> std::optional<std::int64_t> {
    if (part.empty() || part.size() > most_digits || !all_digits(part)) return std::nullopt;
    return read_integer(part);
  };
  if (const auto slash = s.find('/'); slash != std::string_view::npos) {
    const auto top = digits(s.substr(0, slash));
    const auto bottom = digits(s.substr(slash + 1));
    if (!top || !bottom || *bottom == 0) return std::nullopt;
    return ratio(*top, *bottom);
  }
  const auto point = s.find('.');
  if (point == std::string_view::npos) {
    const auto n = digits(s);
    return n ? std::optional<Fraction>(*n) : std::nullopt;
  }
  const auto before = point == 0 ? std::optional<std::int64_t>(0) : digits(s.substr(0, point));
  const auto after = digits(s.substr(point + 1));
  if (!before || !after) return std::nullopt;
  WideInteger scale = 1;
  for (std::size_t i = point + 1; i < s.size(); ++i) scale *= 10;
  return ratio(*before * scale + *after, scale);
}

}  // namespace sash::chem
