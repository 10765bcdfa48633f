#pragma once
// The characters of a formula: superscript and subscript digits and signs of Unicode, dots, brackets. Pure.

#include <optional>
#include <string>
#include <string_view>

namespace sash::chem::inner {

inline constexpr char32_t superscript_digits[10] = {U'⁰', U'¹', U'²', U'³', U'⁴', U'⁵', U'⁶', U'⁷', U'⁸', U'⁹'};
inline constexpr char32_t first_subscript = U'₀';
inline constexpr char32_t superscript_plus = U'⁺';
inline constexpr char32_t superscript_minus = U'⁻';

constexpr std::optional<int> superscript_digit(char32_t c) {
  for (int digit = 0; digit < 10; ++digit) {
    if (superscript_digits[digit] == c) return digit;
  }
  return std::nullopt;
}

constexpr std::optional<int> subscript_digit(char32_t c) {
  if (c < first_subscript || c > first_subscript + 9) return std::nullopt;
  return static_cast<int>(c - first_subscript);
}

constexpr std::optional<int> plain_digit(char32_t c) {
  if (c < U'0' || c > U'9') return std::nullopt;
  return static_cast<int>(c - U'0');
}

constexpr bool is_upper(char32_t c) { return c >= U'A' && c <= U'Z'; }
constexpr bool is_lower(char32_t c) { return c >= U'a' && c <= U'z'; }
constexpr bool is_blank(char32_t c) { return c == U' ' || c == U'\t'; }

/// +1 or -1 for a plus or any of the dashes people type for minus, raised or not; nothing for other characters.
constexpr std::optional<int> charge_sign(char32_t c) {
  switch (c) {
    case U'+':
    case superscript_plus:
      return 1;
    case U'-':
    case U'−':
    case U'–':
    case superscript_minus:
      return -1;
    default:
      return std::nullopt;
  }
}

constexpr bool is_hydrate_dot(char32_t c) {
  return c == U'·' || c == U'•' || c == U'∙' || c == U'⋅' || c == U'・' || c == U'×' || c == U'*';
}

/// The bracket that closes `bracket`.
constexpr char partner(char bracket) {
  switch (bracket) {
    case '(':
      return ')';
    case '[':
      return ']';
    default:
      return '}';
  }
}

bool is_state_at(std::string_view rest);             ///< "(s)", "(aq)" ... stands at the beginning
std::string_view numeral_at(std::string_view rest);  ///< "III" or "IV": an oxidation state, or iodine and vanadium

std::string raised(std::string_view text);   ///< digits and signs as superscripts
std::string lowered(std::string_view text);  ///< digits as subscripts

}  // namespace sash::chem::inner
