#include "safety/reading.h"

#include <gtest/gtest.h>

#include "support/text.h"
#include "tools/table.h"

namespace sash::safety {
namespace {

std::string verdict_text(const ReadingVerdict& v, const ReadingLimits& limits) {
  std::vector<std::string> wrong;
  if (v.too_fast) wrong.emplace_back(limits.words_per_minute ? "wpm" : "cps");
  if (v.too_short) wrong.emplace_back("too short");
  if (v.too_long) wrong.emplace_back("too long");
  if (v.long_line) wrong.emplace_back("line length");
  if (v.many_lines) wrong.emplace_back("lines");
  return wrong.empty() ? "pass" : "fail: " + join(wrong, ", ");
}

// tests/known/safety/readability.csv: counts worked out by hand under the limits that publishers of captions print
// (Ofcom/BBC rate, DCMP Captioning Key, a library timed-text guide); each row names its source.
TEST(Reading, JudgesCaptionsAsThePublishedLimitsDo) {
  for (const auto& row : test::read_table("known/safety/readability.csv")) {
    SCOPED_TRACE(row.at("id"));
    const TextSize size = measure(replace_all(row.at("text"), "\\n", "\n"));
    EXPECT_EQ(size.words, row.number("words"));
    EXPECT_EQ(size.characters, row.number("characters_with_spaces"));
    EXPECT_EQ(size.lines, row.number("lines"));
    EXPECT_EQ(size.longest_line, row.number("longest_line"));
    for (const ReadingLimits& limits : reading_profiles()) {
      EXPECT_EQ(verdict_text(judge(size, row.number("duration_s"), limits), limits), row.at(limits.name))
          << limits.name;
    }
  }
}

TEST(Reading, TheShortestTimeItGivesIsOneItAccepts) {
  for (const ReadingLimits& limits : reading_profiles()) {
    for (const char* text : {"Chlorine!", "Quench with sodium thiosulfate\nuntil the colour is gone."}) {
      const TextSize size = measure(text);
      const double seconds = seconds_to_read(size, limits);
      EXPECT_FALSE(judge(size, seconds, limits).too_fast);
      EXPECT_FALSE(judge(size, seconds, limits).too_short);
      EXPECT_TRUE(judge(size, seconds * 0.99, limits).too_fast || judge(size, seconds * 0.99, limits).too_short);
    }
  }
}

TEST(Reading, AnUnknownProfileIsTheDefaultOne) {
  EXPECT_EQ(reading_profile("").name, "timed text, general");
  EXPECT_EQ(reading_profile("broadcast").words_per_minute, 180.0);
}

}  // namespace
}  // namespace sash::safety
