// Pins, spans and narration lines moved by hand; pasting; proposals walked in their list; actions found by their words.
#include <gtest/gtest.h>

#include <algorithm>

#include "desk/shown/keys.h"
#include "draw/pages/fake_desk.h"
#include "draw/pages/lesson.h"

namespace sash::testing {
namespace {

using desk::Key;
using desk::MouseButton;
using model::FigureId;
using model::HazardId;
using model::LineId;

class Handling : public ::testing::Test {
 protected:
  FakeDesk desk{lesson()};
  Harness& hand = desk.hand();

  void rest() { hand.wait(1); }
  template <class T>
  T only() {
    const auto asked = desk.asked<T>();
    EXPECT_EQ(asked.size(), 1U);
    return asked.empty() ? T{} : asked.front();
  }
  ImVec2 middle(std::string_view id) const {
    const auto& seen = desk_item(id).seen;
    return {(seen.min.x + seen.max.x) / 2, (seen.min.y + seen.max.y) / 2};
  }
  const desk::Registry::Item& desk_item(std::string_view id) const {
    return const_cast<Handling*>(this)->hand.item(id);
  }
};

TEST_F(Handling, AFigureIsMovedByDraggingIt) {
  const Moment before = model::find(desk.record(), FigureId{2})->place.from;
  hand.drag("sheet.figure.2", {0, 40});
  const auto move = only<session::MovePin>();
  EXPECT_EQ(move.thing, session::ThingRef(FigureId{2}));
  EXPECT_GT(move.from, before);
  const auto seeks = desk.asked<session::Seek>();
  ASSERT_FALSE(seeks.empty());
  EXPECT_FALSE(seeks.front().settled) << "the footage shows where it is going";
  EXPECT_EQ(seeks.back().to, move.from);
  EXPECT_TRUE(seeks.back().settled);
}

TEST_F(Handling, EscapeLeavesADraggedPinWhereItWas) {
  const ImVec2 at = middle("sheet.figure.2");
  hand.move_to(at);
  hand.put(desk::MousePress{MouseButton::left, true, {}});
  hand.settle();
  hand.move_to({at.x, at.y + 40});
  hand.key(Key::escape);
  hand.move_to({at.x, at.y + 60});
  hand.put(desk::MousePress{MouseButton::left, false, {}});
  hand.settle();
  EXPECT_TRUE(desk.asked<session::MovePin>().empty());
}

TEST_F(Handling, NothingMovesInARecordOpenForReading) {
  desk.read_only = "another desk has it open";
  hand.settle();
  hand.drag("sheet.figure.2", {0, 40});
  EXPECT_TRUE(desk.asked<session::MovePin>().empty());
  EXPECT_FALSE(desk.asked<session::Seek>().empty()) << "it scrubs instead";
}

TEST_F(Handling, ASelectedPinsSpanIsDraggedByItsEnd) {
  hand.click("findings.list.1");  // a hazard that nobody announces
  const auto hazard = desk.app().selection().as<HazardId>();
  ASSERT_TRUE(hazard);
  rest();
  desk.forget();
  const model::Place place = model::find(desk.record(), *hazard)->place;
  ASSERT_TRUE(place.until);
  ASSERT_TRUE(hand.has("sheet.span.end"));
  hand.drag("sheet.span.end", {0, 30});
  const auto put = only<session::PutThing>();
  const auto& changed = std::get<model::Hazard>(put.thing);
  EXPECT_EQ(changed.id, *hazard);
  EXPECT_EQ(changed.place.from, place.from);
  EXPECT_GT(*changed.place.until, *place.until);
}

TEST_F(Handling, ALineSlidesByItsLeftEdge) {
  const auto line = hand.item("sheet.line.2").seen;
  const ImVec2 edge{line.min.x + 3, line.min.y + 8};
  hand.drag(edge, {edge.x, edge.y + 30});
  const auto move = only<session::MovePin>();
  EXPECT_EQ(move.thing, session::ThingRef(LineId{2}));
  EXPECT_GT(move.from, model::find(desk.record(), LineId{2})->when.from);
}

TEST_F(Handling, AScriptIsTimedLineByLineWithOneKey) {
  hand.click("sheet.line.2");
  desk.forget();
  desk.transport().at = Moment::seconds(9);
  hand.settle();
  hand.key(Key::t);
  const auto move = only<session::MovePin>();
  EXPECT_EQ(move.thing, session::ThingRef(LineId{2}));
  EXPECT_EQ(move.from, Moment::seconds(9));
  EXPECT_EQ(desk.app().selection().as<LineId>(), LineId{3}) << "on to the next";
}

TEST_F(Handling, NarrationIsWrittenWhereThePlayheadStands) {
  desk.transport().at = Moment::seconds(50);
  rest();
  hand.key(Key::i);
  hand.settle();
  hand.type("Now we wait.");
  hand.key(Key::enter, desk::ctrl);
  EXPECT_EQ(only<session::AddText>().text, "Now we wait.");
  desk.forget();
  hand.key(Key::i);
  hand.settle();
  hand.key(Key::escape);
  EXPECT_TRUE(desk.asked<session::AddText>().empty());
  hand.key(Key::space);
  EXPECT_EQ(desk.asked<session::TogglePlay>().size(), 1U) << "and the keyboard is the desk's again";
}

TEST_F(Handling, PastedTextIsNarrationAndPastedPathsAreFiles) {
  hand.clipboard() = "1\n00:00:01,000 --> 00:00:03,000\nWe begin.\n";
  hand.key(Key::v, desk::ctrl);
  EXPECT_EQ(only<session::AddText>().text, hand.clipboard());
  hand.clipboard() = "file:///clips/day%20one.mp4\r\nfile:///clips/day1.srt\r\n";
  hand.key(Key::v, desk::ctrl);
  EXPECT_EQ(only<session::AddFiles>().paths, (std::vector<std::string>{"/clips/day one.mp4", "/clips/day1.srt"}));
}

TEST_F(Handling, PastingIntoAFieldStaysInTheField) {
  hand.clipboard() = "copper";
  hand.click("sheet.search");
  hand.key(Key::v, desk::ctrl);
  EXPECT_TRUE(desk.asked<session::AddText>().empty());
}

TEST_F(Handling, ProposalsStandInAListThatTheKeysWalk) {
  EXPECT_FALSE(hand.has("proposals.list.0"));
  hand.key(Key::p);
  ASSERT_TRUE(hand.has("proposals.list.0")) << "walking them shows the list";
  const auto first = desk.app().selection().thing;
  ASSERT_TRUE(first);
  hand.click("proposals.list.1");
  ASSERT_NE(desk.app().selection().thing, first);
  desk.forget();
  const auto second = *desk.app().selection().thing;
  hand.key(Key::a);
  EXPECT_EQ(only<session::Accept>().things, std::vector{second});
}

TEST_F(Handling, AllProposalsAreAcceptedInOneStep) {
  std::size_t open = 0;
  const auto& record = desk.record();
  const auto count = [&](const auto& list) {
    for (const auto& each : list) open += each.origin.standing == model::Standing::proposed ? 1 : 0;
  };
  count(record.figures);
  count(record.relations);
  count(record.hazards);
  count(record.callouts);
  ASSERT_GT(open, 1U);
  hand.click("lower.page.1");
  hand.click("proposals.accept_all");
  EXPECT_EQ(only<session::Accept>().things.size(), open);
  rest();
  EXPECT_FALSE(hand.has("proposals.list.0"));
  EXPECT_TRUE(hand.has("findings.list.0")) << "what came of them is shown";
}

TEST_F(Handling, ProposalsThatComeAreShownAtOnce) {
  for (auto& f : desk.record().figures) f.origin.standing = model::Standing::confirmed;
  for (auto& r : desk.record().relations) r.origin.standing = model::Standing::confirmed;
  desk.changed();
  rest();
  EXPECT_FALSE(hand.has("lower.page.1")) << "nothing to choose between";
  desk.record().figures[0].origin.standing = model::Standing::proposed;
  desk.changed();
  rest();
  EXPECT_TRUE(hand.has("proposals.list.0"));
}

TEST_F(Handling, AnActionIsFoundByItsWordsAndDone) {
  hand.key(Key::k, desk::ctrl);
  hand.settle();
  hand.type("pin haz");
  hand.settle();
  EXPECT_EQ(hand.item("actions.0").label, desk::binding(desk::Action::pin_hazard).words);
  EXPECT_FALSE(hand.has("actions.1"));
  hand.key(Key::enter);
  EXPECT_EQ(only<session::PinHere>().kind, session::PinKind::hazard);
  EXPECT_FALSE(hand.has("actions.0"));
}

TEST_F(Handling, TheExportIsReachedByItsWordToo) {
  hand.key(Key::k, desk::ctrl);
  hand.settle();
  hand.type("export");
  hand.key(Key::enter);
  hand.settle();
  hand.key(Key::enter);
  EXPECT_EQ(only<session::ExportScript>().folder, "/lessons/copper script");
}

TEST_F(Handling, FiguresAreTiedByKeysAlone) {
  hand.key(Key::w);
  const auto next_figure = [&](FigureId id) {
    for (int i = 0; i < 40 && desk.app().selection().as<FigureId>() != id; ++i) hand.key(Key::down);
    return desk.app().selection().as<FigureId>() == id;
  };
  ASSERT_TRUE(next_figure({3}));
  hand.key(Key::w);
  ASSERT_TRUE(next_figure({4}));
  hand.key(Key::w);
  hand.key(Key::enter, desk::ctrl);
  const auto put = only<session::PutThing>();
  const auto& relation = std::get<model::Relation>(put.thing);
  EXPECT_EQ(relation.type, model::RelationType::in_solution);
  ASSERT_EQ(relation.terms.size(), 2U);
  EXPECT_EQ(relation.terms[0].figure, FigureId{3});
  EXPECT_EQ(relation.terms[1].figure, FigureId{4});
}

}  // namespace
}  // namespace sash::testing
