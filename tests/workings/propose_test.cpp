#include "workings/propose.h"

#include <gtest/gtest.h>

#include "records.h"
#include "workings/check.h"

namespace sash::workings {
namespace {

using model::RelationType;
using quantity::Kind;
using test::RecordBuilder;

model::PortionId portion(RecordBuilder& b, std::initializer_list<model::FigureId> figures) {
  const model::PortionId id{static_cast<std::int64_t>(b.record().portions.size()) + 1};
  b.record().portions.push_back({id, "acid for the copper", "HNO3", "250 mL beaker"});
  for (const auto f : figures) b.edit(f).portion = id;
  return id;
}

TEST(Propose, TiesAMassAndAVolumeOfOnePortion) {
  RecordBuilder b;
  const auto m = b.figure("28.4 g", Kind::mass);
  const auto v = b.figure("20.0 mL", Kind::volume);
  portion(b, {m, v});
  const auto proposals = propose(b.record());
  ASSERT_EQ(proposals.size(), 1u);
  EXPECT_EQ(proposals[0].type, RelationType::same_portion);
  EXPECT_EQ(proposals[0].origin.standing, model::Standing::proposed);
  EXPECT_EQ(proposals[0].given.at("substance"), "HNO3");
  EXPECT_EQ(proposals[0].terms.size(), 2u);
}

TEST(Propose, TiesAStrengthToAVolume) {
  RecordBuilder b;
  const auto c = b.figure("6.0 mol/L", Kind::molar_concentration);
  const auto v = b.figure("20.0 mL", Kind::volume);
  const auto n = b.figure("", Kind::amount);
  portion(b, {c, v, n});
  auto proposals = propose(b.record());
  ASSERT_EQ(proposals.size(), 1u);
  EXPECT_EQ(proposals[0].type, RelationType::in_solution);
  // Accepted, it computes: 20.0 mL of 6.0 mol/L hold 0.120 mol.
  proposals[0].id = {99};
  proposals[0].origin.standing = model::Standing::confirmed;
  b.record().relations.push_back(proposals[0]);
  EXPECT_NEAR(check(b.record()).find(n)->reconciled->value, 120, 1e-6);  // mmol
  EXPECT_TRUE(propose(b.record()).empty());
}

TEST(Propose, LeavesApartWhatIsOfDifferentPortions) {
  RecordBuilder b;
  const auto m = b.figure("28.4 g", Kind::mass);
  const auto v = b.figure("20.0 mL", Kind::volume);
  portion(b, {m});
  portion(b, {v});
  EXPECT_TRUE(propose(b.record()).empty());
}

TEST(Propose, DoesNotComeBackWithWhatWasRefused) {
  RecordBuilder b;
  const auto m = b.figure("28.4 g", Kind::mass);
  const auto v = b.figure("20.0 mL", Kind::volume);
  portion(b, {m, v});
  auto refused = propose(b.record()).at(0);
  refused.id = {99};
  refused.origin.standing = model::Standing::refused;
  b.record().relations.push_back(refused);
  EXPECT_TRUE(propose(b.record()).empty());
}

TEST(Propose, SeesAQuantityStatedTwice) {
  RecordBuilder b;
  const auto first = b.figure("28.4 g", Kind::mass);
  const auto again = b.figure("24.6 g", Kind::mass);
  portion(b, {first, again});
  const auto proposals = propose(b.record());
  ASSERT_EQ(proposals.size(), 1u);
  EXPECT_EQ(proposals[0].terms.at(0).slot, "same");
}

TEST(Propose, GathersAYield) {
  RecordBuilder b;
  b.figure("85 %", Kind::percent_yield, "copper");
  const auto actual = b.figure("2.7 g", Kind::mass, "copper");
  const auto theory = b.figure("3.17 g", Kind::mass, "copper");
  b.edit(actual).role = model::Role::recovered;
  b.edit(theory).role = model::Role::stated_result;
  const auto proposals = propose(b.record());
  ASSERT_EQ(proposals.size(), 1u);
  EXPECT_EQ(proposals[0].type, RelationType::yield);
  EXPECT_EQ(proposals[0].terms.size(), 3u);
}

}  // namespace
}  // namespace sash::workings
