#include "desk/shown/sheet.h"

#include <gtest/gtest.h>

#include <set>

#include "desk/shown/findings_page.h"
#include "draw/pages/lesson.h"

namespace sash::desk {
namespace {

const EvenMeasure body(8, 20);
const EvenMeasure small(6, 17);

SheetShown sheet_of(const model::Record& record, std::string_view search = {}, float width = 600) {
  const auto report = workings::check(record);
  const auto cover = safety::check_cover(record);
  const auto verdicts = verdicts_of(report);
  return show_sheet({record, cover, verdicts, search}, {share_columns(width, 15), body, small});
}

TEST(Sheet, NothingOverlapsInAnyColumnAtAnyWidth) {
  const auto record = testing::lesson();
  for (const float width : {320.0F, 480.0F, 600.0F, 900.0F, 1400.0F}) {
    const auto shown = sheet_of(record, {}, width);
    for (const auto column : {SheetShown::sound_column, SheetShown::figure_column, SheetShown::safety_column}) {
      const auto order = shown.elastic.block_order(column);
      for (std::size_t k = 1; k < order.size(); ++k) {
        const double bottom = shown.elastic.top(order[k - 1]) + static_cast<double>(shown.items[order[k - 1]].height);
        EXPECT_LE(bottom, shown.elastic.top(order[k]) + 1e-6) << width;
      }
    }
  }
}

TEST(Sheet, EveryRowOfALineFitsItsColumn) {
  for (const float width : {480.0F, 900.0F}) {
    const auto shown = sheet_of(testing::lesson(), {}, width);
    for (const auto& line : shown.lines) {
      for (const TextRow row : line.rows) {
        EXPECT_LE(body.width(std::string_view(line.text).substr(row.begin, row.end - row.begin)),
                  shown.columns.sound.width);
      }
    }
  }
}

TEST(Sheet, ColumnsFillTheWidthAndPicturesGoFirst) {
  for (float width = 300; width < 2000; width += 50) {
    const auto c = share_columns(width, 15);
    EXPECT_NEAR(c.safety.right(), width, 1);
    EXPECT_GT(c.sound.width, c.figures.width);
  }
  EXPECT_EQ(share_columns(400, 15).picture.width, 0);
  EXPECT_GT(share_columns(900, 15).picture.width, 0);
  const auto narration_only = share_columns(900, 15, false);
  EXPECT_EQ(narration_only.picture.width, 0) << "no footage, no stills";
  EXPECT_GT(narration_only.sound.width, share_columns(900, 15).sound.width);
}

TEST(Sheet, WordsOfFiguresAreMarkedWithTheirFamily) {
  const auto shown = sheet_of(testing::lesson());
  const auto line =
      std::find_if(shown.lines.begin(), shown.lines.end(), [](const auto& l) { return l.id.number == 3; });
  ASSERT_NE(line, shown.lines.end());
  ASSERT_EQ(line->marks.size(), 2U);
  EXPECT_EQ(line->text.substr(line->marks[0].begin, line->marks[0].end - line->marks[0].begin), "twenty millilitres");
  EXPECT_EQ(line->marks[0].family, Family::volume);
  EXPECT_EQ(line->marks[1].family, Family::strength);
}

TEST(Sheet, HazardsWithoutCoverSaySoInWords) {
  const auto shown = sheet_of(testing::lesson());
  const auto find = [&](std::int64_t id) {
    return *std::find_if(shown.hazards.begin(), shown.hazards.end(), [&](const auto& h) { return h.id.number == id; });
  };
  EXPECT_EQ(find(4).gap, safety::Gap::unannounced);
  EXPECT_FALSE(find(4).gap_words.empty());
  EXPECT_TRUE(find(5).open_end);
  EXPECT_NE(find(1).lane, find(2).lane);  // both at once: side by side
}

TEST(Sheet, RefusedThingsAreShownOnlyWhenAskedFor) {
  auto record = testing::lesson();
  record.figures.front().origin.standing = model::Standing::refused;
  EXPECT_EQ(sheet_of(record).figures.size(), record.figures.size() - 1);
  EXPECT_EQ(sheet_of(record, "refused").figures.size(), 1U);
}

TEST(Sheet, TheSearchFindsByKindSubstanceStandingVerdictAndText) {
  const auto record = testing::lesson();
  EXPECT_EQ(sheet_of(record, "strength").figures.size(), 3U);     // 16, 3 and 6 mol/L
  EXPECT_EQ(sheet_of(record, "nitric acid").figures.size(), 3U);  // 20 mL, 16 mol/L, 0.23 mol
  EXPECT_EQ(sheet_of(record, "proposed").figures.size(), 4U);
  EXPECT_EQ(sheet_of(record, "conflict acid").figures.size(), 3U);
  EXPECT_EQ(sheet_of(record, "not announced").hazards.size(), 1U);
  const auto spoken = sheet_of(record, "oven");
  EXPECT_FALSE(spoken.stops.empty());  // narration is found too
}

TEST(Sheet, TheSearchFindsFiguresByWhatTiesThem) {
  auto record = testing::lesson();
  ASSERT_FALSE(record.relations.empty());
  model::Relation& relation = record.relations.front();
  relation.label = "Zwischenprodukt, first half";
  std::set<model::FigureId> tied;
  for (const auto& term : relation.terms) tied.insert(term.figure);
  EXPECT_EQ(sheet_of(record, "zwischenprodukt").figures.size(), tied.size());
  EXPECT_EQ(sheet_of(record, "zwischenprodukt half").figures.size(), tied.size());
  EXPECT_TRUE(sheet_of(record, "zwischenprodukt nowhere").figures.empty());
}

TEST(Sheet, StopsAreWalkedInTimeAndProposalsAlone) {
  const auto shown = sheet_of(testing::lesson());
  for (std::size_t i = 1; i < shown.stops.size(); ++i) EXPECT_LE(shown.stops[i - 1].at, shown.stops[i].at);
  EXPECT_EQ(shown.proposals.size(), 5U);  // four figures and a relation
  const auto first = step_stop(shown.stops, {}, Moment::seconds(-1), 1);
  ASSERT_TRUE(first);
  const auto second = step_stop(shown.stops, Selection{first->thing, std::nullopt}, Moment(), 1);
  ASSERT_TRUE(second);
  EXPECT_EQ(step_stop(shown.stops, Selection{second->thing, std::nullopt}, Moment(), -1)->thing, first->thing);
  EXPECT_FALSE(step_stop(shown.stops, Selection{shown.stops.back().thing, std::nullopt}, Moment(), 1));
}

TEST(SpanIndex, FindsExactlyTheSpansThatMeetAStretch) {
  std::vector<Stretch> spans;
  for (int i = 0; i < 200; ++i) {
    spans.push_back({Moment::seconds(i), Moment::seconds(i + (i % 17 == 0 ? 60 : 2))});
  }
  const SpanIndex index(spans);
  for (int at = 0; at < 220; at += 3) {
    const Moment from = Moment::seconds(at);
    const Moment until = Moment::seconds(at + 5);
    std::vector<std::uint32_t> expected;
    for (std::uint32_t i = 0; i < spans.size(); ++i) {
      if (spans[i].from <= until && spans[i].until >= from) expected.push_back(i);
    }
    EXPECT_EQ(index.over(from, until), expected);
  }
}

}  // namespace
}  // namespace sash::desk
