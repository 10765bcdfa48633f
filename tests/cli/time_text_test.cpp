#include "cli/time_text.h"

#include "cli/said.h"

namespace sash::cli {
namespace {

TEST(TimeText, ReadsSecondsMinutesAndHours) {
  const std::pair<const char*, double> times[] = {{"0", 0},         {"12", 12},      {"12.5", 12.5},       {"90", 90},
                                                  {"1:02.5", 62.5}, {"59:59", 3599}, {"1:00:02.5", 3602.5}};
  for (const auto& [text, seconds] : times) {
    const auto read = read_time(text);
    ASSERT_TRUE(read.ok()) << text;
    EXPECT_EQ(*read, Moment::seconds(seconds)) << text;
  }
}

TEST(TimeText, RefusesWhatIsNoTime) {
  for (const char* text : {"", "x", "-1", "1:60", "1:99", "1.5:00", "1:60:00", "1:2:3:4", "1:", ":5", "nan", "inf"}) {
    EXPECT_FALSE(read_time(text).ok()) << text;
  }
  EXPECT_EQ(said({"still", "a.mp4", "--at", "1:99", "--to", "a.png"}),
            fault("'1:99' is not a time; write seconds (12.5), minutes and seconds (1:02.5) or hours as well "
                  "(1:00:02.5)."));
}

TEST(TimeText, WritesToTheMillisecond) {
  EXPECT_EQ(time_text(Moment::seconds(125.25)), "0:02:05.250");
  EXPECT_EQ(time_text(Moment::seconds(3723)), "1:02:03.000");
}

}  // namespace
}  // namespace sash::cli
