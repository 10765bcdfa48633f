// The whole desk driven by mouse and keys, without a window: what a person does at it, and what is asked of the
// session.
#include <algorithm>

#include "desk/shown/keys.h"
#include "draw/pages/lesson_desk.h"

namespace sash::testing {
namespace {

using desk::Key;
using model::FigureId;
using model::HazardId;
using model::RelationId;

using Desk = LessonDesk;

TEST_F(Desk, AClickOnAFindingGoesToItsMomentAndItsWorkings) {
  hand.click("findings.list.0");
  ASSERT_TRUE(desk.app().selection().as<RelationId>());
  EXPECT_EQ(desk.app().selection().as<RelationId>()->number, 2);  // the acid: 0.23 mol against 16 mol/L × 20 mL
  const auto seek = only<session::Seek>();
  EXPECT_EQ(seek.footage.number, 1);
  EXPECT_TRUE(seek.settled);
  EXPECT_GT(seek.to, Moment::seconds(14));
  rest();
  EXPECT_TRUE(hand.has("workings.0.change"));
  EXPECT_TRUE(hand.has("workings.0.figure.5"));
}

TEST_F(Desk, TheKeyboardWalksFindingsToo) {
  hand.key(Key::down, desk::ctrl);
  EXPECT_TRUE(desk.app().selection().as<RelationId>());
  hand.key(Key::down, desk::ctrl);
  EXPECT_TRUE(desk.app().selection().as<HazardId>());  // cover gaps follow conflicts
}

TEST_F(Desk, TheFigureKeyPinsAtThePlayheadAndItsFieldTakesTheFigureAsTyped) {
  desk.transport().at = Moment::seconds(50);
  hand.settle();
  hand.key(Key::f);
  EXPECT_EQ(only<session::PinHere>().kind, session::PinKind::figure);
  hand.settle();
  const auto made = desk.app().selection().as<FigureId>();
  ASSERT_TRUE(made);
  hand.type("20 mL 6 M nitric acid");
  hand.key(Key::enter);
  const auto typed = only<session::TypeFigure>();
  EXPECT_EQ(typed.figure, *made);
  EXPECT_EQ(typed.text, "20 mL 6 M nitric acid");  // the letter that pinned is not in it
  desk.forget();
  hand.key(Key::space);  // and the keyboard is the desk's again
  EXPECT_EQ(desk.asked<session::TogglePlay>().size(), 1U);
}

TEST_F(Desk, DraggingInTheSheetScrubsAndSettlesWhenLetGo) {
  const auto body = hand.item("sheet.body").seen;
  const ImVec2 from{body.min.x + 20, body.min.y + 120};
  hand.drag(from, {from.x, from.y + 200});
  const auto seeks = desk.asked<session::Seek>();
  ASSERT_GE(seeks.size(), 3U);
  for (std::size_t i = 0; i + 1 < seeks.size(); ++i) {
    EXPECT_FALSE(seeks[i].settled);
    EXPECT_LE(seeks[i].to, seeks[i + 1].to);  // time runs down
  }
  EXPECT_TRUE(seeks.back().settled);
}

TEST_F(Desk, AClickBesideEverythingSeeksThere) {
  const auto body = hand.item("sheet.body").seen;
  hand.click_at({body.min.x + 20, body.min.y + 300});
  EXPECT_TRUE(only<session::Seek>().settled);
  EXPECT_FALSE(desk.app().selection().thing);
}

TEST_F(Desk, WordsDraggedOverAreWhatTheFigureKeyPins) {
  const auto line = hand.item("sheet.line.2").seen;
  hand.drag({line.min.x + 10, line.min.y + 10}, {line.min.x + 90, line.min.y + 10});
  const auto words = desk.app().selection().words;
  ASSERT_TRUE(words);
  EXPECT_EQ(words->line.number, 2);
  EXPECT_EQ(words->begin, 0U);
  EXPECT_TRUE(desk.asked<session::Seek>().empty());  // selecting does not scrub
  hand.key(Key::f);
  EXPECT_EQ(only<session::PinWords>().words, *words);
}

TEST_F(Desk, WordsAreSelectedByKeyboardAlone) {
  hand.key(Key::right, desk::alt);
  hand.key(Key::right, {.shift = true, .alt = true});
  const auto words = desk.app().selection().words;
  ASSERT_TRUE(words);
  const auto* line = model::find(desk.record(), words->line);
  EXPECT_EQ(line->text.substr(words->begin, words->length), "Good morning.");
}

TEST_F(Desk, AClickOnAFigureSelectsItAndGoesThere) {
  hand.click("sheet.figure.2");
  EXPECT_EQ(desk.app().selection().as<FigureId>(), FigureId{2});
  EXPECT_EQ(only<session::Seek>().to, model::find(desk.record(), FigureId{2})->place.from);
  EXPECT_EQ(hand.item("pin.value").label, "2.004");
}

TEST_F(Desk, UndoIsAskedForOnlyWhenThereIsSomethingToUndo) {
  hand.key(Key::z, desk::ctrl);
  EXPECT_TRUE(desk.asked<session::Undo>().empty());
  hand.key(Key::h);
  hand.key(Key::escape);
  hand.key(Key::z, desk::ctrl);
  EXPECT_EQ(desk.asked<session::Undo>().size(), 1U);
}

TEST_F(Desk, TheKeyOverlayShowsEveryKeyInFull) {
  hand.key(Key::f1);
  std::size_t rows = 0;
  for (const auto& section : desk::key_sections()) rows += section.rows.size();
  for (std::size_t i = 0; i < rows; ++i) {
    const auto& row = hand.item("key." + std::to_string(i));
    EXPECT_EQ(row.seen.height(), row.whole.height()) << row.label;
    EXPECT_EQ(row.seen.width(), row.whole.width()) << row.label;
  }
  hand.key(Key::escape);
  EXPECT_FALSE(hand.has("key.0"));
  hand.key(Key::slash, desk::shift);
  EXPECT_TRUE(hand.has("key.0"));
}

TEST_F(Desk, ProposalsTakeOneKeyEach) {
  hand.key(Key::p);
  const auto first = desk.app().selection().as<FigureId>();
  ASSERT_TRUE(first);
  EXPECT_EQ(model::find(desk.record(), *first)->origin.standing, model::Standing::proposed);
  hand.key(Key::a);
  ASSERT_EQ(desk.asked<session::Accept>().size(), 1U);
  EXPECT_EQ(desk.asked<session::Accept>().front().things.front(), session::ThingRef(*first));
  const auto second = desk.app().selection().as<FigureId>();
  ASSERT_TRUE(second);
  EXPECT_NE(*second, *first);
  hand.key(Key::x);
  EXPECT_EQ(only<session::Refuse>().things.front(), session::ThingRef(*second));
}

TEST_F(Desk, LettersTypedIntoTheSearchDoNothingElse) {
  hand.key(Key::f, desk::ctrl);
  hand.type("sulfuric");
  hand.key(Key::f);
  EXPECT_TRUE(desk.asked<session::PinHere>().empty());
  rest();
  hand.key(Key::enter);  // to the first hit
  rest();
  const auto hit = desk.app().selection().thing;
  ASSERT_TRUE(hit);
  hand.key(Key::escape);
  hand.key(Key::escape);
  EXPECT_FALSE(desk.app().selection().words);
}

TEST_F(Desk, TheSearchLeavesOnlyWhatItFinds) {
  EXPECT_TRUE(hand.has("sheet.figure.2"));
  hand.key(Key::slash);
  hand.type("nitric strength");
  rest();
  EXPECT_FALSE(hand.has("sheet.figure.2"));
  EXPECT_TRUE(hand.has("sheet.figure.4"));  // 16 mol/L
}

TEST(Diagrams, OpenByKeyboardAndAreReadAlongWithTheArrows) {
  FakeDesk desk(lesson_with_diagrams());
  Harness& hand = desk.hand();
  hand.wait(1);
  hand.click("sheet.figure.102");
  hand.wait(1);
  ASSERT_TRUE(hand.has("workings.0.plot"));
  EXPECT_FALSE(hand.has("workings.0.plot.view"));
  for (int i = 0; i < 80 && !hand.item("workings.0.plot").focused; ++i) hand.key(Key::tab);
  ASSERT_TRUE(hand.item("workings.0.plot").focused);
  hand.key(Key::enter);
  hand.settle();
  ASSERT_TRUE(hand.has("workings.0.plot.view"));
  EXPECT_NE(hand.item("workings.0.plot.view").label.find("warms it by"), std::string::npos);
  hand.key(Key::tab);
  EXPECT_TRUE(hand.item("workings.0.plot.view").focused);
  hand.key(Key::right);
  hand.key(Key::right);
  hand.key(Key::tab, desk::shift);
  hand.key(Key::enter);
  hand.settle();
  EXPECT_FALSE(hand.has("workings.0.plot.view"));
}

TEST_F(Desk, FiguresAreTiedByClickingThem) {
  hand.click("sheet.figure.3");
  rest();
  hand.key(Key::w);
  hand.click("sheet.figure.4");
  hand.click("wire.keep");
  const auto put = only<session::PutThing>();
  const auto* relation = std::get_if<model::Relation>(&put.thing);
  ASSERT_NE(relation, nullptr);
  EXPECT_EQ(relation->type, model::RelationType::in_solution);  // a strength makes it one
  ASSERT_EQ(relation->terms.size(), 2U);
  EXPECT_EQ(relation->terms[0], (model::Term{"solution_volume", FigureId{3}, ""}));
  EXPECT_EQ(relation->terms[1], (model::Term{"strength", FigureId{4}, ""}));
}

TEST_F(Desk, AnEquationIsOfferedBalanced) {
  hand.key(Key::w);
  hand.click("wire.type");
  for (int i = 0; i < 2; ++i) hand.key(Key::down);  // same portion, in solution, reaction
  hand.key(Key::enter);
  rest();
  hand.click("wire.equation");
  hand.type("Cu + HNO3 -> Cu(NO3)2 + NO + H2O");
  hand.settle();
  hand.click("wire.equation.balance");
  EXPECT_EQ(hand.item("wire.equation").label, "3 Cu + 8 HNO3 -> 3 Cu(NO3)2 + 2 NO + 4 H2O");
}

TEST_F(Desk, AFieldIsOneEditAndABadOneSaysWhy) {
  hand.click("sheet.figure.3");
  desk.forget();
  hand.click("pin.value");
  hand.type("25");
  hand.key(Key::enter);
  const auto put = only<session::PutThing>();
  const auto& figure = std::get<model::Figure>(put.thing);
  EXPECT_EQ(figure.reading->value, 25);
  EXPECT_EQ(figure.reading->digits, "25");
  desk.forget();
  hand.click("pin.value");
  hand.type("plenty");
  hand.key(Key::enter);
  EXPECT_TRUE(desk.asked<session::PutThing>().empty());
}

TEST_F(Desk, TheSecondPressOfTheHazardKeyEndsItsSpan) {
  hand.key(Key::h);
  EXPECT_EQ(only<session::PinHere>().kind, session::PinKind::hazard);
  hand.settle();
  hand.key(Key::escape);  // out of the field that opened for it
  hand.key(Key::h);
  const auto made = desk.app().selection().as<HazardId>();
  ASSERT_TRUE(made);
  EXPECT_EQ(only<session::EndSpanHere>().thing, session::ThingRef(*made));
}

TEST_F(Desk, TheHazardIsEndedThoughNothingIsSelectedAnyMore) {
  hand.key(Key::h);
  hand.settle();
  const auto made = desk.app().selection().as<HazardId>();
  ASSERT_TRUE(made);
  hand.type("brown fume");
  hand.key(Key::enter);
  hand.key(Key::escape);
  ASSERT_FALSE(desk.app().selection().thing);
  hand.key(Key::h);
  EXPECT_EQ(only<session::EndSpanHere>().thing, session::ThingRef(*made));
}

TEST_F(Desk, ACalloutIsWrittenForTheSelectedHazardAheadOfIt) {
  desk.transport().at = Moment::seconds(126);
  rest();
  hand.click("sheet.hazard.4");
  hand.key(Key::c);
  const auto put = only<session::PutThing>();
  const auto& callout = std::get<model::Callout>(put.thing);
  EXPECT_EQ(callout.hazards, std::vector{HazardId{4}});
  EXPECT_LT(callout.place.from, Moment::seconds(125));
}

TEST_F(Desk, ALineIsEditedWhereItStands) {
  hand.double_click("sheet.line.1");
  hand.settle();
  hand.key(Key::end, desk::ctrl);
  hand.type(" Or nearly.");
  hand.key(Key::enter, desk::ctrl);
  const auto put = only<session::PutThing>();
  const auto& line = std::get<model::NarrationLine>(put.thing);
  EXPECT_TRUE(line.text.ends_with("Or nearly.")) << line.text;
}

TEST_F(Desk, AMouseClickLeavesTheKeysToTheDesk) {
  hand.click("footage.faster");
  desk.forget();
  hand.key(Key::space);
  EXPECT_EQ(desk.asked<session::TogglePlay>().size(), 1U);
  EXPECT_TRUE(desk.asked<session::SetSpeed>().empty());
}

TEST_F(Desk, JKLAndTheArrowsPlayAsTheTradeHasIt) {
  hand.key(Key::j);
  hand.key(Key::k);
  hand.key(Key::l);
  hand.key(Key::left);
  hand.key(Key::right);
  const auto shuttles = desk.asked<session::Shuttle>();
  ASSERT_EQ(shuttles.size(), 3U);
  EXPECT_EQ(shuttles[0].direction, -1);
  EXPECT_EQ(shuttles[1].direction, 0);
  EXPECT_EQ(shuttles[2].direction, 1);
  const auto steps = desk.asked<session::StepFrames>();
  ASSERT_EQ(steps.size(), 2U);
  EXPECT_EQ(steps[0].frames, -1);
  EXPECT_EQ(steps[1].frames, 1);
}

TEST_F(Desk, ThePositionBarScrubsTheWholeFilm) {
  const auto bar = hand.item("footage.bar").seen;
  hand.drag({bar.min.x + 10, bar.max.y - 15}, {bar.max.x - 10, bar.max.y - 15});
  const auto seeks = desk.asked<session::Seek>();
  ASSERT_GE(seeks.size(), 3U);
  EXPECT_FALSE(seeks.front().settled);
  EXPECT_TRUE(seeks.back().settled);
  EXPECT_EQ(seeks.front().footage.number, 1);
  EXPECT_EQ(seeks.back().footage.number, 2);  // over the seam into the second footage
}

TEST_F(Desk, ALoopIsMadeOverTheSelectedSpanAndTakenAway) {
  hand.click("findings.list.1");  // a hazard: it has a span
  hand.key(Key::o);
  ASSERT_TRUE(only<session::LoopOver>().span);
  desk.forget();
  desk.transport().loop = Stretch{Moment::seconds(1), Moment::seconds(2)};
  hand.settle();
  hand.key(Key::o);
  EXPECT_FALSE(only<session::LoopOver>().span);
}

TEST_F(Desk, NothingIsChangedInARecordOpenForReading) {
  desk.read_only = "another desk has it open";
  hand.settle();
  EXPECT_TRUE(hand.has("top.read_only"));
  for (const Key key : {Key::f, Key::h, Key::n, Key::m, Key::y, Key::r}) hand.key(key);
  hand.key(Key::p);
  hand.key(Key::a);
  hand.key(Key::del);
  EXPECT_TRUE(desk.asked<session::PinHere>().empty());
  EXPECT_TRUE(desk.asked<session::Accept>().empty());
  EXPECT_TRUE(desk.asked<session::RemoveThings>().empty());
  EXPECT_TRUE(desk.asked<session::ReadNarration>().empty());
}

TEST_F(Desk, MissingFootageCanBeFoundAgain) {
  desk.footage[{1}].missing = true;
  hand.settle();
  hand.click("footage.find");
  hand.type("/elsewhere/bench.mp4");
  hand.key(Key::enter);
  const auto find = only<session::FindFootageAgain>();
  EXPECT_EQ(find.footage.number, 1);
  EXPECT_EQ(find.path, "/elsewhere/bench.mp4");
}

TEST_F(Desk, SplittersMoveAndAreRemembered) {
  const float before = desk.app().settings().splits.left;
  hand.drag("split.left", {60, 0});
  EXPECT_NEAR(desk.app().settings().splits.left - before, 60.0F / 1280, 0.005F);
}

TEST_F(Desk, ThemeAndTextSizeChangeByKey) {
  hand.key(Key::f9);
  EXPECT_EQ(desk.app().settings().look, desk::LookName::paper);
  hand.key(Key::equal, desk::ctrl);
  EXPECT_NEAR(desk.app().settings().font_scale, 1.1F, 1e-4F);
}

TEST_F(Desk, ExportAsksForAFolderBesideTheRecord) {
  hand.key(Key::e, desk::ctrl);
  hand.settle();
  hand.key(Key::enter);
  EXPECT_EQ(only<session::ExportScript>().folder, "/lessons/copper script");
}

TEST_F(Desk, WhereTheScriptIsStaysInSightForAWhile) {
  desk.notices = {{.sentence = "The script is in /lessons/copper script.", .number = 1, .result = true}};
  hand.settle();
  ASSERT_TRUE(hand.has("notice.0"));
  hand.wait(40);
  EXPECT_FALSE(hand.has("notice.0"));
}

TEST_F(Desk, FaultsAreShownUntilPutAway) {
  desk.notices = {{"The captions in lesson.srt could not be read: line 3 is no time.", true, 1}};
  hand.settle();
  hand.wait(20);
  EXPECT_TRUE(hand.has("notice.0"));
  hand.key(Key::escape);
  EXPECT_FALSE(hand.has("notice.0")) << "by key, too";
}

class Welcome : public ::testing::Test {
 protected:
  Welcome() {
    desk.has_record = false;
    desk.recent = {"/lessons/copper.sash"};
    hand.settle();
  }
  FakeDesk desk{model::Record{}};
  Harness& hand = desk.hand();
};

TEST_F(Welcome, OpensARecentRecord) {
  hand.click("welcome.recent.0");
  ASSERT_EQ(desk.asked<session::OpenRecord>().size(), 1U);
  EXPECT_EQ(desk.asked<session::OpenRecord>().front().path, "/lessons/copper.sash");
}

TEST_F(Welcome, OpensTheDemo) {
  hand.click("welcome.demo");
  EXPECT_EQ(desk.asked<session::OpenDemo>().size(), 1U);
}

TEST_F(Welcome, CompletesAPathAndAddsTheFile) {
  hand.click("welcome.path");
  hand.type("/clips/b");
  hand.settle();
  EXPECT_EQ(hand.item("welcome.path.0").label, "/clips/bench.mp4");
  hand.key(Key::tab);
  hand.settle();
  hand.key(Key::enter);
  ASSERT_EQ(desk.asked<session::AddFiles>().size(), 1U);
  EXPECT_EQ(desk.asked<session::AddFiles>().front().paths, std::vector<std::string>{"/clips/bench.mp4"});
}

TEST_F(Welcome, PinsNothing) {
  hand.key(Key::f);
  hand.key(Key::space);
  EXPECT_TRUE(desk.intents().empty());
}

}  // namespace
}  // namespace sash::testing
