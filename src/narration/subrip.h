#pragma once
// SubRip files. The format has no standard; this reads what players read: missing or wrong numbers, a full stop for the
// comma, missing hours, short fractions (",5" is half a second), mistyped arrows, missing or doubled blank lines,
// coordinates behind the times. Words behind times that cannot be read are kept: they follow the cue before. Pure;
// linear.

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
  std::vector<std::size_t>
      refused_timings;  ///< lines (from 1) meant as times; their cues stand at the end of the one before
};

/// The cues in the order of the file. None when no time can be read.
SubRip parse_subrip(std::string_view text);

}  // namespace sash::narration
