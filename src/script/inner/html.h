#pragma once
// Pieces of HTML: escaping, elements, typeset workings. Everything that comes from a record passes through `escaped`.
// Pure. Source: WHATWG HTML Living Standard, 13.3 (escaping a string).

#include <string>
#include <string_view>

#include "workings/writing.h"

namespace sash::script::inner {

/// Safe in text and in double-quoted attributes; control characters that HTML does not allow are dropped.
std::string escaped(std::string_view text);

/// As escaped, with line feeds as breaks.
std::string escaped_lines(std::string_view text);

/// Bytes as base64. Source: RFC 4648, section 4.
std::string base64(std::string_view bytes);

/// One line of workings: italic symbols with subscripts, fractions, units after a thin space; figures link to their
/// row.
std::string typeset(const workings::Line& line);

}  // namespace sash::script::inner
