#include "quantity/inner/decimal.h"

#include <charconv>
#include <cmath>
#include <string_view>

#include "support/check.h"

namespace sash::quantity::inner {

Decimal Decimal::of(double number) {
  promise(std::isfinite(number), "only finite numbers are written out");
  char buffer[40];
  const auto [end, error] =
      std::to_chars(buffer, buffer + sizeof buffer, std::abs(number), std::chars_format::scientific);
  promise(error == std::errc(), "a double fits forty characters");
  const std::string_view text(buffer, static_cast<std::size_t>(end - buffer));  // d.dddde±xx
  const std::size_t e = text.find('e');
  Decimal out;
  out.negative = number < 0;
  out.digits = std::string(text.substr(0, 1));
  if (e > 1) out.digits += text.substr(2, e - 2);
  int power = 0;
  const std::size_t sign = text[e + 1] == '+' ? 1 : 0;
  std::from_chars(text.data() + e + 1 + sign, text.data() + text.size(), power);
  out.exponent = power - static_cast<int>(out.digits.size()) + 1;
  return out.is_zero() ? Decimal{} : out;
}

Decimal Decimal::rounded(int place) const {
  Decimal out = *this;
  if (exponent >= place) {
    if (is_zero()) {
      out.exponent = place;
      return out;
    }
    out.digits.append(static_cast<std::size_t>(exponent - place), '0');
    out.exponent = place;
    return out;
  }
  const auto cut = static_cast<std::size_t>(place - exponent);  // digits to drop
  std::string kept = cut < digits.size() ? digits.substr(0, digits.size() - cut) : "";
  const std::string_view dropped =
      cut <= digits.size() ? std::string_view(digits).substr(digits.size() - cut) : std::string_view("0");
  const bool odd = !kept.empty() && (kept.back() - '0') % 2 == 1;
  const bool tie = dropped[0] == '5' && dropped.find_first_not_of('0', 1) == std::string_view::npos;
  const bool up = dropped[0] > '5' || (dropped[0] == '5' && !tie) || (tie && odd);
  if (up) {
    std::size_t i = kept.size();
    while (i > 0 && kept[i - 1] == '9') kept[--i] = '0';
    if (i > 0) {
      ++kept[i - 1];
    } else {
      kept.insert(0, "1");
    }
  }
  out.digits = kept.empty() ? "0" : kept;
  out.exponent = place;
  if (out.is_zero()) out.negative = false;
  return out;
}

Decimal Decimal::trimmed() const {
  Decimal out = *this;
  while (out.digits.size() > 1 && out.digits.back() == '0') {
    out.digits.pop_back();
    ++out.exponent;
  }
  return out.is_zero() ? Decimal{} : out;
}

Decimal Decimal::shifted(int by) const {
  Decimal out = *this;
  out.exponent += by;
  return out;
}

std::string Decimal::plain() const {
  std::string whole = digits;
  std::string rest;
  if (exponent >= 0) {
    if (!is_zero()) whole.append(static_cast<std::size_t>(exponent), '0');
  } else {
    const auto places = static_cast<std::size_t>(-exponent);
    if (whole.size() <= places) whole.insert(0, places - whole.size() + 1, '0');
    rest = whole.substr(whole.size() - places);
    whole.resize(whole.size() - places);
  }
  constexpr std::string_view no_break_space = "\u00A0";
  if (whole.size() >= 5) {
    for (std::size_t at = whole.size(); at > 3;) {
      at -= 3;
      whole.insert(at, no_break_space);
    }
  }
  return (negative ? "−" : "") + whole + (rest.empty() ? "" : "." + rest);
}

}  // namespace sash::quantity::inner
