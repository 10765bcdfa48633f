#include "desk/shown/outlook.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/shown/findings_page.h"
#include "desk/shown/workings_page.h"
#include "draw/pages/lesson.h"

namespace sash::desk {
namespace {

using ::testing::HasSubstr;

model::Record all_proposed(double confidence) {
  model::Record record = testing::lesson();
  for (auto& f : record.figures) f.origin = {model::Standing::proposed, "number and unit", 0.97};
  for (auto& r : record.relations) r.origin = {model::Standing::proposed, "said again", confidence};
  return record;
}

std::size_t conflicts(const workings::Report& report) {
  return static_cast<std::size_t>(std::count_if(report.findings.begin(), report.findings.end(), [](const auto& f) {
    return f.verdict == workings::Verdict::conflicts;
  }));
}

TEST(Outlook, ShowsWhatWouldComeOutOfTheProposals) {
  const auto outlook = outlook_of(all_proposed(0.9));
  ASSERT_TRUE(outlook);
  EXPECT_EQ(conflicts(outlook->report), conflicts(workings::check(testing::lesson())));
  EXPECT_TRUE(brings_conflicts(outlook, workings::Report{}));
  EXPECT_FALSE(brings_conflicts(outlook, outlook->report)) << "it is as it was before";
}

TEST(Outlook, AGuessedRelationRaisesNoConflict) {
  const auto outlook = outlook_of(all_proposed(0.3));
  ASSERT_TRUE(outlook);
  EXPECT_TRUE(outlook->report.findings.empty());
}

TEST(Outlook, AFindingThatRestsOnProposalsSaysSo) {
  const model::Record record = all_proposed(0.9);
  const auto outlook = outlook_of(record);
  ASSERT_TRUE(outlook);
  const Judged judged{record, outlook->report, outlook->cover};
  const auto shown = show_findings(judged, Film(record));
  ASSERT_EQ(shown.rows.front().group, FindingGroup::conflict);
  EXPECT_THAT(shown.rows.front().about, HasSubstr("if accepted"));
  ASSERT_TRUE(shown.rows.front().look_at);
  const auto workings = show_workings(judged, {*shown.rows.front().look_at, std::nullopt});
  ASSERT_FALSE(workings.relations.empty());
  EXPECT_TRUE(workings.relations.front().sentence.starts_with("If accepted: "));
}

TEST(Outlook, WhatStandsAlreadyIsNotCalledProposed) {
  const model::Record record = testing::lesson();
  const auto report = workings::check(record);
  for (const auto& finding : report.findings) EXPECT_FALSE(rests_on_proposals(record, finding));
}

TEST(Outlook, WithoutProposalsThereIsNothingToLookAheadTo) { EXPECT_FALSE(outlook_of(model::Record{})); }

}  // namespace
}  // namespace sash::desk
