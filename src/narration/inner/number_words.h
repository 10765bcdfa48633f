#pragma once
// The grammar of spoken and written numbers: "one point two two", "eleven hundred and fifty", "two fifty", "three and a
// half", "2 1/2", "1 point 5 4", "a couple hundred", "two thirds". What they count is not its business. Pure.

#include <optional>
#include <string>

#include "narration/inner/token.h"

namespace sash::narration {

struct SpokenNumber {
  std::size_t first = 0;  ///< tokens [first, last)
  std::size_t last = 0;
  double value = 0;
  std::string digits;     ///< as digits, with what was said behind the point: "1.20"; empty for fractions
  bool fraction = false;  ///< "half", "two thirds": a share, until a unit makes it an amount
  bool article = false;   ///< the number is the "a" of "a gram"
  bool vague = false;     ///< "a couple": about two
  bool year = false;      ///< spoken in pairs, as years are: "nineteen eighty six"
  bool paired = false;    ///< "two fifty": hundred left out
  bool decimal = false;   ///< has digits behind a point
  bool written = false;   ///< begins with digits
};

/// The longest number that begins at token `at`. Does not read a lone "a" or "an" as one (see `read_article`).
std::optional<SpokenNumber> read_spoken_number(const TokenStream& s, std::size_t at);

/// "a"/"an" as the number one.
std::optional<SpokenNumber> read_article(const TokenStream& s, std::size_t at);

/// The fraction behind a unit: "(an hour) and a half", "(a gram) and three quarters". Value of the fraction and the
/// token behind it.
struct FractionTail {
  double value;
  std::size_t last;
};
std::optional<FractionTail> read_fraction_tail(const TokenStream& s, std::size_t at);

}  // namespace sash::narration
