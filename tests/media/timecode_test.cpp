#include "media/timecode.h"

#include <gtest/gtest.h>

#include "support/text.h"
#include "tools/table.h"

namespace sash::media {
namespace {

Rate rate_of(const std::string& text) {
  const auto parts = split(text, '/');
  return {*read_integer(parts[0]), parts.size() > 1 ? *read_integer(parts[1]) : 1};
}

// Rows: tests/known/timecode_cases.csv, each with its source.
TEST(TimeCode, EveryKnownRowReadsAndWrites) {
  int refused = 0;
  for (const auto& row : test::read_table("known/timecode_cases.csv")) {
    SCOPED_TRACE(row.at("id"));
    const bool drops = row.at("timecode").find(';') != std::string::npos;
    const auto count =
        drops ? TimeCodeCount::usual(rate_of(row.at("rate"))) : TimeCodeCount::plain(rate_of(row.at("rate")));
    ASSERT_TRUE(count.ok());
    EXPECT_EQ(count->nominal(), row.number("nominal_fps"));
    const auto label = count->read(row.at("timecode"));
    if (row.at("frame_number").empty()) {
      ASSERT_FALSE(label.ok());
      EXPECT_EQ(label.fault().code, Code::impossible);
      ++refused;
      continue;
    }
    const std::int64_t frame = *read_integer(row.at("frame_number"));
    ASSERT_TRUE(label.ok()) << label.fault().sentence;
    const auto number = count->number(*label);
    ASSERT_TRUE(number.ok());
    EXPECT_EQ(*number, frame);
    EXPECT_EQ(count->write(count->label(frame)), row.at("timecode"));
    // The table gives microseconds, rounded.
    EXPECT_NEAR(count->begins(frame).in_seconds(), row.number("elapsed_seconds"), 0.5e-6);
  }
  EXPECT_EQ(refused, 3);
}

TEST(TimeCode, SaysWhichLabelFollowsADroppedOne) {
  const auto count = TimeCodeCount::usual({30000, 1001});
  ASSERT_TRUE(count.ok());
  const auto label = count->read("00:01:00;01");
  ASSERT_FALSE(label.ok());
  EXPECT_EQ(label.fault().sentence,
            "No frame is labelled 00:01:00;01: drop-frame counting leaves out frames 00 to 01 of this minute; the next "
            "label is "
            "00:01:00;02.");
}

TEST(TimeCode, RefusesWhatIsNoLabel) {
  const auto drop = TimeCodeCount::usual({30000, 1001});
  const auto plain = TimeCodeCount::usual({25, 1});
  ASSERT_TRUE(drop.ok() && plain.ok());
  EXPECT_FALSE(plain->drops());
  for (const char* text : {"", "1:2:3:4", "00:00:00", "00:00:00:0x", "00:00:00:00:00", "00;00:00:00", "-1:00:00:00"}) {
    const auto read = plain->read(text);
    ASSERT_FALSE(read.ok()) << text;
    EXPECT_EQ(read.fault().code, Code::malformed) << text;
  }
  EXPECT_EQ(plain->read("00:00:00:25").fault().sentence,
            "The time code 00:00:00:25 is beyond 23:59:59:24; give a label inside one day.");
  EXPECT_EQ(plain->read("24:00:00:00").fault().code, Code::out_of_range);
  EXPECT_EQ(plain->read("00:00:00;00").fault().code, Code::wrong_use);
  EXPECT_EQ(drop->read("00:00:00:00").fault().code, Code::wrong_use);
  EXPECT_EQ(TimeCodeCount::usual({0, 1}).fault().code, Code::out_of_range);
  EXPECT_EQ(TimeCodeCount::usual({25, 0}).fault().code, Code::out_of_range);
}

// Law: labels and numbers undo each other on every frame of a day, and no two neighbours share a label.
TEST(TimeCode, EveryFrameOfADayHasItsOwnLabel) {
  for (const Rate rate : {Rate{30000, 1001}, Rate{24000, 1001}}) {
    const auto count = TimeCodeCount::usual(rate);
    ASSERT_TRUE(count.ok());
    TimeCode before{23, 59, 59, count->nominal() - 1};
    for (std::int64_t n = 0; n < count->frames_a_day(); ++n) {
      const TimeCode label = count->label(n);
      ASSERT_FALSE(label == before) << n;
      const auto number = count->number(label);
      ASSERT_TRUE(number.ok() && *number == n) << n;
      before = label;
    }
    EXPECT_EQ(before, (TimeCode{23, 59, 59, count->nominal() - 1}));
    EXPECT_EQ(count->label(count->frames_a_day()), TimeCode{});
    EXPECT_EQ(count->label(-1), before);
  }
}

// SMPTE ST 12-1, 5.1: 29.97 material may be counted either way; the separator before the frames says which.
TEST(TimeCode, CountsAsTheFirstLabelOfTheFootageDoes) {
  const Rate ntsc{30000, 1001};
  EXPECT_TRUE(TimeCodeCount::as_labelled(ntsc, std::nullopt)->drops());
  EXPECT_TRUE(TimeCodeCount::as_labelled(ntsc, "01:00:00;02")->drops());
  EXPECT_FALSE(TimeCodeCount::as_labelled(ntsc, "01:00:00:02")->drops());
  EXPECT_TRUE(TimeCodeCount::as_labelled(ntsc, "not a label")->drops());
  // A minute of 1800 frames on: plain counting comes to the next minute exactly, drop-frame two labels further.
  const auto plain = TimeCodeCount::as_labelled(ntsc, "00:00:00:00");
  EXPECT_EQ(plain->write(plain->label(1800)), "00:01:00:00");
  const auto dropping = TimeCodeCount::as_labelled(ntsc, "00:00:00;00");
  EXPECT_EQ(dropping->write(dropping->label(1800)), "00:01:00;02");
}

TEST(TimeCode, FrameTimesRoundedToMillisecondsKeepTheirNumber) {
  const auto count = TimeCodeCount::usual({30000, 1001});
  ASSERT_TRUE(count.ok());
  for (std::int64_t n = -5; n < 200000; n += 7) {
    EXPECT_EQ(count->nearest(count->begins(n)), n);
    EXPECT_EQ(count->nearest(Moment::millis(count->begins(n).in_millis())), n);
  }
}

}  // namespace
}  // namespace sash::media
