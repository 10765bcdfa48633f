#pragma once
// NarrationText: what reading a caption file or a transcript yields: timed lines, where each stood in the file, and
// sentences about what was odd. It does not know what was said in them. Pure values.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "model/footage.h"

namespace sash::narration {

/// How the narration was written down.
enum class Form {
  subrip,
  webvtt,
  timed_text,  ///< paragraphs behind [m:ss] or [h:mm:ss] marks
  plain_text,  ///< no times at all; the times of the lines are guesses from their length
};

std::string_view name_of(Form form);

/// Where a line stood: `at` characters (code points) into the text of the cue or paragraph that starts at `cue`.
/// A rolling caption repeats earlier lines, so a new line often starts well inside its cue.
struct LineSource {
  Moment cue;
  std::uint32_t at = 0;
  bool operator==(const LineSource&) const = default;
};

struct NarrationText {
  Form form = Form::plain_text;
  bool rolling = false;                     ///< the file repeated its lines; the repeats are dropped
  std::string encoding = "UTF-8";           ///< what the bytes were read as
  std::vector<model::NarrationLine> lines;  ///< in order of time, without ids or footage
  std::vector<LineSource> sources;          ///< one for each line
  std::vector<std::string> warnings;        ///< each one sentence with its place; nothing was lost over them
};

}  // namespace sash::narration
