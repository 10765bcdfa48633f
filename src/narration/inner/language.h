#pragma once
// Whether lines are English, judged by the script and by the commonest words of English and of other languages. A short
// text without any of them is given the benefit of the doubt: "20 mL water. Stir." is no language in particular.
// The word lists are from memory.

#include <span>

#include "model/footage.h"

namespace sash::narration {

bool looks_english(std::span<const model::NarrationLine> lines);

}  // namespace sash::narration
