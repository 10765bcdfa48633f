#include "chem/inner/wording.h"

#include <array>
#include <charconv>

#include "chem/names.h"

namespace sash::chem::inner {

std::string shown(double number) {
  std::array<char, 32> text{};
  constexpr int digits = 6;
  const auto end = std::to_chars(text.data(), text.data() + text.size(), number, std::chars_format::general, digits);
  return {text.data(), end.ptr};
}

bool is_water(std::string_view substance) {
  const auto formula = formula_of(substance);
  return formula && formula->same_composition(*read_formula("H2O"));
}

}  // namespace sash::chem::inner
