// The strict readers themselves: they must object to what the rules forbid.
#include "flow/caption_rules.h"

#include <gtest/gtest.h>

namespace sash::flow {
namespace {

std::size_t vtt_offences(const std::string& body) { return read_webvtt_strictly("WEBVTT\n\n" + body).offences.size(); }
std::size_t srt_offences(const std::string& body) { return read_subrip_strictly(body).offences.size(); }

// Source: W3C WebVTT, 1.1 to 1.5: forms shown there.
TEST(CaptionRules, AcceptTheStandardsOwnForms) {
  const auto read = read_webvtt_strictly(
      "WEBVTT - with words\n\nNOTE a comment\nover two lines\n\n1\n00:11.000 --> 00:13.000 vertical:rl\n"
      "<v Roger &amp; Bingham>We are in New York City\n\n00:00:13.000 --> 100:00:16.000 line:63% position:72% "
      "align:start\n"
      "<i.foreignphrase><lang en>Rodan</lang></i> &amp; <00:00:14.000><b>Sh</b>\n");
  EXPECT_EQ(read.offences, std::vector<std::string>{});
  ASSERT_EQ(read.cues.size(), 2U);
  EXPECT_EQ(read.cues[0].from_ms, 11000);
  EXPECT_EQ(read.cues[1].until_ms, 360016000);
}

TEST(CaptionRules, ObjectToWhatWebVttForbids) {
  EXPECT_NE(read_webvtt_strictly("WEBVTTX\n\n").offences.size(), 0U);
  EXPECT_NE(read_webvtt_strictly("WEBVTT\n00:01.000 --> 00:02.000\nx\n").offences.size(), 0U);
  for (const char* body :
       {"0:00:01.000 --> 00:00:02.000\nx\n", "00:01,000 --> 00:02.000\nx\n", "00:01.000-->00:02.000\nx\n",
        "00:61.000 --> 00:62.000\nx\n", "00:01.00 --> 00:02.000\nx\n", "00:02.000 --> 00:02.000\nx\n",
        "00:05.000 --> 00:06.000\nx\n\n00:01.000 --> 00:02.000\ny\n", "00:01.000 --> 00:02.000\na & b\n",
        "00:01.000 --> 00:02.000\n1 < 2\n", "00:01.000 --> 00:02.000\na --> b\n", "00:01.000 --> 00:02.000\n<b>x\n",
        "00:01.000 --> 00:02.000\n<font>x</font>\n", "00:01.000 --> 00:02.000\n<v>x\n",
        "00:01.000 --> 00:02.000 line:8% line:9%\nx\n", "00:01.000 --> 00:02.000 colour:red\nx\n",
        "00:01.000 --> 00:02.000 size:101%\nx\n", "a\n00:01.000 --> 00:02.000\nx\n\na\n00:03.000 --> 00:04.000\ny\n",
        "words alone\n", "00:01.000 --> 00:02.000\n\xff\n"})
    EXPECT_NE(vtt_offences(body), 0U) << body;
}

TEST(CaptionRules, ObjectToWhatSubRipForbids) {
  EXPECT_EQ(srt_offences("1\r\n00:00:01,000 --> 00:00:02,500\r\none\r\ntwo\r\n\r\n"), 0U);
  for (const char* body : {"2\n00:00:01,000 --> 00:00:02,000\nx\n", "1\n00:00:01.000 --> 00:00:02.000\nx\n",
                           "1\n0:00:01,000 --> 0:00:02,000\nx\n", "1\n00:00:02,000 --> 00:00:02,000\nx\n",
                           "1\n00:00:01,000 --> 00:00:02,000\n\n", "00:00:01,000 --> 00:00:02,000\nx\n",
                           "\xef\xbb\xbf"
                           "1\n00:00:01,000 --> 00:00:02,000\nx\n"})
    EXPECT_NE(srt_offences(body), 0U) << body;
}

}  // namespace
}  // namespace sash::flow
