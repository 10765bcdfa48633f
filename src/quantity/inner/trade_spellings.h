#pragma once
// The words and symbols behind read_trade_unit, each with the UCUM code it stands for. Pure constant data.
// Source: common practice of the bench and the kitchen, no source; codes as in UCUM.

#include <optional>
#include <span>
#include <string_view>

#include "quantity/kind.h"

namespace sash::quantity::inner {

struct Spelling {
  std::string_view text;
  std::string_view code;
  std::optional<Kind> kind = std::nullopt;  ///< where the word says more than the unit does
};

/// An SI prefix as a word, with its symbol.
struct PrefixWord {
  std::string_view word;
  std::string_view code;
};

/// What may stand beside a percent sign, blanks, points and brackets left out.
struct PercentWord {
  std::string_view text;
  Kind kind;
};

std::span<const Spelling> spelled_symbols();           ///< looked up as written
std::span<const Spelling> spelled_words();             ///< lower case, singular
std::span<const PrefixWord> prefix_words();            ///< "milli" and the like
std::span<const std::string_view> prefixable_words();  ///< unit words that may carry one; all are in spelled_words
std::span<const PercentWord> percent_words();

}  // namespace sash::quantity::inner
