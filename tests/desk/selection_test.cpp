#include "desk/shown/selection.h"

#include <gtest/gtest.h>

namespace sash::desk {
namespace {

model::Record two_lines() {
  model::Record r;
  r.lines = {{.id = {1}, .footage = {1}, .when = {Moment(), Moment::seconds(4)}, .text = "four grams of\ncopper"},
             {.id = {2}, .footage = {1}, .when = {Moment::seconds(5), Moment::seconds(9)}, .text = "and acid"}};
  return r;
}

std::string text_of(const model::Record& r, const model::Words& w) {
  return model::find(r, w.line)->text.substr(w.begin, w.length);
}

TEST(WordSteps, WalkOverLineEndsBothWays) {
  const auto r = two_lines();
  const model::Place start{{1}, Moment(), std::nullopt};
  std::vector<std::string> seen;
  std::optional<model::Words> at;
  for (int i = 0; i < 7; ++i) {
    at = step_words(r, at, 1, start);
    ASSERT_TRUE(at);
    seen.push_back(text_of(r, *at));
  }
  EXPECT_EQ(seen, (std::vector<std::string>{"four", "grams", "of", "copper", "and", "acid", "acid"}));
  at = step_words(r, step_words(r, at, -1, start), -1, start);
  EXPECT_EQ(text_of(r, *at), "copper");
}

TEST(WordSteps, BeginAtThePlayhead) {
  const auto r = two_lines();
  EXPECT_EQ(text_of(r, *step_words(r, std::nullopt, 1, {{1}, Moment::seconds(5), std::nullopt})), "and");
  EXPECT_FALSE(step_words({}, std::nullopt, 1, {}));
}

TEST(WordSteps, GrowAndShrinkButNeverToNothing) {
  const auto r = two_lines();
  model::Words w{{1}, 0, 4};
  w = grow_words(r, w, 1);
  EXPECT_EQ(text_of(r, w), "four grams");
  w = grow_words(r, grow_words(r, w, -1), -1);
  EXPECT_EQ(text_of(r, w), "four");
}

TEST(WholeWords, AreThoseThatAreTouched) {
  const auto line = two_lines().lines[0];
  EXPECT_EQ(*whole_words(line, 2, 7), (model::Words{{1}, 0, 10}));
  EXPECT_EQ(*whole_words(line, 6, 6), (model::Words{{1}, 5, 5}));
  EXPECT_FALSE(whole_words(line, 4, 4));  // the blank between
}

TEST(MomentOf, UsesWordTimesWhereThereAreSome) {
  auto line = two_lines().lines[0];
  EXPECT_EQ(moment_of(line, 0), Moment());
  EXPECT_EQ(moment_of(line, 10), Moment::seconds(2));  // half of the text, half of the time
  line.words = {{0, 4, Moment::seconds(0.5)}, {5, 5, Moment::seconds(3)}};
  EXPECT_EQ(moment_of(line, 7), Moment::seconds(3));
}

TEST(ThingOf, FindsAnythingAndNothing) {
  const auto r = two_lines();
  EXPECT_TRUE(thing_of(r, model::LineId{2}));
  EXPECT_FALSE(thing_of(r, model::FigureId{2}));
  EXPECT_EQ(place_of(r, model::LineId{2})->from, Moment::seconds(5));
  EXPECT_FALSE(place_of(r, model::PortionId{1}));
}

}  // namespace
}  // namespace sash::desk
