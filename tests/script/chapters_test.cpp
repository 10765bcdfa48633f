#include "script/chapters.h"

#include <gtest/gtest.h>

#include "script/film_time.h"
#include "script/sample.h"

namespace sash::script {
namespace {

// First chapter at 0:00, times rising, one a line: common practice of video sites, no source.
TEST(Chapters, BeginAtZeroRiseAndKeepToOneLineEach) {
  EXPECT_EQ(chapters_text(sample()), "0:00 Beginning\n0:04 Acid first\n1:01 Zinc\n");
}

TEST(Chapters, OfARecordWithoutChaptersAreEmpty) {
  auto record = sample();
  record.chapters.clear();
  EXPECT_EQ(chapters_text(record), "");
}

TEST(FilmTime, IsWrittenWithHoursOnlyWhenThereAreAny) {
  EXPECT_EQ(clock_text(Moment::seconds(59.99)), "0:59");
  EXPECT_EQ(clock_text(Moment::seconds(3725)), "1:02:05");
  EXPECT_EQ(precise_text(Moment::seconds(65.26)), "1:05.2");
}

}  // namespace
}  // namespace sash::script
