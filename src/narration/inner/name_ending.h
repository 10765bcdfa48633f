#pragma once
// Names of substances that no table lists, known by how they end ("4-aminophenol", "benzilic acid", "thionyl
// chloride"): assets/tables/name_endings.tsv. Pure.

#include <cstddef>

#include "narration/inner/token.h"

namespace sash::narration {

/// The token behind the name that begins at `at`, or 0 where none does.
std::size_t name_by_ending(const TokenStream& s, std::size_t at);

}  // namespace sash::narration
