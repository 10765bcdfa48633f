#include "desk/shown/proposals_page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "draw/pages/lesson.h"

namespace sash::desk {
namespace {

using ::testing::HasSubstr;

const EvenMeasure body(8, 20);
const EvenMeasure small(6, 17);

ProposalsShown proposals_of(const model::Record& record, std::string_view search = {}) {
  const auto sheet = show_sheet({record, {}, {}, search}, {share_columns(600, 15), body, small});
  return show_proposals(record, sheet.proposals, outlook_of(record));
}

model::Record with_proposals() {
  model::Record r = testing::lesson();
  r.figures[0].origin = {model::Standing::proposed, "a number and its unit", 0.85};
  r.relations[0].origin = {model::Standing::proposed, "strength of a volume", 0.7};
  r.hazards[0].origin = {model::Standing::proposed, "a gas given off", 0.6};
  return r;
}

TEST(Proposals, StandInTheOrderOfTheFilmAsTheKeysWalkThem) {
  const auto shown = proposals_of(with_proposals());
  ASSERT_GE(shown.rows.size(), 3U);
  for (std::size_t i = 1; i < shown.rows.size(); ++i) EXPECT_LE(shown.rows[i - 1].film, shown.rows[i].film);
  EXPECT_EQ(shown.things.size(), shown.rows.size());
  EXPECT_EQ(shown.heading, "Proposals " + std::to_string(shown.rows.size()));
}

TEST(Proposals, SayWhatTheyAreAndWhyTheyWereMade) {
  const auto record = with_proposals();
  const auto shown = proposals_of(record);
  const auto row = [&](session::ThingRef thing) { return shown.rows.at(*row_of(shown, {thing, std::nullopt})); };
  const auto figure = row(record.figures[0].id);
  EXPECT_THAT(figure.title, HasSubstr("2\u00A0g"));
  EXPECT_THAT(figure.about, HasSubstr("copper"));
  EXPECT_EQ(figure.why, "a number and its unit, 85 % sure");
  EXPECT_TRUE(figure.family);
  const auto relation = row(record.relations[0].id);
  EXPECT_EQ(relation.icon, Icon::relation);
  EXPECT_FALSE(relation.about.empty()) << "the figures it ties";
  const auto hazard = row(record.hazards[0].id);
  EXPECT_TRUE(hazard.safety);
  EXPECT_EQ(hazard.why, "a gas given off, 60 % sure");
}

TEST(Proposals, WhatIsSettledIsNotAmongThem) {
  model::Record record = with_proposals();
  for (auto& f : record.figures) f.origin.standing = model::Standing::confirmed;
  for (const auto& row : proposals_of(record).rows) EXPECT_FALSE(std::holds_alternative<model::FigureId>(row.thing));
  EXPECT_FALSE(row_of(proposals_of(record), {record.figures[0].id, std::nullopt}));
}

TEST(Proposals, TheSearchNarrowsThem) {
  const auto record = with_proposals();
  EXPECT_LT(proposals_of(record, "copper").rows.size(), proposals_of(record).rows.size());
}

TEST(Proposals, WhatWouldBeWrongIsPlainBeforeAnyIsAccepted) {
  model::Record record = testing::lesson();
  const auto report = workings::check(record);
  for (auto& f : record.figures) f.origin.standing = model::Standing::proposed;
  for (auto& r : record.relations) r.origin.standing = model::Standing::proposed;
  const auto shown = proposals_of(record);
  EXPECT_THAT(shown.outlook, HasSubstr("1 conflict")) << "as many as the lesson has once all are accepted";
  EXPECT_TRUE(shown.outlook_bad);
  for (const auto& state : report.figures) {
    const auto row = row_of(shown, {state.figure, std::nullopt});
    ASSERT_TRUE(row);
    EXPECT_EQ(shown.rows[*row].wrong, state.blame == workings::Blame::culprit) << state.figure.number;
  }
}

TEST(Proposals, AGuessIsNotTakenWithTheRest) {
  model::Record record = with_proposals();
  record.relations[0].origin.confidence = 0.4;
  const auto shown = proposals_of(record);
  EXPECT_EQ(shown.sure.size(), shown.things.size() - 1);
  EXPECT_EQ(shown.accept_all, "Accept " + std::to_string(shown.sure.size()) + " sure");
  EXPECT_THAT(shown.rows.at(*row_of(shown, {record.relations[0].id, std::nullopt})).why, HasSubstr("guess"));
  EXPECT_EQ(proposals_of(with_proposals()).accept_all, "Accept all");
}

}  // namespace
}  // namespace sash::desk
