#include "desk/shown/film.h"

#include <gtest/gtest.h>

namespace sash::desk {
namespace {

model::Record two_reels() {
  model::Record r;
  r.footages = {{.id = {1}, .path = "b.mp4", .duration = Moment::seconds(20), .order = 2},
                {.id = {2}, .path = "a.mp4", .duration = Moment::seconds(10), .order = 1}};
  return r;
}

TEST(Film, JoinsFootagesInTheirOrder) {
  const Film film(two_reels());
  ASSERT_EQ(film.reels().size(), 2U);
  EXPECT_EQ(film.reels()[0].footage.number, 2);
  EXPECT_EQ(film.length(), Moment::seconds(30));
  EXPECT_EQ(film.to_film(model::FootageId{1}, Moment::seconds(3)), Moment::seconds(13));
}

TEST(Film, GoesBackToTheFootageOfEachMoment) {
  const Film film(two_reels());
  EXPECT_EQ(film.from_film(Moment::seconds(13)), (Film::Spot{{1}, Moment::seconds(3)}));
  EXPECT_EQ(film.from_film(Moment::seconds(9.5)), (Film::Spot{{2}, Moment::seconds(9.5)}));
  EXPECT_EQ(film.from_film(Moment::seconds(10)), (Film::Spot{{1}, Moment()}));
  EXPECT_EQ(film.from_film(Moment::seconds(99)), (Film::Spot{{1}, Moment::seconds(20)}));
  EXPECT_EQ(film.from_film(Moment::seconds(-1)), (Film::Spot{{2}, Moment()}));
}

TEST(Film, AnOpenHazardLastsToTheEndOfItsFootage) {
  const Film film(two_reels());
  const model::Place open{{2}, Moment::seconds(4), std::nullopt};
  EXPECT_EQ(film.stretch(open, true), (Stretch{Moment::seconds(4), Moment::seconds(10)}));
  EXPECT_EQ(film.stretch(open), (Stretch{Moment::seconds(4), Moment::seconds(4)}));
}

TEST(Film, AnUnmeasuredFootageReachesPastItsLastPin) {
  model::Record r = two_reels();
  r.footages[1].duration = Moment();
  r.notes = {{.id = {1}, .place = {{2}, Moment::seconds(42), std::nullopt}, .text = "late"}};
  const Film film(r);
  EXPECT_GT(film.reels()[0].length, Moment::seconds(42));
  EXPECT_EQ(film.reels()[1].start, film.reels()[0].length);
}

TEST(Film, NarrationWithoutFootageHasATimeAxisToo) {
  model::Record r;
  r.lines = {{.id = {1}, .footage = {}, .when = {Moment::seconds(1), Moment::seconds(61)}, .text = "hello"}};
  const Film film(r);
  ASSERT_EQ(film.reels().size(), 1U);
  EXPECT_GT(film.length(), Moment::seconds(61));
  EXPECT_TRUE(Film(model::Record()).empty());
}

}  // namespace
}  // namespace sash::desk
