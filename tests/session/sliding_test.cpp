#include "session/sliding.h"

#include <gtest/gtest.h>

namespace sash::session {
namespace {

using model::Record;

// Lines of two seconds, three seconds apart, from 10 s on; a figure on the words of the second.
Record script() {
  Record r;
  r.footages = {{{1}, "a.mp4", "", "A", Moment::seconds(100), 0}};
  for (std::int64_t i = 1; i <= 4; ++i) {
    model::NarrationLine line;
    line.id = {i};
    line.footage = {1};
    const double from = 7.0 + 3.0 * static_cast<double>(i);
    line.when = {Moment::seconds(from), Moment::seconds(from + 2)};
    line.text = "add 20 mL of water";
    line.words = {{0, 3, Moment::seconds(from)}, {4, 2, Moment::seconds(from + 0.5)}};
    r.lines.push_back(line);
  }
  model::Figure figure;
  figure.id = {1};
  figure.place = {{1}, Moment::seconds(13.5), Moment::seconds(14)};
  figure.words = model::Words{{2}, 4, 5};
  r.figures = {figure};
  return r;
}

Record slid(const Record& before, std::int64_t line, double from) {
  const auto planned = slide_line(before, {line}, Moment::seconds(from));
  EXPECT_TRUE(planned.ok());
  Record r = before;
  EXPECT_TRUE(model::apply(planned->edit, r).ok());
  Record back = r;
  EXPECT_TRUE(model::apply(model::inverse(planned->edit), back).ok());
  EXPECT_EQ(back, before) << "one step takes all of it back";
  return r;
}

double start(const Record& r, std::size_t i) { return r.lines[i].when.from.in_seconds(); }

TEST(Sliding, ALineTakesItsWordTimesAndFiguresAlong) {
  const Record r = slid(script(), 2, 14);
  EXPECT_EQ(r.lines[1].when, (Stretch{Moment::seconds(14), Moment::seconds(16)}));
  EXPECT_EQ(r.lines[1].words[1].from, Moment::seconds(14.5));
  EXPECT_EQ(r.figures[0].place.from, Moment::seconds(14.5));
  EXPECT_EQ(r.figures[0].place.until, Moment::seconds(15));
}

TEST(Sliding, LinesItWouldRunIntoArePushedOnNoFurtherThanNeeded) {
  const Record r = slid(script(), 1, 15);  // it lasts until 17, the third begins at 16
  EXPECT_EQ(start(r, 1), 17);
  EXPECT_EQ(start(r, 2), 19);
  EXPECT_EQ(start(r, 3), 21);
  const Record little = slid(script(), 1, 10.5);  // until 12.5: nobody is in the way
  EXPECT_EQ(start(little, 1), 13);
}

TEST(Sliding, AnEarlierStartEndsTheLineBefore) {
  const Record r = slid(script(), 2, 11);
  EXPECT_EQ(r.lines[0].when, (Stretch{Moment::seconds(10), Moment::seconds(11)}));
  EXPECT_EQ(start(r, 2), 16);
}

TEST(Sliding, LinesThatOverlappedBeforeMayGoOnDoingSo) {
  Record before = script();
  before.lines[0].when.until = Moment::seconds(14);  // captions of two speakers
  const Record r = slid(before, 1, 11);
  EXPECT_EQ(start(r, 1), 14) << "as far behind as it was";
  EXPECT_EQ(start(r, 2), 16);
}

TEST(Sliding, OtherFootagesStayWhereTheyAre) {
  Record before = script();
  before.footages.push_back({{2}, "b.mp4", "", "B", Moment::seconds(100), 1});
  before.lines[2].footage = {2};
  EXPECT_EQ(start(slid(before, 1, 15.5), 2), 16);
}

TEST(Sliding, ALineThatIsGoneIsSaidSo) { EXPECT_FALSE(slide_line(script(), {9}, Moment()).ok()); }

}  // namespace
}  // namespace sash::session
