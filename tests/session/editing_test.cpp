#include "session/editing.h"

#include <gtest/gtest.h>

namespace sash::session {
namespace {

using model::Record;

NewNumber counter(std::int64_t from = 100) {
  return [next = from](const model::Thing&) mutable { return next++; };
}

Record sample() {
  Record r;
  r.footages = {{{1}, "a.mp4", "", "A", Moment::seconds(100), 0}};
  model::NarrationLine line;
  line.id = {1};
  line.footage = {1};
  line.when = {Moment::seconds(10), Moment::seconds(20)};
  line.text = "add 20 mL of water";
  r.lines = {line};
  for (std::int64_t i = 1; i <= 3; ++i) {
    model::Figure f;
    f.id = {i};
    f.place = {{1}, Moment::seconds(static_cast<double>(i)), std::nullopt};
    r.figures.push_back(f);
  }
  r.figures[0].words = model::Words{{1}, 4, 5};
  r.figures[1].corrected_by = model::FigureId{3};
  r.relations = {
      {{1}, model::RelationType::share, {{"part", {1}, ""}, {"whole", {2}, ""}, {"rest", {3}, ""}}, {}, "", {}},
      {{2}, model::RelationType::same_portion, {{"mass", {1}, ""}, {"amount", {2}, ""}}, {}, "", {}}};
  model::Hazard h;
  h.id = {1};
  h.place = {{1}, Moment::seconds(30), Moment::seconds(40)};
  r.hazards = {h};
  model::Callout c;
  c.id = {1};
  c.place = {{1}, Moment::seconds(27), Moment::seconds(32)};
  c.hazards = {{1}};
  r.callouts = {c};
  return r;
}

Record after(const Record& before, const Planned& planned) {
  Record r = before;
  const Done done = model::apply(planned.edit, r);
  EXPECT_TRUE(done.ok()) << (done ? "" : done.fault().sentence);
  Record back = r;
  EXPECT_TRUE(model::apply(model::inverse(planned.edit), back).ok());
  EXPECT_EQ(back, before) << "the edit's inverse does not take it back";
  return r;
}

TEST(Editing, APinIsMadeAtItsPlaceAndIsWhatTheEditIsAbout) {
  const Record before = sample();
  const auto planned = pin(before, counter(), PinKind::yield, {{1}, Moment::seconds(50), std::nullopt});
  const Record r = after(before, planned);
  ASSERT_EQ(r.figures.size(), 4U);
  EXPECT_EQ(r.figures.back().kind, quantity::Kind::percent_yield);
  EXPECT_EQ(std::get<model::FigureId>(*planned.about), r.figures.back().id);
}

TEST(Editing, ASpanEndedBeforeItsStartIsTurnedRound) {
  const Record before = sample();
  const auto planned = end_span(before, model::FigureId{3}, Moment::seconds(1));
  ASSERT_TRUE(planned.ok());
  const Record r = after(before, *planned);
  EXPECT_EQ(r.figures[2].place.from, Moment::seconds(1));
  EXPECT_EQ(r.figures[2].place.until, Moment::seconds(3));
}

TEST(Editing, MovingTakesTheSpanAlong) {
  const Record before = sample();
  const Record r = after(before, *move_pin(before, model::HazardId{1}, Moment::seconds(35)));
  EXPECT_EQ(r.hazards[0].place.until, Moment::seconds(45));
  const Record slid = after(before, *move_pin(before, model::LineId{1}, Moment::seconds(12)));
  EXPECT_EQ(slid.lines[0].when, (Stretch{Moment::seconds(12), Moment::seconds(22)}));
}

TEST(Editing, RemovingAFigureLeavesNothingPointingAtIt) {
  const Record before = sample();
  const ThingRef things[] = {model::FigureId{1}};
  const Record r = after(before, *remove_things(before, things));
  EXPECT_EQ(r.figures.size(), 2U);
  ASSERT_EQ(r.relations.size(), 1U) << "a relation left with one figure goes too";
  EXPECT_EQ(r.relations[0].terms.size(), 2U);
}

TEST(Editing, RemovingWhatCorrectsAFigureLetsItStandAgain) {
  const Record before = sample();
  const ThingRef things[] = {model::FigureId{3}, model::HazardId{1}};
  const Record r = after(before, *remove_things(before, things));
  EXPECT_FALSE(r.figures[1].corrected_by);
  EXPECT_TRUE(r.callouts[0].hazards.empty());
}

TEST(Editing, RemovingFootageTakesAlongWhatIsPinnedOnIt) {
  const Record before = sample();
  const ThingRef things[] = {model::FootageId{1}};
  const Record r = after(before, *remove_things(before, things));
  EXPECT_TRUE(r.footages.empty() && r.lines.empty() && r.figures.empty() && r.hazards.empty() && r.callouts.empty() &&
              r.relations.empty());
}

TEST(Editing, WhatIsNoLongerThereIsSaidSo) {
  const Record before = sample();
  const ThingRef things[] = {model::NoteId{7}};
  const auto planned = remove_things(before, things);
  ASSERT_FALSE(planned.ok());
  EXPECT_EQ(planned.fault().code, Code::not_found);
  EXPECT_FALSE(move_pin(before, model::RelationId{1}, Moment()).ok()) << "a relation is not pinned anywhere";
}

TEST(Editing, AcceptingConfirmsAndRefusingKeepsTheProposal) {
  Record before = sample();
  before.figures[0].origin = {model::Standing::proposed, "number and unit", 0.9};
  const ThingRef things[] = {model::FigureId{1}};
  const Record yes = after(before, *settle(before, things, model::Standing::confirmed));
  EXPECT_EQ(yes.figures[0].origin.standing, model::Standing::confirmed);
  EXPECT_EQ(yes.figures[0].origin.rule, "number and unit");
  const Record no = after(before, *settle(before, things, model::Standing::refused));
  EXPECT_EQ(no.figures.size(), 3U);
}

TEST(Draft, AnEditThatChangesNothingIsEmpty) {
  const Record before = sample();
  EXPECT_TRUE(put_thing(before, counter(), before.figures[0], "Change figure").edit.empty());
  EXPECT_TRUE(put_bench(before, before.bench).edit.empty());
}

TEST(Editing, AProposalThatIsChangedCountsAsLookedAt) {
  Record before = sample();
  before.figures[0].origin = {model::Standing::proposed, "a number and its unit", 0.9};
  model::Figure changed = before.figures[0];
  changed.subject = "water";
  const Record r = after(before, put_thing(before, counter(), changed, "Edit figure"));
  EXPECT_EQ(r.figures[0].origin.standing, model::Standing::confirmed);
  EXPECT_EQ(r.figures[0].origin.rule, "a number and its unit") << "how it was found is still known";
}

}  // namespace
}  // namespace sash::session
