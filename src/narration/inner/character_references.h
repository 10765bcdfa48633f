#pragma once
// HTML character references ("&amp;", "&#x20;"), as WebVTT cue text uses them. Source: WHATWG HTML, 13.2.5 and 13.5.

#include <string>
#include <string_view>

namespace sash::narration {

/// Consumes the reference whose '&' stood just before `at`, appends what it stands for to `to` and returns the bytes
/// used. Returns 0 and appends nothing when there is no reference there. `stop`: a character that also ends the
/// attempt.
std::size_t consume_reference(std::string_view text, std::size_t at, char stop, std::string& to);

/// The text with all its references decoded.
std::string decode_references(std::string_view text);

}  // namespace sash::narration
