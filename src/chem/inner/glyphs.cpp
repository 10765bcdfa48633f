#include "chem/inner/glyphs.h"

#include <algorithm>
#include <array>

#include "support/text.h"

namespace sash::chem::inner {

bool is_state_at(std::string_view rest) {
  constexpr std::array states{"(s)", "(l)", "(g)", "(aq)", "(cr)"};
  return std::ranges::any_of(states, [rest](std::string_view s) { return rest.starts_with(s); });
}

std::string_view numeral_at(std::string_view rest) {
  std::size_t n = 0;
  while (n < rest.size() && (rest[n] == 'I' || rest[n] == 'V')) ++n;
  return rest.substr(0, n);
}

std::string raised(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const char32_t code = static_cast<unsigned char>(c);
    if (const auto digit = plain_digit(code)) {
      append_utf8(out, superscript_digits[*digit]);
    } else if (const auto sign = charge_sign(code)) {
      append_utf8(out, *sign > 0 ? superscript_plus : superscript_minus);
    } else {
      out.push_back(c);
    }
  }
  return out;
}

std::string lowered(std::string_view text) {
  std::string out;
  for (const char c : text) {
    const auto digit = plain_digit(static_cast<unsigned char>(c));
    append_utf8(out, digit ? first_subscript + static_cast<char32_t>(*digit) : static_cast<unsigned char>(c));
  }
  return out;
}

}  // namespace sash::chem::inner
