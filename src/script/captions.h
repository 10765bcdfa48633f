#pragma once
// Captions of the whole film: what is said, and the callouts, as WebVTT and SubRip. Pure.

#include <vector>

#include "model/record.h"
#include "narration/write.h"

namespace sash::script {

/// What is said, in order, without what was marked as noise.
std::vector<narration::Cue> narration_cues(const model::Record& record);

/// Callouts that were not refused, at the top of the picture, in order.
std::vector<narration::Cue> callout_cues(const model::Record& record);

}  // namespace sash::script
