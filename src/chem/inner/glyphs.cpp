#include "chem/inner/glyphs.h"

#include "support/text.h"

namespace sash::chem::inner {

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
