#include "desk/shown/pin_drag.h"

#include <gtest/gtest.h>

#include "draw/pages/lesson.h"

namespace sash::desk {
namespace {

class PinDrag : public ::testing::Test {
 protected:
  model::Record record = testing::lesson();
  workings::Report report;
  safety::Cover cover;
  std::map<model::FootageId, session::FootageState> footage;
  std::vector<session::Notice> notices;
  std::vector<std::string> recent;
  Film film{record};

  session::SessionView view() const {
    return {.has_record = true,
            .record = record,
            .report = report,
            .cover = cover,
            .footage = footage,
            .notices = notices,
            .recent = recent};
  }
  const model::Place& place(model::HazardId id) const { return model::find(record, id)->place; }
  std::optional<model::Place> dragged(model::HazardId id, PinPart part, double by) const {
    const Moment held = film.to_film(place(id));
    return dragged_place(view(), film, {id, part, held}, held + Moment::seconds(by));
  }
};

constexpr model::HazardId first{1};

TEST_F(PinDrag, TheWholePinKeepsItsLength) {
  const auto moved = dragged(first, PinPart::whole, 3);
  ASSERT_TRUE(moved);
  EXPECT_NEAR((moved->from - place(first).from).in_seconds(), 3, 0.01);
  EXPECT_EQ(*moved->until - moved->from, *place(first).until - place(first).from);
}

TEST_F(PinDrag, AnEndMovesAlone) {
  const auto later = dragged(first, PinPart::end, 2);
  EXPECT_EQ(later->from, place(first).from);
  EXPECT_NEAR((*later->until - *place(first).until).in_seconds(), 2, 0.01);
  const auto earlier = dragged(first, PinPart::start, -2);
  EXPECT_EQ(earlier->until, place(first).until);
  EXPECT_NEAR((earlier->from - place(first).from).in_seconds(), -2, 0.01);
}

TEST_F(PinDrag, EndsDoNotPassEachOther) {
  EXPECT_GT(*dragged(first, PinPart::end, -500)->until, place(first).from);
  EXPECT_LT(dragged(first, PinPart::start, 500)->from, *place(first).until);
}

TEST_F(PinDrag, PinsStayOnTheirFootage) {
  EXPECT_EQ(dragged(first, PinPart::whole, -500)->from, Moment());
  const auto end = dragged(first, PinPart::whole, 500);
  EXPECT_EQ(end->footage, place(first).footage);
  EXPECT_LE(end->from, film.reel(end->footage)->length);
}

TEST_F(PinDrag, PinsLandOnFramesWhereTheyAreKnown) {
  std::vector<media::Frame> frames;
  for (std::int64_t i = 0; i < 3000; ++i) frames.push_back({Moment::rational(i, 1, 25), Moment::rational(1, 1, 25)});
  frames.front().key = true;
  footage[place(first).footage].index =
      std::make_shared<media::FrameIndex>(frames, std::vector<media::KeyPlace>{{Moment(), Moment(), -1}}, false, false);
  const Moment from = dragged(first, PinPart::whole, 1.2345)->from;
  const std::int64_t frame = Moment::per_second / 25;
  EXPECT_EQ(from.count() % frame, 0);
  EXPECT_NEAR((from - place(first).from).in_seconds(), 1.2345, 0.021);
}

TEST_F(PinDrag, LettingGoAsksForAMoveOrForTheChangedSpan) {
  const PinGrip whole{first, PinPart::whole, {}};
  const auto moved = drop_of(view(), whole, *dragged(first, PinPart::whole, 3));
  ASSERT_TRUE(moved);
  EXPECT_EQ(std::get<session::MovePin>(*moved).thing, session::ThingRef(first));
  const auto wider = drop_of(view(), {first, PinPart::end, {}}, *dragged(first, PinPart::end, 2));
  ASSERT_TRUE(wider);
  const auto& hazard = std::get<model::Hazard>(std::get<session::PutThing>(*wider).thing);
  EXPECT_EQ(hazard.place.from, place(first).from);
  EXPECT_GT(*hazard.place.until, *place(first).until);
  EXPECT_FALSE(drop_of(view(), whole, place(first))) << "where it lay";
}

TEST_F(PinDrag, WhatIsPinnedNowhereIsNotDragged) {
  EXPECT_FALSE(dragged_place(view(), film, {model::RelationId{1}, PinPart::whole, {}}, Moment()));
}

}  // namespace
}  // namespace sash::desk
