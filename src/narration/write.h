#pragma once
// Writes cues as WebVTT and SubRip files that players accept. Which cues, and when, is the caller's choice. Pure.
// Sources: W3C WebVTT, chapter "Syntax" (what a conforming file is); SubRip by custom.

#include <span>
#include <string>

#include "support/moment.h"

namespace sash::narration {

struct Cue {
  Moment from;
  Moment until;
  std::string text;      ///< plain, lines joined by \n; markup characters are escaped as the format needs
  std::string speaker;   ///< WebVTT: a voice span; SubRip: left out
  std::string settings;  ///< WebVTT cue settings ("line:10% align:start"); SubRip: left out
};

/// A WebVTT file: conforming as long as the cues are in order of their start. A cue that would end before or when it
/// starts is given one millisecond.
std::string write_webvtt(std::span<const Cue> cues);

/// A SubRip file: UTF-8 without byte order mark, CRLF, numbered from 1. Empty lines inside a cue are dropped, because
/// they would end it.
std::string write_subrip(std::span<const Cue> cues);

std::string webvtt_time(Moment t);  ///< "00:01:02.345"; negative times are written as zero
std::string subrip_time(Moment t);  ///< "00:01:02,345"; negative times are written as zero

}  // namespace sash::narration
