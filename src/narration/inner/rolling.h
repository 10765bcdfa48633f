#pragma once
// Rolling captions: every cue repeats what the one before it showed and adds a line or a few words.

#include <span>
#include <vector>

#include "narration/inner/raw_cue.h"

namespace sash::narration {

/// Whether the file as a whole rolls: repeats are the rule, not a speaker who says a thing twice.
bool rolls(std::span<const RawCue> cues);

/// For each cue the byte where its new text begins; the text's length when there is nothing new.
std::vector<std::size_t> new_text(std::span<const RawCue> cues);

}  // namespace sash::narration
