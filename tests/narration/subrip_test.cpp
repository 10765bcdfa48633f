#include "narration/subrip.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sash::narration {
namespace {

using testing::ElementsAre;

std::vector<std::string> cues(std::string_view text) {
  std::vector<std::string> out;
  for (const SubRipCue& c : parse_subrip(text).cues) {
    out.push_back(std::to_string(c.from.in_millis()) + "-" + std::to_string(c.until.in_millis()) + " " + c.text);
  }
  return out;
}

// SubRip has no standard: the format as the Matroska specification describes it (subtitles, SRT), the tolerance is
// common practice, no source.
TEST(SubRip, ReadsNumberedBlocks) {
  EXPECT_THAT(cues("1\n00:00:01,500 --> 00:00:02,000\nHello\nworld\n\n2\n01:00:00,000 --> 01:00:01,000\nlate\n"),
              ElementsAre("1500-2000 Hello\nworld", "3600000-3601000 late"));
}

TEST(SubRip, ForgivesWhatPlayersForgive) {
  EXPECT_THAT(cues("00:00:01.500-->00:00:02.000 X1:10 X2:20 Y1:1 Y2:2\nno number\n2\n0:00:3,5 --> 0:00:4\nno gap"),
              ElementsAre("1500-2000 no number", "3500-4000 no gap"));
  EXPECT_THAT(cues("1\r\n00:00:01,000 --> 00:00:02,000\r\nCRLF\r\n\r\n"), ElementsAre("1000-2000 CRLF"));
}

TEST(SubRip, KeepsTextBehindAnEmptyLine) {
  EXPECT_THAT(cues("1\n00:00:01,000 --> 00:00:02,000\na\n\nb\n\n2\n00:00:03,000 --> 00:00:04,000\n24\n"),
              ElementsAre("1000-2000 a\nb", "3000-4000 24"));
}

TEST(SubRip, TakesFormattingOff) {
  EXPECT_THAT(
      cues("1\n00:00:01,000 --> 00:00:02,000\n{\\an8}<i>pH</i> <font color=\"#fff\">2</font> &amp; 3 < 4 > 1\n"),
      ElementsAre("1000-2000 pH 2 & 3 < 4 > 1"));
}

TEST(SubRip, NamesTimesItCannotReadAndKeepsTheWords) {
  const SubRip file = parse_subrip("1\nabc --> def\nlost?\n\n2\n00:00:01,000 --> 00:00:02,000\nb\n");
  EXPECT_THAT(file.refused_timings, ElementsAre(2u));
  ASSERT_EQ(file.cues.size(), 2u);
  EXPECT_EQ(file.cues[0].text, "lost?");
}

}  // namespace
}  // namespace sash::narration
