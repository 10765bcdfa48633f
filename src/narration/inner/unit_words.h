#pragma once
// Units as they are said, abbreviated, glued to their number or misheard: "mils", "milli moles", "degrees c", "g per
// ml". The table is assets/tables/spoken_units.tsv; prefixes and "per" are put together here. Pure.

#include <optional>
#include <string>

#include "narration/inner/token.h"
#include "quantity/kind.h"

namespace sash::narration {

struct SpokenUnit {
  std::size_t first = 0;  ///< tokens [first, last)
  std::size_t last = 0;
  std::string unit;  ///< UCUM; empty for what is no unit of a figure (rpm, square inches, a rate)
  quantity::Kind kind = quantity::Kind::other;
  bool bare_degrees = false;  ///< "degrees" without a scale
  bool misheard = false;
  bool plural = false;  ///< said with an s
};

/// The longest unit that begins at token `at`. `behind_digits`: the token before is a number in digits, which is when
/// single letters count ("40 C", "3M").
std::optional<SpokenUnit> read_spoken_unit(const TokenStream& s, std::size_t at, bool behind_digits);

}  // namespace sash::narration
