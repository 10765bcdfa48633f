// Relations in proportion: what is in a portion and in the whole, what is added on top, a mean of readings, the power
// of a cell, what is warmed in several portions. Expected values by hand, as each test says.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checked.h"

namespace sash::workings {
namespace {

using model::RelationType;
using quantity::Kind;
using test::first;
using test::RecordBuilder;
using test::si_of;
using ::testing::Contains;
using ::testing::HasSubstr;

TEST(Share, ScalesWhatIsInAnAliquotToTheFlask) {
  // 1.65 mmol in 10.0 of 100.0 mL: 16.5 mmol.
  RecordBuilder b;
  const auto part = b.figure("1.65 mmol", Kind::amount);
  const auto taken = b.figure("10.0 mL", Kind::volume);
  const auto flask = b.figure("100.0 mL", Kind::volume);
  const auto whole = b.figure("", Kind::amount);
  b.relation(RelationType::share, {{"part", part}, {"taken", taken}, {"taken_of", flask}, {"whole", whole}});
  EXPECT_NEAR(si_of(b, whole), 16.5e-3, 1e-6);
}

TEST(Share, ObjectsToAnAliquotScaledByTheWrongVolume) {
  // 25 of 200 mL is an eighth, not a quarter: 10.2 mg are 81.6 mg in all.
  RecordBuilder b;
  const auto part = b.figure("10.2 mg", Kind::mass);
  const auto taken = b.figure("25.0 mL", Kind::volume);
  const auto glass = b.figure("200.0 mL", Kind::volume);
  const auto whole = b.figure("40.8 mg", Kind::mass);
  b.relation(RelationType::share, {{"part", part}, {"taken", taken}, {"taken_of", glass}, {"whole", whole}});
  EXPECT_EQ(first(b).verdict, Verdict::conflicts);
}

TEST(Share, AsksWhatAPortionWasTakenFrom) {
  RecordBuilder b;
  const auto part = b.figure("1.65 mmol", Kind::amount);
  const auto taken = b.figure("10.0 mL", Kind::volume);
  const auto whole = b.figure("16.5 mmol", Kind::amount);
  b.relation(RelationType::share, {{"part", part}, {"taken", taken}, {"whole", whole}});
  EXPECT_THAT(first(b).missing, Contains(HasSubstr("what it was taken from")));
}

TEST(Share, AddsAPercentageOnTop) {
  // 10.60 g and ten percent more: 11.66 g.
  RecordBuilder b;
  const auto needed = b.figure("10.60 g", Kind::mass);
  const auto excess = b.figure("10.0 %", Kind::percent_other);
  const auto both = b.figure("", Kind::mass);
  b.relation(RelationType::share, {{"whole", needed}, {"fraction", excess}, {"increased", both}});
  EXPECT_NEAR(si_of(b, both), 11.66e-3, 1e-6);
}

TEST(Share, KnowsAnExcessOverWhatIsNeeded) {
  // 0.250 mol where 0.200 mol are needed: 25 % more, not 20 %.
  RecordBuilder b;
  const auto needed = b.figure("0.200 mol", Kind::amount);
  const auto put_in = b.figure("0.250 mol", Kind::amount);
  const auto excess = b.figure("20 %", Kind::percent_other);
  b.relation(RelationType::share, {{"whole", needed}, {"fraction", excess}, {"increased", put_in}});
  EXPECT_EQ(first(b).verdict, Verdict::conflicts);
}

TEST(Total, HasAMean) {
  // (14.05 + 14.15) / 2
  RecordBuilder b;
  const auto one = b.figure("14.05 mL", Kind::volume);
  const auto two = b.figure("14.15 mL", Kind::volume);
  const auto mean = b.figure("", Kind::volume);
  b.relation(RelationType::total, {{"part", one}, {"part", two}, {"mean", mean}});
  EXPECT_NEAR(si_of(b, mean), 14.10e-6, 1e-9);
}

TEST(Electrolysis, KnowsWhatACellTakes) {
  // 6.00 V x 2.00 A = 12.0 W
  RecordBuilder b;
  const auto u = b.figure("6.00 V", Kind::voltage);
  const auto i = b.figure("2.00 A", Kind::current);
  const auto p = b.figure("", Kind::power);
  b.relation(RelationType::electrolysis, {{"voltage", u}, {"current", i}, {"power", p}});
  EXPECT_NEAR(si_of(b, p), 12.0, 0.01);
}

TEST(Heat, WarmsSeveralPortionsTogether) {
  // 240.0 g of water (4.181 J/(g K) at 25 °C, IAPWS-95) by 12.5 K: 12.54 kJ.
  RecordBuilder b;
  const auto water = b.figure("200.0 g", Kind::mass);
  const auto salt = b.figure("40.0 g", Kind::mass);
  const auto change = b.figure("12.5 K", Kind::temperature_change);
  const auto heat = b.figure("", Kind::energy);
  b.relation(RelationType::heat, {{"mass", water}, {"mass", salt}, {"temperature_change", change}, {"heat", heat}});
  EXPECT_NEAR(si_of(b, heat), 12543, 10);
}

TEST(Heat, WeighsAVolumeByItsDensity) {
  // 200.0 mL of water, 0.99705 g/mL at 25 °C (Tanaka et al. 2001), by 10.0 K: 199.4 x 4.181 x 10.0 = 8337 J.
  RecordBuilder b;
  const auto water = b.figure("200.0 mL", Kind::volume);
  const auto before = b.figure("25.0 Cel", Kind::temperature);
  const auto after = b.figure("35.0 Cel", Kind::temperature);
  const auto heat = b.figure("", Kind::energy);
  b.relation(RelationType::heat,
             {{"volume", water}, {"temperature_before", before}, {"temperature_after", after}, {"heat", heat}});
  EXPECT_NEAR(si_of(b, heat), 8337, 10);
}

}  // namespace
}  // namespace sash::workings
