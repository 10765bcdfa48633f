#pragma once
// What a viewer reads of a callout: its signal word, then its text. One place, so that cover, captions and script
// agree. Pure. Source: ANSI Z535.6 (the signal word comes first; from memory).

#include <string>

#include "model/safety.h"

namespace sash::safety {

/// "DANGER: Poisonous brown gas.\nHood on." for a shown callout; the text alone for a spoken one, which is heard as it
/// is.
std::string read_text(const model::Callout& callout);

/// "DANGER", "WARNING", "CAUTION", "NOTICE".
std::string signal_word(model::Level level);

}  // namespace sash::safety
