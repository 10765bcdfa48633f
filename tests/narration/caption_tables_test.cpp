// Caption files against tables of what their standard, or custom, makes of them; each row names its source.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <map>

#include "escapes.h"
#include "narration/subrip.h"
#include "narration/webvtt.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::narration {
namespace {

using Facts = std::map<std::string, std::string>;
using sash::test::read_table;
using sash::test::Row;
using test::unescaped;

std::string where(const Row& row) { return row.at("id") + ": " + row.at("source"); }

/// The expected facts of a row; numbers written the one way we write them.
Facts expected_of(const Row& row) {
  Facts facts = row.pairs("expected");
  for (auto& [name, value] : facts) {
    value = unescaped(value);
    if (const auto number = read_number(value)) value = fmt::format("{}", *number);
  }
  return facts;
}

/// What differs from the defaults of the standard.
Facts facts_of(const VttSettings& s) {
  using S = VttSettings;
  Facts facts;
  if (s.region) facts["region"] = fmt::format("{}", static_cast<double>(*s.region));
  if (s.direction != S::Direction::horizontal)
    facts["vertical"] = s.direction == S::Direction::growing_left ? "rl" : "lr";
  if (!s.snap_to_lines) facts["snap"] = "no";
  if (s.line) facts["line"] = fmt::format("{}", *s.line);
  if (s.line_align != S::LineAlign::start)
    facts["line-align"] = s.line_align == S::LineAlign::center ? "center" : "end";
  if (s.position) facts["position"] = fmt::format("{}", *s.position);
  if (s.position_align != S::PositionAlign::automatic) {
    facts["position-align"] = s.position_align == S::PositionAlign::line_left ? "line-left"
                              : s.position_align == S::PositionAlign::center  ? "center"
                                                                              : "line-right";
  }
  if (s.size != 100) facts["size"] = fmt::format("{}", s.size);
  if (s.align != S::TextAlign::center) {
    facts["align"] = s.align == S::TextAlign::start  ? "start"
                     : s.align == S::TextAlign::end  ? "end"
                     : s.align == S::TextAlign::left ? "left"
                                                     : "right";
  }
  return facts;
}

Facts facts_of(const VttRegion& r) {
  const VttRegion usual;
  const auto point = [](const std::pair<double, double>& p) { return fmt::format("{},{}", p.first, p.second); };
  Facts facts;
  if (!r.id.empty()) facts["id"] = r.id;
  if (r.width != usual.width) facts["width"] = fmt::format("{}", r.width);
  if (r.lines != usual.lines) facts["lines"] = fmt::format("{}", r.lines);
  if (r.anchor != usual.anchor) facts["regionanchor"] = point(r.anchor);
  if (r.viewport_anchor != usual.viewport_anchor) facts["viewportanchor"] = point(r.viewport_anchor);
  if (r.scroll_up) facts["scroll"] = "up";
  return facts;
}

TEST(CaptionTables, WebVttCueSettings) {
  const std::string head =
      "WEBVTT\n\nREGION\nid:foo\n\nREGION\nid:bar\n\nREGION\nid:foo\n\nREGION\nwidth:10%\n\n"
      "00:00:00.000 --> 00:00:01.000 ";
  for (const Row& row : read_table("known/narration/webvtt_settings.csv")) {
    const auto file = parse_webvtt(head + unescaped(row.at("settings")) + "\ntext");
    ASSERT_TRUE(file.ok() && file->cues.size() == 1) << where(row);
    EXPECT_EQ(facts_of(file->cues[0].settings), expected_of(row)) << where(row);
    EXPECT_EQ(file->cues[0].text, "text") << where(row);
  }
}

TEST(CaptionTables, WebVttRegions) {
  for (const Row& row : read_table("known/narration/webvtt_regions.csv")) {
    const auto file = parse_webvtt("WEBVTT\n\nREGION\n" + unescaped(row.at("region")));
    ASSERT_TRUE(file.ok() && file->regions.size() == 1) << where(row);
    EXPECT_EQ(facts_of(file->regions[0]), expected_of(row)) << where(row);
  }
}

TEST(CaptionTables, WebVttTimingLines) {
  for (const Row& row : read_table("known/narration/webvtt_timing_lines.csv")) {
    const auto file = parse_webvtt("WEBVTT\n\n" + unescaped(row.at("line")) + "\ntext");
    ASSERT_TRUE(file.ok()) << where(row);
    ASSERT_EQ(file->cues.size(), row.at("accepted") == "yes" ? 1U : 0U) << where(row);
    if (file->cues.empty()) continue;
    EXPECT_EQ(fmt::format("{}", file->cues[0].from.in_seconds()), fmt::format("{}", row.number("from"))) << where(row);
    EXPECT_EQ(fmt::format("{}", file->cues[0].until.in_seconds()), fmt::format("{}", row.number("until")))
        << where(row);
  }
}

/// "id|text / id|text; style: …; region: …", or "refused".
std::string summary(const Outcome<WebVtt>& file) {
  if (!file) return "refused";
  std::string out;
  for (const VttCue& cue : file->cues) out += (out.empty() ? "" : " / ") + cue.id + "|" + cue.text;
  for (const std::string& sheet : file->style_sheets) out += "; style: " + sheet;
  for (const VttRegion& region : file->regions) out += "; region: " + region.id;
  return out;
}

TEST(CaptionTables, WebVttFiles) {
  for (const Row& row : read_table("known/narration/webvtt_files.csv")) {
    EXPECT_EQ(summary(parse_webvtt(unescaped(row.at("file")))), unescaped(row.at("expected"))) << where(row);
  }
}

/// "from-until text / from-until text; refused: line" with times in milliseconds.
std::string summary(const SubRip& file) {
  std::string out;
  for (const SubRipCue& cue : file.cues) {
    out += fmt::format("{}{}-{} {}", out.empty() ? "" : " / ", cue.from.in_millis(), cue.until.in_millis(), cue.text);
  }
  if (file.cues.empty()) return out;
  for (const std::size_t line : file.refused_timings) out += fmt::format("; refused: {}", line);
  return out;
}

TEST(CaptionTables, SubRipFiles) {
  for (const Row& row : read_table("known/narration/subrip.csv")) {
    std::string bytes = unescaped(row.at("file"));
    if (bytes.starts_with("\xEF\xBB\xBF")) bytes.erase(0, 3);  // taken off before the form is known
    EXPECT_EQ(summary(parse_subrip(bytes)), unescaped(row.at("expected"))) << where(row);
  }
}

}  // namespace
}  // namespace sash::narration
