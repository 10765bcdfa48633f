// The laws of the elastic sheet, over sheets drawn at random from a fixed seed and over the awkward ones by hand.
#include "desk/shown/elastic.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace sash::desk {
namespace {

constexpr Stretch ten_minutes{Moment(), Moment::seconds(600)};

struct Sheet {
  Stretch extent;
  std::vector<ElasticBlock> blocks;
};

Sheet random_sheet(std::mt19937& random, int count) {
  Sheet sheet{{Moment::seconds(3), Moment::seconds(3 + 60 + static_cast<double>(random() % 10'800))}, {}};
  const auto span = static_cast<std::uint64_t>(sheet.extent.length().count());
  std::uint64_t burst = 0;
  for (int i = 0; i < count; ++i) {
    // Talk comes in bursts: half of all blocks follow the last one within two seconds, a few at the same moment.
    const auto wide = (static_cast<std::uint64_t>(random()) << 32) | random();
    burst = random() % 2 == 0 ? wide % span : (burst + wide % (2 * Moment::per_second) * (random() % 4 != 0)) % span;
    sheet.blocks.push_back({sheet.extent.from + Moment::ticks(static_cast<std::int64_t>(burst)),
                            static_cast<float>(10 + random() % 120), static_cast<std::uint32_t>(random() % 3)});
  }
  return sheet;
}

TEST(Elastic, RisesWithTimeAndIsInvertible) {
  std::mt19937 random(7);
  for (int round = 0; round < 40; ++round) {
    const Sheet s = random_sheet(random, 1 + static_cast<int>(random() % 300));
    const Elastic sheet(s.extent, s.blocks, {});
    double last = -1;
    for (int i = 0; i <= 500; ++i) {
      const Moment at = s.extent.from + Moment::ticks(s.extent.length().count() / 500 * i);
      const double y = sheet.y(at);
      EXPECT_GT(y, last);
      last = y;
      // Back to within what a double can tell apart at that height.
      EXPECT_NEAR((sheet.at(y) - at).in_seconds(), 0, 1e-6);
    }
  }
}

TEST(Elastic, NeverLetsBlocksOfOneColumnOverlap) {
  std::mt19937 random(11);
  for (int round = 0; round < 40; ++round) {
    const Sheet s = random_sheet(random, 1 + static_cast<int>(random() % 400));
    const Elastic sheet(s.extent, s.blocks, {});
    for (std::uint32_t column = 0; column < 3; ++column) {
      const auto order = sheet.block_order(column);
      for (std::size_t k = 1; k < order.size(); ++k) {
        const auto above = order[k - 1];
        EXPECT_LE(sheet.top(above) + static_cast<double>(s.blocks[above].height), sheet.top(order[k]) + 1e-6);
      }
      if (!order.empty()) {
        EXPECT_LE(sheet.top(order.back()) + static_cast<double>(s.blocks[order.back()].height), sheet.height() + 1e-6);
      }
    }
  }
}

TEST(Elastic, PutsABlockAloneAtItsMomentExactlyAtItsTime) {
  std::mt19937 random(13);
  Sheet s = random_sheet(random, 200);
  std::sort(s.blocks.begin(), s.blocks.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
  s.blocks.erase(
      std::unique(s.blocks.begin(), s.blocks.end(), [](const auto& a, const auto& b) { return a.at == b.at; }),
      s.blocks.end());
  const Elastic sheet(s.extent, s.blocks, {});
  for (std::size_t i = 0; i < s.blocks.size(); ++i) EXPECT_DOUBLE_EQ(sheet.top(i), sheet.y(s.blocks[i].at));
}

TEST(Elastic, DoesNotDependOnTheOrderOfBlocks) {
  std::mt19937 random(17);
  Sheet s = random_sheet(random, 250);
  // Blocks at one moment of one column stack in the order given, so keep one of each.
  std::sort(s.blocks.begin(), s.blocks.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
  s.blocks.erase(
      std::unique(s.blocks.begin(), s.blocks.end(), [](const auto& a, const auto& b) { return a.at == b.at; }),
      s.blocks.end());
  const Elastic sheet(s.extent, s.blocks, {});
  auto shuffled = s.blocks;
  std::shuffle(shuffled.begin(), shuffled.end(), random);
  const Elastic other(s.extent, shuffled, {});
  EXPECT_DOUBLE_EQ(sheet.height(), other.height());
  for (int i = 0; i <= 100; ++i) {
    const Moment at = s.extent.from + Moment::ticks(s.extent.length().count() / 100 * i);
    EXPECT_NEAR(sheet.y(at), other.y(at), 1e-6);
  }
}

TEST(Elastic, ShrinksSilence) {
  const ElasticScale scale{.pixels_per_second = 6, .shrink_after = 6, .shrunk_per_second = 0.5};
  const std::vector<ElasticBlock> two{{Moment(), 20, 0}, {Moment::seconds(300), 20, 0}};
  const Elastic sheet(ten_minutes, two, scale);
  EXPECT_NEAR(sheet.top(1), 6 * 6 + 294 * 0.5, 1e-9);
}

TEST(Elastic, GrowsWhereTalkIsDense) {
  std::vector<ElasticBlock> blocks;
  for (int i = 0; i < 10; ++i) blocks.push_back({Moment::seconds(100 + i), 50, 0});
  const Elastic sheet(ten_minutes, blocks, {});
  EXPECT_NEAR(sheet.y(Moment::seconds(109)) - sheet.y(Moment::seconds(100)), 9 * 50.0, 1e-6);
}

TEST(Elastic, SharesTheRoomOfALongLineAmongMomentsInside) {
  // A line needs 90 px between 10 s and 12 s; a pin of another column at 11 s lies in the middle of it, not at its top.
  const std::vector<ElasticBlock> blocks{
      {Moment::seconds(10), 90, 0}, {Moment::seconds(12), 20, 0}, {Moment::seconds(11), 5, 1}};
  const Elastic sheet(ten_minutes, blocks, {});
  EXPECT_NEAR(sheet.top(2) - sheet.top(0), 45, 1);
}

TEST(Elastic, StacksWhatStandsAtOneMoment) {
  const std::vector<ElasticBlock> blocks{{Moment::seconds(5), 20, 0},
                                         {Moment::seconds(5), 30, 0},
                                         {Moment::seconds(600), 25, 0},
                                         {Moment::seconds(700), 15, 0}};
  const Elastic sheet(ten_minutes, blocks, {});
  EXPECT_NEAR(sheet.top(1) - sheet.top(0), 20, 1e-9);
  EXPECT_NEAR(sheet.top(3) - sheet.top(2), 25, 1e-9);  // both at the very end
  EXPECT_GE(sheet.height(), sheet.top(3) + 15);
}

TEST(Elastic, FindsExactlyTheVisibleBlocks) {
  std::mt19937 random(19);
  const Sheet s = random_sheet(random, 500);
  const Elastic sheet(s.extent, s.blocks, {});
  for (int round = 0; round < 50; ++round) {
    const double from = sheet.height() * static_cast<double>(random() % 1000) / 1000;
    const double until = from + 400;
    const auto seen = sheet.visible(1, from, until);
    const auto order = sheet.block_order(1);
    for (std::size_t k = 0; k < order.size(); ++k) {
      const double top = sheet.top(order[k]);
      const double bottom = top + static_cast<double>(s.blocks[order[k]].height);
      EXPECT_EQ(k >= seen.first && k<seen.last, bottom> from && top < until) << k;
    }
  }
}

TEST(Elastic, TakesInBlocksOutsideTheExtentAndAnEmptyExtent) {
  const std::vector<ElasticBlock> blocks{{Moment::seconds(-5), 20, 0}, {Moment::seconds(9999), 20, 0}};
  const Elastic sheet(ten_minutes, blocks, {});
  EXPECT_EQ(sheet.top(0), 0);
  EXPECT_GE(sheet.height(), sheet.top(1) + 20);
  const Elastic empty({Moment::seconds(4), Moment::seconds(4)}, {}, {});
  EXPECT_EQ(empty.at(0), Moment::seconds(4));
  EXPECT_EQ(Elastic().height(), 0);
}

TEST(Elastic, LaysOutThreeHoursWithTenThousandPins) {
  std::mt19937 random(23);
  Sheet s{{Moment(), Moment::seconds(3 * 3600)}, {}};
  for (int i = 0; i < 3600; ++i) s.blocks.push_back({Moment::seconds(3.0 * i), 40, 0});
  for (int i = 0; i < 10'000; ++i)
    s.blocks.push_back({Moment::millis(static_cast<std::int64_t>(random() % 10'800'000)), 36, 1});
  const Elastic sheet(s.extent, s.blocks, {});
  const auto seen = sheet.visible(1, sheet.height() / 2, sheet.height() / 2 + 720);
  EXPECT_GT(seen.last, seen.first);
  EXPECT_LE(seen.last - seen.first, 720 / 36 + 2);  // only what fits is handed out
}

TEST(TimeMarks, StandApartAndAreWholeSteps) {
  std::mt19937 random(29);
  for (int round = 0; round < 20; ++round) {
    Sheet s = random_sheet(random, 200);
    s.extent.until = s.extent.until - s.extent.from;
    s.extent.from = Moment();
    const Elastic sheet(s.extent, s.blocks, {});
    const auto marks = time_marks(sheet, 60);
    ASSERT_FALSE(marks.empty());
    for (std::size_t i = 0; i < marks.size(); ++i) {
      EXPECT_EQ(marks[i].count() % Moment::per_second, 0);
      if (i > 0) {
        EXPECT_GE(sheet.y(marks[i]) - sheet.y(marks[i - 1]), 60 - 1e-6);
      }
    }
  }
}

TEST(TimeMarks, NoneHasARounderTimeBesideIt) {
  std::mt19937 random(31);
  Sheet s = random_sheet(random, 200);
  s.extent.until = s.extent.until - s.extent.from;
  s.extent.from = Moment();
  const Elastic sheet(s.extent, s.blocks, {});
  constexpr double gap = 60;
  const auto marks = time_marks(sheet, gap);
  for (std::size_t i = 1; i < marks.size(); ++i) {
    if (marks[i].count() % (5 * Moment::per_second) == 0) continue;
    const double free_from = sheet.y(marks[i - 1]) + gap;
    const auto first = static_cast<std::int64_t>(std::ceil(sheet.at(free_from).in_seconds() / 5)) * 5;
    const Moment five = Moment::seconds(static_cast<double>(first));
    EXPECT_TRUE(five >= s.extent.until || sheet.y(five) >= free_from + gap - 1e-6)
        << marks[i].in_seconds() << " is marked, not " << first;
  }
}

}  // namespace
}  // namespace sash::desk
