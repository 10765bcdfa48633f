#include "support/text.h"

#include <gtest/gtest.h>

#include <array>

namespace sash {
namespace {

TEST(Text, SplitsLinesAtEveryKindOfLineEnd) {
  const auto lines = split_lines("a\r\nb\rc\n\nd\n");
  ASSERT_EQ(lines.size(), 5U);
  EXPECT_EQ(lines[1], "b");
  EXPECT_EQ(lines[3], "");
  EXPECT_EQ(lines[4], "d");
}

TEST(Text, ReadsNumbersOnlyWhenTheyFillTheText) {
  EXPECT_EQ(read_number("1.5e3"), 1500.0);
  EXPECT_EQ(read_number("+2"), 2.0);
  EXPECT_FALSE(read_number("1.5 "));
  EXPECT_FALSE(read_number("nan"));
  EXPECT_FALSE(read_number(""));
}

TEST(Text, Utf8StepsRefuseOverlongAndSurrogateForms) {
  EXPECT_EQ(code_point_at("\xE2\x82\x82", 0).value, U'\u2082');
  EXPECT_EQ(code_point_at("\xC0\x80", 0).value, 0xFFFDU);
  EXPECT_EQ(code_point_at("\xED\xA0\x80", 0).length, 1U);
  EXPECT_TRUE(is_utf8("H\xE2\x82\x82O"));
  EXPECT_FALSE(is_utf8("\xFF"));
  std::string s;
  append_utf8(s, U'\U0001F9EA');
  EXPECT_EQ(code_point_at(s, 0).value, U'\U0001F9EA');
}

TEST(Text, FindsTheNearestSpellingButNotAFarOne) {
  const std::array<std::string_view, 3> names{"script", "record", "check"};
  EXPECT_EQ(nearest_spelling("scirpt", names), "script");
  EXPECT_EQ(nearest_spelling("chekc", names), "check");
  EXPECT_FALSE(nearest_spelling("footage", names));
}

}  // namespace
}  // namespace sash
