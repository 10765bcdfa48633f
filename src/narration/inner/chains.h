#pragma once
// Reactions after one another: of two that were found the second starts with what the first made. Pure.

#include <vector>

#include "narration/figures.h"
#include "narration/inner/relating.h"

namespace sash::narration {

/// Relations of type chain among the reactions of `found`.
std::vector<SpokenRelation> chains(const std::vector<SpokenFigure>& figures, const std::vector<SpokenRelation>& found);

}  // namespace sash::narration
