#pragma once
// Small pieces of sentences: numbers as a fault shows them, and what counts as water. Private to the part.

#include <string>
#include <string_view>

namespace sash::chem::inner {

/// At most six significant digits, no trailing zeros, no locale: "0.25", "1e-05".
std::string shown(double number);

/// "water", "H2O" and the names that mean it.
bool is_water(std::string_view substance);

}  // namespace sash::chem::inner
