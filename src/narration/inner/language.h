#pragma once
// Whether lines are English, judged by its commonest words. Short texts are given the benefit of the doubt.

#include <span>

#include "model/footage.h"

namespace sash::narration {

bool looks_english(std::span<const model::NarrationLine> lines);

}  // namespace sash::narration
