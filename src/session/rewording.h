#pragma once
// Rewording a narration line: what is pinned to its words stays with them. Pure.

#include <string_view>

#include "session/editing.h"

namespace sash::session {

/// Where words of `before` stand in `after`: untouched by the change they keep their place or move with the text around
/// them; else the same words nearest by; nothing when they are gone.
std::optional<model::Words> carried_words(std::string_view before, std::string_view after, const model::Words& words);

/// The line as given; where its text changed, word times go (they no longer fit), and figures follow their words or
/// stand without.
/// Requires: the record has a line of that id.
Planned reword_line(const model::Record& record, const model::NarrationLine& line, std::string name);

}  // namespace sash::session
