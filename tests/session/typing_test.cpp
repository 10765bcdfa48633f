#include <gtest/gtest.h>

#include "session/editing.h"

namespace sash::session {
namespace {

using quantity::Kind;

NewNumber counter() {
  return [next = std::int64_t{100}](const model::Thing&) mutable { return next++; };
}

model::Record sample() {
  model::Record r;
  r.footages = {{{1}, "a.mp4", "", "A", Moment::seconds(100), 0}};
  model::NarrationLine line;
  line.id = {1};
  line.footage = {1};
  line.when = {Moment::seconds(10), Moment::seconds(20)};
  line.text = "add 20 mL of water";
  r.lines = {line};
  model::Figure f;
  f.id = {1};
  f.place = {{1}, Moment::seconds(5), std::nullopt};
  r.figures = {f};
  return r;
}

TEST(Typing, OnePhraseFillsTheFigureAndMakesItsStrengthAndTheirTie) {
  model::Record r = sample();
  const auto planned = type_figure(r, counter(), {1}, "20 mL 6 M nitric acid");
  ASSERT_TRUE(planned.ok());
  ASSERT_TRUE(model::apply(planned->edit, r).ok());
  ASSERT_EQ(r.figures.size(), 2U);
  EXPECT_EQ(r.figures[0].kind, Kind::volume);
  EXPECT_EQ(r.figures[0].reading->value, 20);
  EXPECT_EQ(r.figures[0].subject, "nitric acid");
  EXPECT_EQ(r.figures[1].kind, Kind::molar_concentration);
  EXPECT_EQ(r.figures[1].place, r.figures[0].place);
  EXPECT_EQ(r.figures[0].portion, r.figures[1].portion);
  ASSERT_EQ(r.relations.size(), 1U);
  EXPECT_EQ(r.relations[0].type, model::RelationType::in_solution);
  EXPECT_EQ(r.relations[0].given.at("substance"), "nitric acid");
}

TEST(Typing, AYieldPinStaysAYield) {
  model::Record r = sample();
  r.figures[0].kind = Kind::percent_yield;
  const auto planned = type_figure(r, counter(), {1}, "82 % copper");
  ASSERT_TRUE(planned.ok());
  ASSERT_TRUE(model::apply(planned->edit, r).ok());
  EXPECT_EQ(r.figures[0].kind, Kind::percent_yield);
}

TEST(Typing, WhatHoldsNoQuantityLeavesTheFigureAsItWas) {
  const model::Record r = sample();
  EXPECT_EQ(type_figure(r, counter(), {1}, "nitric acid").fault().code, Code::malformed);
  EXPECT_EQ(type_figure(r, counter(), {77}, "1 g").fault().code, Code::not_found);
}

TEST(Typing, ChosenWordsBecomeAFigureAtTheTimeTheyAreHeard) {
  model::Record r = sample();
  const auto planned = pin_words(r, counter(), {{1}, 4, 5});
  ASSERT_TRUE(planned.ok());
  ASSERT_TRUE(model::apply(planned->edit, r).ok());
  ASSERT_EQ(r.figures.size(), 2U);
  EXPECT_EQ(r.figures[1].label, "20 mL");
  EXPECT_EQ(r.figures[1].reading->unit, "mL");
  EXPECT_GT(r.figures[1].place.from, Moment::seconds(12));
  EXPECT_LT(r.figures[1].place.from, Moment::seconds(13));
}

TEST(Typing, WordsOutsideTheLineAreRefused) {
  EXPECT_FALSE(pin_words(sample(), counter(), {{1}, 10, 4'000'000'000U}).ok());
}

}  // namespace
}  // namespace sash::session
