#include "narration/write.h"

#include <fmt/format.h>

#include <algorithm>

#include "support/text.h"

namespace sash::narration {

namespace {

std::string written_time(Moment t, char mark) {
  const std::int64_t ms = std::max<std::int64_t>(t.in_millis(), 0);
  return fmt::format("{:02}:{:02}:{:02}{}{:03}", ms / 3'600'000, ms / 60'000 % 60, ms / 1000 % 60, mark, ms % 1000);
}

/// At least a millisecond, which both formats can tell from nothing.
Moment end_of(const Cue& cue) { return std::max(cue.until, cue.from + Moment::millis(1)); }

/// Lines without the empty ones, which would end a cue; other control characters become spaces.
std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  for (const std::string_view line : split_lines(text)) {
    if (trim(line).empty()) continue;
    std::string clean(line);
    std::replace_if(
        clean.begin(), clean.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20; }, ' ');
    lines.push_back(std::move(clean));
  }
  return lines;
}

/// '>' is escaped too: an unescaped one could complete "-->", which may not stand in a payload.
std::string vtt_escaped(std::string s) {
  s = replace_all(std::move(s), "&", "&amp;");
  s = replace_all(std::move(s), "<", "&lt;");
  return replace_all(std::move(s), ">", "&gt;");
}

std::string one_line(std::string_view s) { return join(lines_of(s), " "); }

}  // namespace

std::string webvtt_time(Moment t) { return written_time(t, '.'); }
std::string subrip_time(Moment t) { return written_time(t, ','); }

std::string write_webvtt(std::span<const Cue> cues) {
  std::string out = "WEBVTT\n";
  for (const Cue& cue : cues) {
    out += fmt::format("\n{} --> {}", webvtt_time(cue.from), webvtt_time(end_of(cue)));
    if (const std::string settings = replace_all(one_line(cue.settings), "-->", ""); !settings.empty()) {
      out += ' ' + settings;
    }
    out += '\n';
    if (!trim(cue.speaker).empty()) out += "<v " + vtt_escaped(one_line(cue.speaker)) + '>';
    out += vtt_escaped(join(lines_of(cue.text), "\n")) + '\n';
  }
  return out;
}

std::string write_subrip(std::span<const Cue> cues) {
  std::string out;
  std::size_t number = 0;
  for (const Cue& cue : cues) {
    if (number != 0) out += "\r\n";
    out += fmt::format("{}\r\n{} --> {}\r\n", ++number, subrip_time(cue.from), subrip_time(end_of(cue)));
    for (const std::string& line : lines_of(cue.text)) {
      // SubRip cannot escape; an arrow or a tag in the text would be taken for markup by players.
      std::string safe = replace_all(line, "-->", "\u2192");
      safe = replace_all(std::move(safe), "<", "\u2039");
      out += replace_all(std::move(safe), ">", "\u203A") + "\r\n";
    }
  }
  return out;
}

}  // namespace sash::narration
