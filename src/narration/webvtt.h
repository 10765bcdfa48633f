#pragma once
// WebVTT files as their standard's parser reads them: cues with identifier, settings and raw text, regions, style
// sheets. Comments are dropped. What the markup in a cue says is cue_text.h's. Pure; safe from any thread; linear.
// Source: W3C WebVTT, chapter "Parsing".

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "support/moment.h"
#include "support/outcome.h"

namespace sash::narration {

struct VttRegion {
  std::string id;
  double width = 100;  ///< percent of the video's width
  double lines = 3;    ///< whole; the standard sets no bound, so it may be beyond any integer type
  std::pair<double, double> anchor{0, 100};           ///< percent of the region
  std::pair<double, double> viewport_anchor{0, 100};  ///< percent of the video
  bool scroll_up = false;
};

struct VttSettings {
  enum class Direction { horizontal, growing_left, growing_right };
  enum class LineAlign { start, center, end };
  enum class PositionAlign { automatic, line_left, center, line_right };
  enum class TextAlign { start, center, end, left, right };
  std::optional<std::size_t> region;  ///< index in WebVtt::regions
  Direction direction = Direction::horizontal;
  bool snap_to_lines = true;
  std::optional<double> line;  ///< nothing: auto
  LineAlign line_align = LineAlign::start;
  std::optional<double> position;  ///< percent; nothing: auto
  PositionAlign position_align = PositionAlign::automatic;
  double size = 100;  ///< percent
  TextAlign align = TextAlign::center;
};

struct VttCue {
  std::string id;
  Moment from;
  Moment until;  ///< as written; may lie before `from`
  VttSettings settings;
  std::string text;      ///< raw, lines joined by \n
  std::size_t line = 0;  ///< of the timing, from 1
};

struct WebVtt {
  std::vector<VttCue> cues;
  std::vector<VttRegion> regions;
  std::vector<std::string> style_sheets;     ///< their text; not parsed
  std::vector<std::size_t> refused_timings;  ///< lines (from 1) with an arrow that give no cue
};

/// Parses the bytes of a WebVTT file, which are UTF-8 by definition; malformed bytes become U+FFFD.
/// Fails: Code::malformed when the signature "WEBVTT" is missing.
Outcome<WebVtt> parse_webvtt(std::string_view bytes);

}  // namespace sash::narration
