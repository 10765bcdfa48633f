#pragma once
// Transcripts as plain text: paragraphs behind time marks ("[0:02]", "[1:02:03]", "0:02" on a line of its own), or
// none.

#include <string_view>
#include <vector>

#include "narration/inner/raw_cue.h"

namespace sash::narration {

/// The paragraphs behind marks; empty when the text has no marks. Text before the first mark starts at zero.
/// An end that the file does not give is that of the next mark, or follows from the number of words.
std::vector<RawCue> parse_timed_text(std::string_view text);

/// The paragraphs of a text without times, laid one after another at the pace of speech.
std::vector<RawCue> parse_plain_text(std::string_view text);

/// How long `text` takes to say, at 150 words a minute; at least a second.
Moment spoken_length(std::string_view text);

}  // namespace sash::narration
