#pragma once
// SubRip files. The format has no standard; this reads what players read: a missing number, a full stop for the comma,
// short fractions (",5" is half a second), missing blank lines, coordinates behind the times. Pure; linear.

#include <string>
#include <string_view>
#include <vector>

#include "support/moment.h"

namespace sash::narration {

struct SubRipCue {
  Moment from;
  Moment until;          ///< as written; may lie before `from`
  std::string text;      ///< lines joined by \n; formatting tags off, the five basic character references decoded
  std::size_t line = 0;  ///< of the timing, from 1
};

struct SubRip {
  std::vector<SubRipCue> cues;
  std::vector<std::size_t> refused_timings;  ///< lines (from 1) with an arrow that give no cue
};

SubRip parse_subrip(std::string_view text);

}  // namespace sash::narration
