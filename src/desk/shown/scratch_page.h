#pragma once
// The scratch page: a formula, a name or an equation typed in, and what chemistry says of it, without any record. Pure.

#include <string>
#include <string_view>
#include <vector>

namespace sash::desk {

struct ScratchLine {
  std::string words;     ///< "molar mass"
  std::string value;     ///< "249.68 g/mol"
  bool formula = false;  ///< `value` is set as a formula
  bool bad = false;
};

/// Nothing for nothing.
std::vector<ScratchLine> scratch(std::string_view typed);

}  // namespace sash::desk
