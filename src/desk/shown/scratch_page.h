#pragma once
// The scratch page: a formula, a name, an equation or quantities typed in, and what chemistry says of them, without any
// record. Pure.

#include <string>
#include <string_view>
#include <vector>

namespace sash::desk {

struct ScratchLine {
  std::string words;     ///< "molar mass"; empty: a line of workings, or a sentence
  std::string value;     ///< "249.68 g/mol"
  bool formula = false;  ///< `value` is set as a formula
  bool bad = false;
};

/// Nothing for nothing.
std::vector<ScratchLine> scratch(std::string_view typed);

}  // namespace sash::desk
