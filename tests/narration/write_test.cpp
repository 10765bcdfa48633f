#include "narration/write.h"

#include <gtest/gtest.h>

#include "narration/cue_text.h"
#include "narration/subrip.h"
#include "narration/webvtt.h"

namespace sash::narration {
namespace {

const std::vector<Cue> two = {
    {Moment::millis(1500), Moment::millis(2000), "a <b> & c --> d\n\nsecond", "Ann", "line:10%"},
    {Moment::seconds(3600), Moment::seconds(3599), "plain", "", ""}};

TEST(WriteWebVtt, EscapesAndPlaces) {
  EXPECT_EQ(write_webvtt(two),
            "WEBVTT\n\n00:00:01.500 --> 00:00:02.000 line:10%\n<v Ann>a &lt;b&gt; &amp; c --&gt; d\nsecond\n\n"
            "01:00:00.000 --> 01:00:00.001\nplain\n");
}

TEST(WriteWebVtt, IsReadBackAsItWas) {
  const auto file = parse_webvtt(write_webvtt(two));
  ASSERT_TRUE(file.ok());
  ASSERT_EQ(file->cues.size(), 2u);
  EXPECT_EQ(parse_cue_text(file->cues[0].text).plain(), "a <b> & c --> d\nsecond");
  EXPECT_EQ(file->cues[0].settings.line, 10);
}

TEST(WriteWebVtt, CannotBeBrokenOutOf) {
  const std::vector<Cue> nasty = {
      {Moment(), Moment::seconds(1), "x", "A>\n\n00:00:05.000 --> 00:00:06.000", "a\n\nNOTE --> x"}};
  const auto file = parse_webvtt(write_webvtt(nasty));
  ASSERT_TRUE(file.ok());
  ASSERT_EQ(file->cues.size(), 1u);
  EXPECT_EQ(parse_cue_text(file->cues[0].text).plain(), "x");
}

TEST(WriteSubRip, NumbersAndEndsLines) {
  EXPECT_EQ(write_subrip(two),
            "1\r\n00:00:01,500 --> 00:00:02,000\r\na ‹b› & c → d\r\nsecond\r\n\r\n2\r\n01:00:00,000 --> "
            "01:00:00,001\r\nplain\r\n");
  EXPECT_EQ(parse_subrip(write_subrip(two)).cues.size(), 2u);
}

}  // namespace
}  // namespace sash::narration
