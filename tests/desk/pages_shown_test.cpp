// What the other pages show, by value: findings, workings, position bar, welcome, words.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/shown/findings_page.h"
#include "desk/shown/footage_page.h"
#include "desk/shown/top_page.h"
#include "desk/shown/welcome_page.h"
#include "desk/shown/words.h"
#include "desk/shown/workings_page.h"
#include "draw/pages/lesson.h"

namespace sash::desk {
namespace {

using ::testing::HasSubstr;

/// A record with all that a view needs, held for as long as it is looked at.
struct Looked {
  model::Record record = testing::lesson();
  workings::Report report = workings::check(record);
  safety::Cover cover = safety::check_cover(record);
  std::map<model::FootageId, session::FootageState> footage;
  std::vector<session::Notice> notices;
  std::vector<std::string> recent;
  session::Transport transport;
  std::vector<session::Job> jobs;

  session::SessionView view() const {
    return {.has_record = true,
            .path = "/x.sash",
            .name = "x",
            .record = record,
            .revision = 1,
            .report = report,
            .cover = cover,
            .footage = footage,
            .transport = transport,
            .notices = notices,
            .jobs = jobs,
            .recent = recent};
  }
  Judged judged() const { return {record, report, cover}; }
};

TEST(Findings, StandWorstFirstAndAreCounted) {
  const Looked looked;
  const auto shown = show_findings(looked.judged(), Film(looked.record));
  ASSERT_FALSE(shown.rows.empty());
  EXPECT_EQ(shown.rows.front().group, FindingGroup::conflict);
  for (std::size_t i = 1; i < shown.rows.size(); ++i) EXPECT_LE(shown.rows[i - 1].group, shown.rows[i].group);
  std::size_t all = 0;
  for (const auto n : shown.counts) all += n;
  EXPECT_EQ(all, shown.rows.size());
  EXPECT_THAT(shown.summary, HasSubstr("1 conflict"));
}

TEST(Transport, NarrationWithoutItsClipAsksForIt) {
  Looked looked;
  looked.record.footages.front().path.clear();
  looked.transport.footage = looked.record.footages.front().id;
  const auto shown = show_transport(looked.view(), Film(looked.record), {});
  EXPECT_TRUE(shown.wants_clip);
  EXPECT_THAT(shown.trouble, HasSubstr("Drop it on the window"));
}

TEST(Findings, ProposalsNobodyLookedAtAreNoReasonToSayAllIsWell) {
  Looked looked;
  for (auto& r : looked.record.relations) r.origin.standing = model::Standing::proposed;
  looked.record.hazards.clear();
  looked.report = workings::check(looked.record);
  looked.cover = safety::check_cover(looked.record);
  EXPECT_THAT(show_findings(looked.judged(), Film(looked.record)).summary, HasSubstr("proposals to look at"));
}

TEST(Findings, EveryRowLeadsSomewhere) {
  const Looked looked;
  for (const auto& row : show_findings(looked.judged(), Film(looked.record)).rows) {
    EXPECT_TRUE(row.thing) << row.sentence;
    EXPECT_TRUE(row.film) << row.sentence;
    EXPECT_TRUE(row.look_at) << row.sentence;
    EXPECT_FALSE(row.verdict.empty());
    EXPECT_FALSE(row.sentence.empty());
  }
}

// 2 g and 3 g make 5 g; then 3 g and 4 g are said to make 9 g: whichever of 4 and 9 is wrong, the 3 is not.
TEST(Findings, OnlyFiguresThatMayBeWrongBearTheMarkOfAConflict) {
  model::Record record;
  record.footages.push_back({.id = {1}, .duration = Moment::seconds(60)});
  for (const double grams : {2.0, 3.0, 5.0, 4.0, 9.0}) {
    model::Figure f;
    f.id = {static_cast<std::int64_t>(record.figures.size()) + 1};
    f.place = {model::FootageId{1}, Moment::seconds(grams), std::nullopt};
    f.kind = quantity::Kind::mass;
    f.reading = model::Reading{grams, std::nullopt, std::to_string(static_cast<int>(grams)) + ".00", "g"};
    f.doubt = {model::Doubt::From::stated, 0.01, {}};
    record.figures.push_back(f);
  }
  const auto sum = [&](std::int64_t whole, std::int64_t one, std::int64_t other) {
    model::Relation r;
    r.id = {static_cast<std::int64_t>(record.relations.size()) + 1};
    r.type = model::RelationType::total;
    r.terms = {{"part", {one}}, {"part", {other}}, {"whole", {whole}}};
    record.relations.push_back(r);
  };
  sum(3, 1, 2);
  sum(5, 2, 4);
  const auto verdicts = verdicts_of(workings::check(record));
  EXPECT_EQ(verdicts.at(model::FigureId{4}), Verdict::conflict);
  EXPECT_EQ(verdicts.at(model::FigureId{5}), Verdict::conflict);
  for (const std::int64_t sound : {1, 2, 3}) EXPECT_NE(verdicts.at(model::FigureId{sound}), Verdict::conflict) << sound;
}

TEST(Findings, AreSteppedWithinOneGroupWhereThatIsAskedFor) {
  const Looked looked;
  const auto shown = show_findings(looked.judged(), Film(looked.record));
  const auto gap = step_finding(shown, {}, 1, FindingGroup::cover_gap);
  ASSERT_TRUE(gap);
  EXPECT_EQ(shown.rows[*gap].group, FindingGroup::cover_gap);
  ChosenFinding first;
  first.choose(shown, 0);
  EXPECT_EQ(step_finding(shown, first, -1, std::nullopt), 0U);  // stays at the end
}

TEST(Findings, TheChosenOneIsKeptWhileTheListChangesAroundIt) {
  Looked looked;
  const auto before = show_findings(looked.judged(), Film(looked.record));
  ChosenFinding chosen;
  const auto gap = step_finding(before, chosen, 1, FindingGroup::cover_gap);
  ASSERT_TRUE(gap);
  ASSERT_LT(*gap + 1, before.rows.size());
  chosen.choose(before, *gap);

  FindingsShown after = before;
  after.rows.erase(after.rows.begin());  // something above it was settled
  chosen.follow(after);
  EXPECT_EQ(chosen.row, *gap - 1);

  after.rows.erase(after.rows.begin() + static_cast<std::ptrdiff_t>(*chosen.row));  // and now itself
  chosen.follow(after);
  EXPECT_FALSE(chosen.row) << "another finding is not chosen by having moved up";
  EXPECT_EQ(step_finding(after, chosen, 1, std::nullopt), *gap - 1) << "but it is the next one to look at";
}

TEST(Foot, TellsWhatWasDoneForAWhileAndThenTheKeys) {
  Looked looked;
  looked.notices = {{"Began the record talk.sash.", false, 1}};
  EXPECT_EQ(show_foot(looked.view(), true).news, "Began the record talk.sash.");
  EXPECT_THAT(show_foot(looked.view(), false).news, HasSubstr("every key"));
}

TEST(Workings, OfAFigureAreAllItsRelations) {
  const Looked looked;
  const auto shown = show_workings(looked.judged(), Selection{model::FigureId{2}, std::nullopt});  // 2.004 g of copper
  EXPECT_EQ(shown.relations.size(), 3U);  // said again, reaction, recovered
  EXPECT_THAT(shown.heading, HasSubstr("2.004"));
}

TEST(Workings, BarsPutSaidAndReconciledOnOneScale) {
  const Looked looked;
  const auto shown = show_workings(looked.judged(), Selection{model::RelationId{2}, std::nullopt});
  ASSERT_EQ(shown.relations.size(), 1U);
  EXPECT_EQ(shown.relations[0].tone, Verdict::conflict);
  ASSERT_EQ(shown.relations[0].bars.size(), 3U);
  for (const auto& bar : shown.relations[0].bars) {
    ASSERT_TRUE(bar.said);
    EXPECT_GE(bar.said->from, 0);
    EXPECT_LE(bar.said->until, 1);
    EXPECT_LE(bar.said->from, bar.said->at);
    EXPECT_LE(bar.said->at, bar.said->until);
    ASSERT_TRUE(bar.best);
    EXPECT_GE(bar.best->from, 0);
    EXPECT_LE(bar.best->until, 1);
  }
}

TEST(Workings, OfATiedToNothingFigureSayWhatToDo) {
  const Looked looked;
  const auto shown = show_workings(looked.judged(), Selection{model::FigureId{11}, std::nullopt});
  EXPECT_TRUE(shown.relations.empty());
  EXPECT_EQ(shown.remarks.size(), 2U);
}

TEST(Workings, CarryTheDiagramOfARelationThatHasOne) {
  const Looked looked{.record = testing::lesson_with_diagrams()};
  const auto heat = show_workings(looked.judged(), Selection{model::RelationId{51}, std::nullopt});
  ASSERT_EQ(heat.relations.size(), 1U);
  ASSERT_TRUE(heat.relations[0].plot);
  EXPECT_EQ(heat.relations[0].plot->y.title(), "final temperature / °C");
  const auto gas = show_workings(looked.judged(), Selection{model::RelationId{52}, std::nullopt});
  ASSERT_TRUE(gas.relations.at(0).plot);
  EXPECT_EQ(gas.relations[0].plot->x.title(), "amount / mol");
  const auto none = show_workings(looked.judged(), Selection{model::RelationId{1}, std::nullopt});
  EXPECT_FALSE(none.relations.at(0).plot);
}

TEST(Workings, OfAHazardAreItsCover) {
  const Looked looked;
  const auto shown = show_workings(looked.judged(), Selection{model::HazardId{3}, std::nullopt});
  EXPECT_THAT(shown.remarks, ::testing::Contains(HasSubstr("3 s after it began")));
  EXPECT_FALSE(shown.findings.empty());
}

TEST(Bar, HasAtMostOneSignASlotHoweverManyFigures) {
  const auto record = testing::long_lesson(3, 10'000);
  const auto bar = show_bar(record, safety::check_cover(record), {}, Film(record), 60);
  EXPECT_LE(bar.ticks.size(), 61U);
  std::size_t all = 0;
  for (const auto& tick : bar.ticks) all += tick.count;
  EXPECT_EQ(all, 10'000U);
  EXPECT_LE(bar.lanes, 2U);
}

TEST(Bar, ShowsConflictsOverOthersInTheSameSlot) {
  const Looked looked;
  const auto verdicts = verdicts_of(looked.report);
  const auto bar = show_bar(looked.record, looked.cover, verdicts, Film(looked.record), 3);
  EXPECT_TRUE(bar.ticks.front().conflict);
}

TEST(TransportRow, SaysTimeTimeCodeWordsAndCallouts) {
  Looked looked;
  looked.transport.footage = {1};
  looked.transport.at = Moment::seconds(15.5);
  looked.transport.time_code = "01:00:15;14";
  looked.transport.exact = false;
  const Film film(looked.record);
  const auto bar = show_bar(looked.record, looked.cover, {}, film, 50);
  const auto shown = show_transport(looked.view(), film, bar);
  EXPECT_EQ(shown.time, "0:15.50");
  EXPECT_EQ(shown.length, "2:48");
  EXPECT_EQ(shown.time_code, "01:00:15;14");
  EXPECT_FALSE(shown.exact);
  EXPECT_THAT(shown.spoken, HasSubstr("Onto it"));
  ASSERT_EQ(shown.messages.size(), 1U);  // the hood; the goggles' callout ended at 15 s
  EXPECT_EQ(shown.messages[0].tone, Safety::danger);
  EXPECT_EQ(shown.footage, "Bench, wide (1 of 2)");
}

TEST(Foot, NamesTheWorkUnderWay) {
  Looked looked;
  looked.jobs = {{"Indexing bench.mp4", 0.426}, {"Stills", 0}};
  EXPECT_EQ(show_foot(looked.view(), true).work, "Indexing bench.mp4, 42 %  and 1 more");
  looked.notices = {{"Saved a copy.", false, 1}};
  EXPECT_EQ(show_foot(looked.view(), true).news, "Saved a copy.");
}

TEST(Welcome, TellsRecordsFromFootage) {
  EXPECT_TRUE(std::holds_alternative<session::OpenRecord>(intent_for({"/a/b.sash"})));
  EXPECT_TRUE(std::holds_alternative<session::AddFiles>(intent_for({"/a/b.mp4", "/a/b.srt"})));
}

TEST(Welcome, CompletesFoldersFirstAndHidesHiddenOnes) {
  const std::vector<std::string> names{"bench.mp4", ".git/", "Bottles/", "captions.srt", "balance.mp4"};
  EXPECT_EQ(completions("b", names, 9), (std::vector<std::string>{"Bottles/", "balance.mp4", "bench.mp4"}));
  EXPECT_EQ(completions("", names, 2), (std::vector<std::string>{"Bottles/", "balance.mp4"}));
  EXPECT_EQ(completions(".", names, 9), (std::vector<std::string>{".git/"}));
}

TEST(Welcome, TellsPastedFilesFromPastedNarration) {
  const auto files = intent_for_pasted("file:///clips/a%20b.mp4\nfile://localhost/clips/c.srt\n");
  EXPECT_EQ(std::get<session::AddFiles>(files).paths, (std::vector<std::string>{"/clips/a b.mp4", "/clips/c.srt"}));
  const auto record = intent_for_pasted("/lessons/copper.sash");
  EXPECT_EQ(std::get<session::OpenRecord>(record).path, "/lessons/copper.sash");
  for (const char* said : {"We add 5 mL.", "/ is how we divide", "100%\n/clips/a.mp4"}) {
    EXPECT_EQ(std::get<session::AddText>(intent_for_pasted(said)).text, said);
  }
}

TEST(Banner, AReadOnlyRecordSaysSoOnceNotThrice) {
  Looked looked;
  looked.notices = {{"It is open at another desk.", true, 1}};
  auto view = looked.view();
  EXPECT_EQ(show_foot(view, true).news, "It is open at another desk.");
  view.read_only = "It is open at another desk.";
  EXPECT_EQ(show_top(view).read_only, "It is open at another desk.");
  EXPECT_NE(show_foot(view, true).news, "It is open at another desk.");
}

TEST(WordsOnScreen, SayFiguresAsTheTradeDoes) {
  model::Figure f;
  f.kind = quantity::Kind::mass;
  f.reading = model::Reading{4, std::nullopt, "4.00", "g", model::Hedge::about};
  EXPECT_EQ(figure_text(f), "about 4.00\u00A0g");
  EXPECT_EQ(short_figure_text(f), "≈ 4.00\u00A0g");
  f.kind = quantity::Kind::count;
  f.reading = model::Reading{3, std::nullopt, "3", "", model::Hedge::exact};
  EXPECT_EQ(short_figure_text(f), "3\u00A0×");
  f.reading = model::Reading{20, 25, "", "Cel", model::Hedge::range};
  f.kind = quantity::Kind::temperature;
  EXPECT_EQ(figure_text(f), "20–25\u00A0°C");
  f.reading.reset();
  EXPECT_EQ(figure_text(f), "to be worked out");
}

TEST(WordsOnScreen, WriteTimesAndLengths) {
  EXPECT_EQ(clock_text(Moment::seconds(83.49)), "1:23.4");  // never ahead of the picture
  EXPECT_EQ(clock_text(Moment::seconds(3723)), "1:02:03.0");
  EXPECT_EQ(short_clock_text(Moment::seconds(59.9)), "0:59");
  EXPECT_EQ(length_text(Moment::seconds(1.52)), "1.5 s");
  EXPECT_EQ(length_text(Moment::seconds(125)), "2 min 5 s");
  EXPECT_EQ(length_text(Moment::seconds(3720)), "1 h 2 min");
  EXPECT_EQ(speed_text(0.25), "¼×");
  EXPECT_EQ(speed_text(-2), "−2×");
}

TEST(WordsOnScreen, AreFoundAsPeopleTypeThem) { EXPECT_EQ(search_key("CuSO₄ 5 µL, 20–25"), "cuso4 5 ul, 20-25"); }

}  // namespace
}  // namespace sash::desk
