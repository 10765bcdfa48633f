#pragma once
// Relations of whole processes that figures suggest: an electrolysis, a titration of an acid with a base or the other
// way round, a temperature change with the temperatures it lies between, two reactions in a row. Slots and keys are
// those of the workings. Pure.

#include <vector>

#include "narration/figures.h"
#include "narration/inner/relating.h"
#include "narration/inner/samples.h"

namespace sash::narration {

/// `found`: the relations proposed so far; reactions among them may form a chain.
std::vector<SpokenRelation> processes(const std::vector<SpokenFigure>& figures, const std::vector<Sample>& samples,
                                      const std::vector<SpokenRelation>& found);

}  // namespace sash::narration
