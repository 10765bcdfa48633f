#pragma once
// Words that name a substance and mean something else where they stand, and words that never begin a name:
// assets/tables/everyday_words.tsv. Pure.

#include <string_view>

#include "narration/inner/token.h"

namespace sash::narration {

/// Words so common that no name of a compound begins with them.
bool is_common_word(std::string_view word);

/// Whether tokens [at, last) name a compound and are ordinary English here: "the lead to the meter", "a milk carton".
bool is_everyday(const TokenStream& s, std::size_t at, std::size_t last);

/// Whether what is named at `at` is only what something else is like: "smells of bananas", "the colour of weak tea".
bool is_likened(const TokenStream& s, std::size_t at);

}  // namespace sash::narration
