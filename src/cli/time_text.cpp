#include "cli/time_text.h"

#include <fmt/format.h>

#include "support/text.h"

namespace sash::cli {

Outcome<Moment> read_time(std::string_view text) {
  const auto malformed = [&] {
    return Fault::of(
        Code::malformed,
        fmt::format(
            "'{}' is not a time; write seconds (12.5), minutes and seconds (1:02.5) or hours as well (1:00:02.5).",
            text),
        std::string(text));
  };
  const auto pieces = split(text, ':');
  if (pieces.size() > 3) return malformed();
  double seconds = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const bool last = i + 1 == pieces.size();
    const auto number = read_number(pieces[i]);
    const bool whole = pieces[i].find_first_not_of("0123456789") == std::string_view::npos;
    if (!number || *number < 0 || (!last && !whole) || (i > 0 && *number >= 60)) return malformed();
    seconds = seconds * 60 + *number;
  }
  if (seconds > 1e8) return malformed();
  return Moment::seconds(seconds);
}

std::string time_text(Moment at) {
  const auto ms = at.in_millis();
  const auto whole = ms < 0 ? -ms : ms;
  return fmt::format("{}{}:{:02}:{:02}.{:03}", ms < 0 ? "-" : "", whole / 3'600'000, whole / 60'000 % 60,
                     whole / 1000 % 60, whole % 1000);
}

}  // namespace sash::cli
