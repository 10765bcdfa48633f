#include "model/edit.h"

#include <gtest/gtest.h>

namespace sash::model {
namespace {

Record with_footage() {
  Record r;
  r.footages.push_back(Footage{{1}, "a.mp4", "", "A", Moment::seconds(10), 0});
  return r;
}

Figure figure(std::int64_t id) {
  Figure f;
  f.id = {id};
  f.place = {{1}, Moment::seconds(1), std::nullopt};
  return f;
}

TEST(Edit, ItsInverseTakesItBackExactly) {
  Record r = with_footage();
  const Record before = r;
  Edit edit{"Pin", {{std::nullopt, figure(5)}, {std::nullopt, figure(2)}}, BenchChange{r.bench, r.bench}};
  edit.bench->after.room_celsius = 25;
  ASSERT_TRUE(apply(edit, r).ok());
  EXPECT_EQ(r.figures.size(), 2U);
  EXPECT_EQ(r.figures[0].id.number, 2);
  EXPECT_EQ(r.bench.room_celsius, 25);
  ASSERT_TRUE(apply(inverse(edit), r).ok());
  EXPECT_EQ(r, before);
}

TEST(Edit, MadeForAnotherStateLeavesTheRecordUntouched) {
  Record r = with_footage();
  r.figures.push_back(figure(3));
  const Record before = r;
  Figure other = figure(3);
  other.subject = "copper";
  const Edit edit{"Change", {{std::nullopt, figure(4)}, {other, figure(3)}}, {}};
  const Done done = apply(edit, r);
  ASSERT_FALSE(done.ok());
  EXPECT_EQ(done.fault().code, Code::impossible);
  EXPECT_EQ(r, before);
}

TEST(Edit, RefusesToLeaveARelationWithoutItsFigure) {
  Record r = with_footage();
  r.figures.push_back(figure(3));
  r.relations.push_back(Relation{{1}, RelationType::total, {{"whole", {3}, ""}}, {}, "", {}});
  const Record before = r;
  const Done done = apply(Edit{"Delete figure", {{figure(3), std::nullopt}}, {}}, r);
  ASSERT_FALSE(done.ok());
  EXPECT_NE(done.fault().sentence.find("a relation's figure"), std::string::npos);
  EXPECT_EQ(r, before);
}

TEST(Edit, RefusesAThingWithoutAnId) {
  Record r = with_footage();
  EXPECT_FALSE(apply(Edit{"Pin", {{std::nullopt, figure(0)}}, {}}, r).ok());
  EXPECT_FALSE(apply(Edit{"Nothing", {{std::nullopt, std::nullopt}}, {}}, r).ok());
}

}  // namespace
}  // namespace sash::model
