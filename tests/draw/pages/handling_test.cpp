// Pins, spans and narration lines moved by hand; pasting; proposals walked in their list; actions found by their words.
#include <algorithm>

#include "desk/shown/keys.h"
#include "draw/pages/lesson_desk.h"

namespace sash::testing {
namespace {

using desk::Key;
using model::FigureId;
using model::HazardId;
using model::LineId;

using Handling = LessonDesk;

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
  hold(at, {at.x, at.y + 40});
  hand.key(Key::escape);
  hand.move_to({at.x, at.y + 60});
  let_go();
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

TEST_F(Handling, ACalloutIsWrittenAsTheSentencesItHas) {
  desk.transport().at = Moment::seconds(126);
  rest();
  hand.click("sheet.hazard.4");
  hand.key(Key::c);
  ASSERT_TRUE(desk.app().selection().as<model::CalloutId>()) << "its editor is open";
  hand.settle();
  desk.forget();
  const float before = hand.item("pin.text").whole.height();
  hand.type(
      "The flask is hot for ten minutes. Leave it on the mat, and lift it with tongs, never with a cloth; hold "
      "the wrist under cold water at once if it touched you.");
  EXPECT_GT(hand.item("pin.text").whole.height(), before) << "all of it is seen";
  hand.key(Key::enter);
  const auto put = only<session::PutThing>();
  const auto& callout = std::get<model::Callout>(put.thing);
  EXPECT_TRUE(callout.text.starts_with("The flask is hot")) << callout.text;
  EXPECT_TRUE(callout.text.ends_with("touched you.")) << callout.text;
}

TEST_F(Handling, WhatIsTypedIsKeptWhenAKeyGoesElsewhere) {
  desk.transport().at = Moment::seconds(126);
  rest();
  hand.click("sheet.hazard.4");
  hand.key(Key::enter);
  hand.type(", and a wet bench");
  desk.forget();
  hand.key(Key::down, desk::ctrl);  // to the next finding
  const auto puts = desk.asked<session::PutThing>();
  ASSERT_EQ(puts.size(), 1U);
  EXPECT_TRUE(std::get<model::Hazard>(puts.front().thing).cause.ends_with(", and a wet bench"));
}

TEST_F(Handling, ANoticeGoesWhenWhatItSaysIsOver) {
  desk.notices = {{"The footage 'bench.mp4' is not where it was.", true, 1}};
  hand.settle();
  ASSERT_TRUE(hand.has("notice.0"));
  desk.notices.clear();  // the session has found it again
  hand.settle();
  EXPECT_FALSE(hand.has("notice.0"));
}

TEST_F(Handling, TheHitsOfASearchAreWalkedRound) {
  hand.key(Key::end);  // behind all of them
  hand.key(Key::f, desk::ctrl);
  hand.type("copper");
  hand.key(Key::enter);
  const auto first = desk.app().selection().thing;
  ASSERT_TRUE(first) << "the search goes on from the beginning";
  hand.key(Key::f, desk::ctrl);
  hand.type("conflict");
  hand.key(Key::enter);
  ASSERT_TRUE(desk.app().selection().thing);
  EXPECT_NE(desk.app().selection().thing, first) << "and takes the next word after that";
}

TEST_F(Handling, WhatIsWrongInANarrationIsInSightBeforeAnythingIsAccepted) {
  model::Record narration = desk.record();
  for (auto& f : narration.figures) f.origin.standing = model::Standing::proposed;
  for (auto& r : narration.relations) r.origin.standing = model::Standing::proposed;
  desk.record() = model::Record{};
  desk.changed();
  rest();
  desk.record() = narration;
  desk.changed();
  rest();
  ASSERT_TRUE(hand.has("findings.list.0")) << "what is wrong comes before the list of proposals";
  EXPECT_NE(hand.item("top.summary").label.find("1 conflict"), std::string::npos);
  hand.click("findings.list.0");
  EXPECT_TRUE(hand.has("workings.0.accept")) << "its relation, written out, and one press from standing";
}

TEST_F(Handling, WhatWouldBeWrongStandsAboveTheProposals) {
  for (auto& f : desk.record().figures) f.origin.standing = model::Standing::proposed;
  for (auto& r : desk.record().relations) r.origin.standing = model::Standing::proposed;
  desk.changed();
  hand.key(Key::p);
  ASSERT_TRUE(hand.has("proposals.outlook"));
  EXPECT_NE(hand.item("proposals.outlook").label.find("1 conflict"), std::string::npos)
      << hand.item("proposals.outlook").label;
  hand.click("proposals.outlook");
  EXPECT_TRUE(hand.has("findings.list.0")) << "and leads to it";
}

TEST_F(Handling, WorkThatAPersonBeganCanBeStopped) {
  desk.jobs = {{"Reading the narration", 0.3, true}};
  rest();
  hand.click("foot.stop");
  EXPECT_EQ(only<session::StopWork>().what, "Reading the narration");
  desk.jobs = {{"Indexing bench.mp4", 0.3, false}};
  rest();
  EXPECT_FALSE(hand.has("foot.stop"));
}

TEST_F(Handling, ACalloutTooBriefToReadIsMendedByOnePress) {
  desk.transport().at = Moment::seconds(126);
  rest();
  hand.click("sheet.hazard.4");
  hand.key(Key::c);
  hand.settle();
  hand.type(
      "The flask is hot for ten minutes. Leave it on the mat, and lift it with tongs, never with a cloth; hold "
      "the wrist under cold water at once if it touched you.");
  hand.key(Key::enter);
  hand.settle();
  ASSERT_TRUE(hand.has("pin.mend.0"));
  desk.forget();
  hand.click("pin.mend.0");
  const auto put = only<session::PutThing>();
  const auto length = std::get<model::Callout>(put.thing).place.stretch().length();
  EXPECT_GT(length, Moment::seconds(8));
  hand.settle();
  EXPECT_FALSE(hand.has("pin.mend.0"));
}

}  // namespace
}  // namespace sash::testing
