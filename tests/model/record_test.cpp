#include "model/record.h"

#include <gtest/gtest.h>

namespace sash::model {
namespace {

TEST(Record, PlaysFootagesByOrderThenId) {
  Record r;
  r.footages = {{{1}, "b.mp4", "", "", Moment::seconds(4), 2}, {{2}, "a.mp4", "", "", Moment::seconds(3), 1}};
  EXPECT_EQ(in_order(r).front()->path, "a.mp4");
  EXPECT_EQ(film_start(r, {1}), Moment::seconds(3));
  EXPECT_EQ(film_start(r, {2}), Moment());
}

TEST(Record, FindsThingsByIdAndOnlyThose) {
  Record r;
  r.notes = {{{2}, {}, "two"}, {{9}, {}, "nine"}};
  ASSERT_NE(find(r, NoteId{9}), nullptr);
  EXPECT_EQ(find(r, NoteId{9})->text, "nine");
  EXPECT_EQ(find(r, NoteId{3}), nullptr);
}

}  // namespace
}  // namespace sash::model
