#pragma once
// Times as people type and read them on the command line. Pure.

#include <string>
#include <string_view>

#include "support/moment.h"
#include "support/outcome.h"

namespace sash::cli {

/// "12", "12.5", "1:02.5" or "1:00:02.5": seconds, minutes and seconds, or hours as well.
/// Fails: malformed.
Outcome<Moment> read_time(std::string_view text);

/// "0:02:05.250", to the millisecond.
std::string time_text(Moment at);

}  // namespace sash::cli
