#pragma once
// Integers in raised digits, for units (m⁻³) and powers of ten (10⁻⁵). Pure.

#include <string>

namespace sash::quantity::inner {

/// -12 gives "⁻¹²".
inline std::string superscript(int number) {
  constexpr const char* raised[] = {"⁰", "¹", "²", "³", "⁴", "⁵", "⁶", "⁷", "⁸", "⁹"};
  std::string out;
  for (const char c : std::to_string(number)) out += c == '-' ? "⁻" : raised[c - '0'];
  return out;
}

}  // namespace sash::quantity::inner
