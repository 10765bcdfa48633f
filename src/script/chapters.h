#pragma once
// Chapters of the film as a list of times and titles, one a line, ready to paste under a video. Pure.
// Source: common practice of video sites, no source: the first chapter stands at 0:00, times rise.

#include <string>

#include "model/record.h"

namespace sash::script {

/// "0:00 Round the cycle\n...". Begins with a chapter at 0:00 even when the record's first one comes later; empty when
/// the record has no chapter.
std::string chapters_text(const model::Record& record);

}  // namespace sash::script
