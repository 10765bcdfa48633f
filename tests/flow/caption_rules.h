#pragma once
// Strict readers of caption files, written from the rules and not from the program: they list every offence against
// what a conforming author may write, where players forgive much. Sources: W3C WebVTT, section "Syntax" (4.1 to 4.4);
// for SubRip, which has no standard, the customary form as the Matroska specification describes it (numbered from 1,
// HH:MM:SS,mmm --> HH:MM:SS,mmm, text, empty line).

#include <string>
#include <string_view>
#include <vector>

namespace sash::flow {

struct ReadCue {
  long from_ms = 0;
  long until_ms = 0;
  std::string text;
};

struct ReadCaptions {
  std::vector<ReadCue> cues;
  std::vector<std::string> offences;  ///< "line 4: ..."
};

ReadCaptions read_webvtt_strictly(std::string_view file);
ReadCaptions read_subrip_strictly(std::string_view file);

}  // namespace sash::flow
