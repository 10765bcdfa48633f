#pragma once
// Reads captions and transcripts: SubRip, WebVTT, text with time marks, bare text; whatever the encoding and line ends.
// Rolling captions lose their repeats but keep the first time of each word; music marks and the stock phrases that
// recognisers invent over music come out marked as noise. Does not recognise figures (figures.h).
// Untrusted input: linear in its length, bounded in what it keeps. Pure; safe from any thread.
// Sources: W3C WebVTT (parsing rules); SubRip has no standard, the customary reading is followed.

#include <cstdint>
#include <optional>
#include <string_view>

#include "narration/text.h"
#include "support/outcome.h"

namespace sash::narration {

/// Bytes of a narration that are read; what lies beyond is named in a warning. Ten hours of rolling captions with a
/// time for every word take about 10 MB.
inline constexpr std::size_t most_bytes = 12u << 20;

/// The lines of a narration. `file_name` chooses the form by its ending where the content leaves a choice, and is named
/// in sentences. `encoding` is the declared one ("ISO-8859-1"); empty: by byte order mark, UTF-8, or detected.
/// `whole_size` is the file's length in bytes where `bytes` is only its beginning.
/// Fails: Code::malformed when the bytes are no text or hold no line; Code::unknown_name for an unknown `encoding`.
Outcome<NarrationText> read_narration(std::string_view bytes, std::string_view file_name,
                                      std::string_view encoding = {},
                                      std::optional<std::uint64_t> whole_size = std::nullopt);

}  // namespace sash::narration
