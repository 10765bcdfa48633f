#include "script/inner/rows.h"

#include <gtest/gtest.h>

#include <map>

#include "script/sample.h"

namespace sash::script::inner {
namespace {

TEST(Rows, EveryThingStandsInExactlyOneRowInOrderOfTime) {
  auto record = sample();
  for (std::int64_t i = 2; i < 40; ++i) {
    model::Figure f = record.figures[0];
    f.id = {i};
    f.words.reset();
    f.place.footage = {1 + i % 2};
    f.place.from = Moment::seconds(static_cast<double>(i * 7 % 30));
    record.figures.push_back(f);
  }
  const auto rows = make_rows(record, FilmTime(record));
  std::map<const void*, int> seen;
  Moment last;
  for (const auto& row : rows) {
    EXPECT_GE(row.at, last);
    last = row.at;
    for (const auto* f : row.figures) ++seen[f];
    for (const auto* h : row.hazards) ++seen[h];
    for (const auto* c : row.callouts) ++seen[c];
    if (row.chapter != nullptr) ++seen[row.chapter];
    if (row.line != nullptr) ++seen[row.line];
  }
  EXPECT_EQ(seen.size(), record.figures.size() + record.hazards.size() + record.callouts.size() +
                             record.chapters.size() + record.lines.size());
  for (const auto& [thing, times] : seen) EXPECT_EQ(times, 1);
}

TEST(Rows, AFigureSaidInALineStandsBesideIt) {
  const auto record = sample();
  for (const auto& row : make_rows(record, FilmTime(record))) {
    if (row.line != nullptr) {
      ASSERT_EQ(row.figures.size(), 1U);
    } else {
      EXPECT_TRUE(row.figures.empty());
    }
  }
}

}  // namespace
}  // namespace sash::script::inner
