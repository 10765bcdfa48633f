#include "narration/webvtt.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sash::narration {
namespace {

using testing::ElementsAre;

WebVtt parsed(std::string_view text) {
  auto file = parse_webvtt(text);
  EXPECT_TRUE(file.ok()) << (file.ok() ? "" : file.fault().sentence);
  return file.ok() ? *file : WebVtt();
}

std::vector<std::string> texts(const WebVtt& file) {
  std::vector<std::string> out;
  for (const VttCue& cue : file.cues) out.push_back(cue.id + "|" + cue.text);
  return out;
}

// Expected results in this file follow W3C WebVTT, "WebVTT parser algorithm", step by step.
TEST(WebVtt, WantsItsSignature) {
  EXPECT_TRUE(parse_webvtt("WEBVTT").ok());
  EXPECT_TRUE(parse_webvtt("\xEF\xBB\xBFWEBVTT\n").ok());
  EXPECT_TRUE(parse_webvtt("WEBVTT - a title\n\n").ok());
  EXPECT_TRUE(parse_webvtt("WEBVTT\t\r\n").ok());
  for (const char* bad : {"", "WEBVT", "webvtt\n", "WEBVTTX\n", " WEBVTT\n", "\nWEBVTT\n"}) {
    const auto file = parse_webvtt(bad);
    ASSERT_FALSE(file.ok()) << bad;
    EXPECT_EQ(file.fault().code, Code::malformed);
  }
}

TEST(WebVtt, ReadsCuesWithIdentifiers) {
  const WebVtt file =
      parsed("WEBVTT\n\nfirst\n00:01.000 --> 00:02.000\nHello\nworld\n\n00:03.000-->00:04.000\nno id\n");
  EXPECT_THAT(texts(file), ElementsAre("first|Hello\nworld", "|no id"));
  EXPECT_EQ(file.cues[0].from, Moment::seconds(1));
  EXPECT_EQ(file.cues[0].line, 4u);
  EXPECT_EQ(file.cues[1].until, Moment::seconds(4));
}

TEST(WebVtt, ReadsAnyLineEnds) {
  EXPECT_THAT(texts(parsed("WEBVTT\r\n\r\n00:01.000 --> 00:02.000\r\na\r\nb")), ElementsAre("|a\nb"));
  EXPECT_THAT(texts(parsed("WEBVTT\r\r00:01.000 --> 00:02.000\ra\r\r00:02.000 --> 00:03.000\rb")),
              ElementsAre("|a", "|b"));
}

TEST(WebVtt, TakesACueRightBehindTheHeader) {
  EXPECT_THAT(texts(parsed("WEBVTT\n00:01.000 --> 00:02.000\na")), ElementsAre("|a"));
  EXPECT_THAT(texts(parsed("WEBVTT\nKind: captions\nLanguage: en\n\n00:01.000 --> 00:02.000\na")), ElementsAre("|a"));
}

TEST(WebVtt, SplitsAtAnArrowInThePayload) {
  EXPECT_THAT(texts(parsed("WEBVTT\n\n00:01.000 --> 00:02.000\na\n00:02.000 --> 00:03.000\nb")),
              ElementsAre("|a", "|b"));
  EXPECT_THAT(texts(parsed("WEBVTT\n\nid\nsecond line\n00:01.000 --> 00:02.000\na")), ElementsAre("|a"));
}

TEST(WebVtt, LeavesOutCuesWithBadTimes) {
  const WebVtt file =
      parsed("WEBVTT\n\n00:01 --> 00:02.000\nlost\n\n00:01,000 --> 00:02,000\nlost\n\n00:03.000 --> 00:04.000\nkept");
  EXPECT_THAT(texts(file), ElementsAre("|kept"));
  EXPECT_THAT(file.refused_timings, ElementsAre(3u, 6u));
}

TEST(WebVtt, DropsNotes) {
  EXPECT_THAT(texts(parsed("WEBVTT\n\nNOTE a comment\nof two lines\n\n00:01.000 --> 00:02.000\na\n\nNOTE\n")),
              ElementsAre("|a"));
}

TEST(WebVtt, ReadsStylesAndRegionsBeforeTheFirstCue) {
  const WebVtt file = parsed(
      "WEBVTT\n\nSTYLE\n::cue { color: red }\n\nREGION  \nid:r1 width:40% lines:2\nregionanchor:0%,100% "
      "viewportanchor:10%,90% scroll:up\n\n00:01.000 --> 00:02.000 region:r1\na\n\nSTYLE\n::cue { color: blue }\n");
  EXPECT_THAT(file.style_sheets, ElementsAre("::cue { color: red }"));
  ASSERT_EQ(file.regions.size(), 1u);
  EXPECT_EQ(file.regions[0].id, "r1");
  EXPECT_EQ(file.regions[0].width, 40);
  EXPECT_EQ(file.regions[0].lines, 2);
  EXPECT_EQ(file.regions[0].viewport_anchor, std::pair(10.0, 90.0));
  EXPECT_TRUE(file.regions[0].scroll_up);
  ASSERT_EQ(file.cues.size(), 1u);
  EXPECT_EQ(file.cues[0].settings.region, 0u);
}

VttSettings settings(const std::string& text) {
  const WebVtt file = parsed("WEBVTT\n\nREGION\nid:r\n\n00:01.000 --> 00:02.000 " + text + "\na");
  return file.cues.empty() ? VttSettings() : file.cues[0].settings;
}

TEST(WebVtt, ReadsCueSettings) {
  using S = VttSettings;
  const S s = settings("vertical:rl line:10%,end position:20%,line-left size:30% align:right");
  EXPECT_EQ(s.direction, S::Direction::growing_left);
  EXPECT_EQ(s.line, 10);
  EXPECT_FALSE(s.snap_to_lines);
  EXPECT_EQ(s.line_align, S::LineAlign::end);
  EXPECT_EQ(s.position, 20);
  EXPECT_EQ(s.position_align, S::PositionAlign::line_left);
  EXPECT_EQ(s.size, 30);
  EXPECT_EQ(s.align, S::TextAlign::right);
  EXPECT_EQ(settings("line:-1").line, -1);
  EXPECT_TRUE(settings("line:-1").snap_to_lines);
}

TEST(WebVtt, SkipsMalformedSettings) {
  for (const char* bad :
       {"line:1-", "line:.5", "line:5.", "line:1.2.3", "line:a", "line:101%", "line:1,middle", "line:--1"}) {
    EXPECT_EQ(settings(bad).line, std::nullopt) << bad;
  }
  for (const char* bad : {"position:50", "position:-1%", "position:101%", "position:50%,start", "position: 5%"}) {
    EXPECT_EQ(settings(bad).position, std::nullopt) << bad;
  }
  for (const char* bad : {"size:50", "size:100.1%", "size:1.%", "size:%"}) EXPECT_EQ(settings(bad).size, 100) << bad;
  EXPECT_EQ(settings("align:middle").align, VttSettings::TextAlign::center);
}

TEST(WebVtt, DropsTheRegionOfAPlacedCue) {
  EXPECT_EQ(settings("region:r align:start").region, 0u);
  EXPECT_EQ(settings("region:r line:1").region, std::nullopt);
  EXPECT_EQ(settings("region:r size:50%").region, std::nullopt);
  EXPECT_EQ(settings("region:r vertical:lr").region, std::nullopt);
  EXPECT_EQ(settings("region:unknown").region, std::nullopt);
}

TEST(WebVtt, ReplacesMalformedBytesAndNul) {
  EXPECT_THAT(texts(parsed(std::string_view("WEBVTT\n\n00:01.000 --> 00:02.000\na\0b\xFFz", 37))),
              ElementsAre("|a\uFFFDb\uFFFDz"));
}

}  // namespace
}  // namespace sash::narration
