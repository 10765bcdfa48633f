#include "support/moment.h"

#include <gtest/gtest.h>

namespace sash {
namespace {

TEST(Moment, EveryCommonFrameRateLandsOnWholeTicks) {
  for (const auto& [num, den] : {std::pair{1001, 24000},
                                 {1, 24},
                                 {1, 25},
                                 {1001, 30000},
                                 {1, 30},
                                 {1, 50},
                                 {1001, 60000},
                                 {1, 60},
                                 {1, 120},
                                 {1, 90000},
                                 {1, 15360},
                                 {1, 12800},
                                 {1, 1000},
                                 {1, 44100},
                                 {1, 48000}}) {
    EXPECT_EQ(Moment::per_second * num % den, 0) << num << "/" << den;
    EXPECT_EQ(Moment::rational(7, num, den).count(), Moment::per_second * num / den * 7);
  }
}

TEST(Moment, RationalRoundsToNearestAndDoesNotOverflow) {
  EXPECT_EQ(Moment::rational(1, 1, 3).count(), Moment::per_second / 3);
  EXPECT_EQ(Moment::rational(-1, 1, 3), -Moment::rational(1, 1, 3));
  EXPECT_EQ(Moment::rational(4'000'000'000'000, 1, 90000).count(), 4'000'000'000'000 * (Moment::per_second / 90000));
}

TEST(Moment, MillisecondsRoundHalfUp) {
  EXPECT_EQ(Moment::seconds(1.0005).in_millis(), 1001);
  EXPECT_EQ(Moment::millis(-3).in_millis(), -3);
  EXPECT_EQ(Moment::millis(86'400'000).in_millis(), 86'400'000);
  EXPECT_EQ((Moment::millis(2) + Moment::ticks(1)).in_millis(), 2);
}

TEST(Stretch, HoldsItsStartButNotItsEnd) {
  const Stretch s{Moment::millis(10), Moment::millis(20)};
  EXPECT_TRUE(s.holds(Moment::millis(10)));
  EXPECT_FALSE(s.holds(Moment::millis(20)));
  EXPECT_FALSE(s.touches({Moment::millis(20), Moment::millis(30)}));
  EXPECT_EQ((Stretch{Moment::millis(5), Moment::millis(1)}.length()), Moment());
}

}  // namespace
}  // namespace sash
