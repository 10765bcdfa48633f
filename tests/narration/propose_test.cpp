#include "narration/propose.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace sash::narration {
namespace {

using model::Standing;
using testing::IsEmpty;

model::Record record_of(const std::vector<std::string>& lines) {
  model::Record record;
  model::Footage footage;
  footage.id = {1};
  record.footages.push_back(footage);
  std::int64_t number = 0;
  for (const std::string& text : lines) {
    model::NarrationLine line;
    line.id = {++number};
    line.footage = footage.id;
    line.when = {Moment::seconds(10.0 * static_cast<double>(number)),
                 Moment::seconds(10.0 * static_cast<double>(number) + 8)};
    line.text = text;
    record.lines.push_back(line);
  }
  return record;
}

/// Proposes, and applies what was proposed.
Proposals read_into(model::Record& record) {
  std::int64_t number = 1000;
  for (const auto& f : record.figures) number = std::max(number, f.id.number);
  for (const auto& r : record.relations) number = std::max(number, r.id.number);
  for (const auto& p : record.portions) number = std::max(number, p.id.number);
  for (const auto& h : record.hazards) number = std::max(number, h.id.number);
  for (const auto& c : record.callouts) number = std::max(number, c.id.number);
  Proposals proposals = propose(record, [&](const model::Thing&) { return ++number; });
  EXPECT_TRUE(model::apply(edit_of(proposals), record).ok());
  return proposals;
}

const std::vector<std::string> copper = {"I weighed out 1.52 grams of copper wire.", "That's 0.024 moles.",
                                         "I add 10 mils of 68% nitric acid in the hood.",
                                         "It makes brown nitrogen dioxide fumes, so don't breathe it."};

TEST(Propose, PinsFiguresToTheirWordsAndMoments) {
  model::Record record = record_of(copper);
  const Proposals p = read_into(record);
  ASSERT_EQ(p.figures.size(), 4u);
  const model::Figure& mass = p.figures[0];
  EXPECT_EQ(mass.label, "1.52 grams");
  EXPECT_EQ(mass.subject, "copper");
  EXPECT_EQ(mass.role, model::Role::measured_out);
  ASSERT_TRUE(mass.words);
  EXPECT_EQ(mass.words->line.number, 1);
  EXPECT_EQ(record.lines[0].text.substr(mass.words->begin, mass.words->length), "1.52 grams");
  EXPECT_GT(mass.place.from, Moment::seconds(10));
  EXPECT_EQ(mass.origin.standing, Standing::proposed);
  EXPECT_FALSE(mass.origin.rule.empty());
  EXPECT_EQ(mass.portion, p.figures[1].portion);
}

TEST(Propose, TiesTheMolesToTheirMass) {
  model::Record record = record_of(copper);
  const Proposals p = read_into(record);
  const auto same = std::find_if(p.relations.begin(), p.relations.end(),
                                 [](const auto& r) { return r.type == model::RelationType::same_portion; });
  ASSERT_NE(same, p.relations.end());
  EXPECT_EQ(same->given.at("substance"), "copper");
  ASSERT_EQ(same->terms.size(), 2u);
  EXPECT_EQ(same->terms[0].slot, "mass");
  EXPECT_EQ(same->terms[1].slot, "amount");
}

TEST(Propose, SeesTheFumeAndTheWarning) {
  model::Record record = record_of(copper);
  const Proposals p = read_into(record);
  const auto fume =
      std::find_if(p.hazards.begin(), p.hazards.end(), [](const auto& h) { return h.substance == "nitrogen dioxide"; });
  ASSERT_NE(fume, p.hazards.end());
  EXPECT_EQ(fume->route, model::Route::inhalation);
  const bool announced = std::any_of(p.callouts.begin(), p.callouts.end(), [&](const auto& c) {
    return c.delivery == model::Delivery::spoken &&
           std::find(c.hazards.begin(), c.hazards.end(), fume->id) != c.hazards.end();
  });
  EXPECT_TRUE(announced);
}

TEST(Propose, ProposesNothingASecondTime) {
  model::Record record = record_of(copper);
  read_into(record);
  EXPECT_TRUE(read_into(record).empty());
}

TEST(Propose, KeepsWhatWasConfirmedWhenTheLineIsEdited) {
  model::Record record = record_of(copper);
  read_into(record);
  for (auto& f : record.figures) f.origin.standing = Standing::confirmed;
  record.lines[0].text = "Okay, so I weighed out 1.52 grams of copper wire, in pieces.";
  const Proposals again = read_into(record);
  EXPECT_THAT(again.figures, IsEmpty());
  EXPECT_THAT(again.no_longer_said, IsEmpty());
}

TEST(Propose, DoesNotBringBackWhatWasRefused) {
  model::Record record = record_of(copper);
  read_into(record);
  for (auto& f : record.figures) f.origin.standing = Standing::refused;
  for (auto& r : record.relations) r.origin.standing = Standing::refused;
  for (auto& h : record.hazards) h.origin.standing = Standing::refused;
  for (auto& c : record.callouts) c.origin.standing = Standing::refused;
  EXPECT_TRUE(read_into(record).empty());
}

TEST(Propose, NamesProposalsWhoseWordsAreGone) {
  model::Record record = record_of(copper);
  read_into(record);
  record.lines[1].text = "That's plenty.";
  const Proposals again = read_into(record);
  ASSERT_EQ(again.no_longer_said.size(), 1u);
  EXPECT_EQ(model::find(record, again.no_longer_said[0])->label, "0.024 moles");
}

TEST(Propose, OffersABalancedEquation) {
  model::Record record = record_of({"I weighed out 1.22 grams of magnesium.", "I add 10 grams of hydrochloric acid.",
                                    "That should give 0.1 grams of hydrogen."});
  const Proposals p = read_into(record);
  const auto reaction = std::find_if(p.relations.begin(), p.relations.end(),
                                     [](const auto& r) { return r.type == model::RelationType::reaction; });
  ASSERT_NE(reaction, p.relations.end());
  EXPECT_EQ(reaction->given.at("equation"), "2 HCl + Mg -> H2 + MgCl2");
}

}  // namespace
}  // namespace sash::narration
