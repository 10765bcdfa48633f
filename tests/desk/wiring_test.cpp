#include "desk/shown/wiring.h"

#include <gtest/gtest.h>

#include <fstream>
#include <set>
#include <sstream>

namespace sash::desk {
namespace {

using model::RelationType;
using quantity::Kind;

model::Record record_of(std::initializer_list<Kind> kinds) {
  model::Record r;
  std::int64_t id = 0;
  for (const Kind kind : kinds) {
    model::Figure f;
    f.id = {++id};
    f.kind = kind;
    f.subject = "copper";
    f.reading = model::Reading{1, std::nullopt, "1", "1", model::Hedge::exact};
    r.figures.push_back(f);
  }
  return r;
}

TEST(Wiring, EveryTypeIsOfferedOnceAndEachSlotOnce) {
  std::set<RelationType> types;
  for (const RelationShape& s : relation_shapes()) {
    EXPECT_TRUE(types.insert(s.type).second);
    std::set<std::string_view> slots;
    for (const SlotShape& slot : s.slots) EXPECT_TRUE(slots.insert(slot.slot).second) << slot.slot;
    EXPECT_FALSE(s.slots.empty());
  }
}

TEST(Wiring, SlotsAreThoseThatTheWorkingsKnow) {
  std::ifstream file(std::string(SASH_SOURCE_DIR) + "/src/workings/README.md");
  std::stringstream all;
  all << file.rdbuf();
  const std::string text = all.str();
  ASSERT_FALSE(text.empty());
  for (const RelationShape& s : relation_shapes()) {
    for (const SlotShape& slot : s.slots) {
      EXPECT_NE(text.find("`" + std::string(slot.slot) + "`"), std::string::npos) << slot.slot;
    }
  }
}

TEST(Wiring, AFigureGoesWhereItsKindFits) {
  const auto r = record_of({Kind::mass, Kind::volume, Kind::density, Kind::density});
  model::Relation relation;
  for (const auto& f : r.figures) toggle_figure(relation, f, std::nullopt);
  ASSERT_EQ(relation.terms.size(), 4U);
  EXPECT_EQ(relation.terms[0].slot, "mass");
  EXPECT_EQ(relation.terms[1].slot, "volume");
  EXPECT_EQ(relation.terms[2].slot, "density");
  EXPECT_EQ(relation.terms[3].slot, "same");  // the only density has its place already
}

TEST(Wiring, ASecondClickTakesAFigureOut) {
  const auto r = record_of({Kind::mass});
  model::Relation relation;
  toggle_figure(relation, r.figures[0], std::nullopt);
  toggle_figure(relation, r.figures[0], std::nullopt);
  EXPECT_TRUE(relation.terms.empty());
}

TEST(Wiring, AChosenSlotForOneFigureChangesHands) {
  const auto r = record_of({Kind::mass, Kind::mass});
  model::Relation relation;
  relation.type = RelationType::share;
  toggle_figure(relation, r.figures[0], "whole");
  toggle_figure(relation, r.figures[1], "whole");
  ASSERT_EQ(relation.terms.size(), 1U);
  EXPECT_EQ(relation.terms[0].figure, r.figures[1].id);
}

TEST(Wiring, ASlotThatAsksWhichTakesTheSubject) {
  const auto r = record_of({Kind::mass});
  model::Relation relation;
  relation.type = RelationType::reaction;
  toggle_figure(relation, r.figures[0], "reactant");
  EXPECT_EQ(relation.terms[0].about, "copper");
}

TEST(Wiring, TheTypeFollowsTheFiguresUntilItIsChosen) {
  const auto r = record_of({Kind::volume, Kind::molar_concentration, Kind::percent_yield});
  WiringState wiring;
  pick_figure(wiring, r, {1});
  EXPECT_EQ(wiring.relation.type, RelationType::same_portion);
  pick_figure(wiring, r, {2});
  EXPECT_EQ(wiring.relation.type, RelationType::in_solution);
  EXPECT_EQ(wiring.relation.terms[0].slot, "solution_volume");  // moved over
  wiring.type_chosen = true;
  pick_figure(wiring, r, {3});
  EXPECT_EQ(wiring.relation.type, RelationType::in_solution);
}

TEST(Wiring, SaysWhatIsLacking) {
  model::Relation relation;
  EXPECT_FALSE(lacking(relation).empty());
  relation.terms = {{"mass", {1}, ""}};
  relation.given = {{"substance", ""}};
  EXPECT_FALSE(lacking(relation).empty());
  relation.given = {{"substance", "Cu"}};
  EXPECT_TRUE(lacking(relation).empty());
  relation.type = RelationType::reaction;
  EXPECT_EQ(lacking(relation), "Type the equation.");
}

// Source: any textbook of general chemistry, copper with dilute nitric acid: 3 Cu + 8 HNO3 -> 3 Cu(NO3)2 + 2 NO + 4
// H2O.
TEST(EquationOffer, BalancesWhatCanBe) {
  EXPECT_EQ(offer_for("").state, EquationOffer::State::empty);
  const auto offer = offer_for("Cu + HNO3 -> Cu(NO3)2 + NO + H2O");
  EXPECT_EQ(offer.state, EquationOffer::State::balance_offered);
  EXPECT_EQ(offer.text, "3 Cu + 8 HNO3 -> 3 Cu(NO3)2 + 2 NO + 4 H2O");
  EXPECT_EQ(offer_for(offer.text).state, EquationOffer::State::balanced);
}

TEST(EquationOffer, SaysWhyNot) {
  const auto lost = offer_for("Cu -> Zn");
  EXPECT_EQ(lost.state, EquationOffer::State::cannot);
  EXPECT_FALSE(lost.text.empty());
  EXPECT_EQ(offer_for("Cu + HNO3").state, EquationOffer::State::cannot);  // no arrow
}

}  // namespace
}  // namespace sash::desk
