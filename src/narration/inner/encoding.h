#pragma once
// Bytes to UTF-8: byte order marks, declared and detected encodings (ICU), and telling that something is no text.
// Sources: WHATWG Encoding ("UTF-8 decode"); file signatures as their formats publish them.

#include <string>
#include <string_view>

#include "support/outcome.h"

namespace sash::narration {

struct DecodedText {
  std::string utf8;
  std::string encoding;
  bool guessed = false;   ///< neither declared nor marked nor valid UTF-8
  bool repaired = false;  ///< malformed bytes became U+FFFD
};

/// Fails: Code::malformed when the bytes are no text; Code::unknown_name for an unknown `declared`.
Outcome<DecodedText> decode_text(std::string_view bytes, std::string_view file_name, std::string_view declared);

/// A byte order mark taken off, malformed bytes and NUL made U+FFFD.
std::string utf8_repaired(std::string_view bytes);

/// CRLF and CR made \n.
std::string unix_lines(std::string text);

/// Code points in `utf8`.
std::uint32_t characters(std::string_view utf8);

}  // namespace sash::narration
