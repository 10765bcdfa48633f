#pragma once
// Reaction equations that the figures suggest: reactants measured in, a product weighed out or expected, by-products
// from a closed list. The balancer decides whether an equation holds; several that do are all offered. Pure.

#include <vector>

#include "narration/figures.h"
#include "narration/inner/relating.h"
#include "narration/inner/samples.h"

namespace sash::narration {

/// Relations of type reaction, the best candidate of each product first.
std::vector<SpokenRelation> reactions(const std::vector<SpokenFigure>& figures, const std::vector<Sample>& samples);

}  // namespace sash::narration
