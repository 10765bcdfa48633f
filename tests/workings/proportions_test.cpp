// Relations in proportion: what is in a portion and in the whole, what is added on top, a mean of readings, the power
// of a cell, what is warmed in several portions. Expected values by hand, as each test says.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checked.h"
#include "tools/told_record.h"

namespace sash::workings {
namespace {

using test::first;
using test::ToldRecord;
using ::testing::Contains;
using ::testing::HasSubstr;

TEST(Share, ScalesWhatIsInAnAliquotToTheFlask) {
  // 1.65 mmol in 10.0 of 100.0 mL: 16.5 mmol.
  const ToldRecord told("part=1.65 mmol amount; taken=10.0 mL volume; flask=100.0 mL volume; whole=? amount",
                        "share: part=part, taken=taken, taken_of=flask, whole=whole");
  EXPECT_NEAR(told.si("whole"), 16.5e-3, 1e-6);
}

TEST(Share, ObjectsToAnAliquotScaledByTheWrongVolume) {
  // 25 of 200 mL is an eighth, not a quarter: 10.2 mg are 81.6 mg in all.
  const ToldRecord told("part=10.2 mg mass; taken=25.0 mL volume; glass=200.0 mL volume; whole=40.8 mg mass",
                        "share: part=part, taken=taken, taken_of=glass, whole=whole");
  EXPECT_EQ(told.first().verdict, Verdict::conflicts);
}

TEST(Share, AsksWhatAPortionWasTakenFrom) {
  const ToldRecord told("part=1.65 mmol amount; taken=10.0 mL volume; whole=16.5 mmol amount",
                        "share: part=part, taken=taken, whole=whole");
  EXPECT_THAT(told.first().missing, Contains(HasSubstr("what it was taken from")));
}

TEST(Share, AddsAPercentageOnTop) {
  // 10.60 g and ten percent more: 11.66 g.
  const ToldRecord told("needed=10.60 g mass; excess=10.0 % percent_other; both=? mass",
                        "share: whole=needed, fraction=excess, increased=both");
  EXPECT_NEAR(told.si("both"), 11.66e-3, 1e-6);
}

TEST(Share, KnowsAnExcessOverWhatIsNeeded) {
  // 0.250 mol where 0.200 mol are needed: 25 % more, not 20 %.
  const ToldRecord told("needed=0.200 mol amount; put_in=0.250 mol amount; excess=20 % percent_other",
                        "share: whole=needed, fraction=excess, increased=put_in");
  EXPECT_EQ(told.first().verdict, Verdict::conflicts);
}

TEST(Total, HasAMean) {
  // (14.05 + 14.15) / 2
  const ToldRecord told("one=14.05 mL volume; two=14.15 mL volume; mean=? volume",
                        "total: part=one, part=two, mean=mean");
  EXPECT_NEAR(told.si("mean"), 14.10e-6, 1e-9);
}

TEST(Electrolysis, KnowsWhatACellTakes) {
  // 6.00 V x 2.00 A = 12.0 W
  const ToldRecord told("u=6.00 V voltage; i=2.00 A current; p=? power", "electrolysis: voltage=u, current=i, power=p");
  EXPECT_NEAR(told.si("p"), 12.0, 0.01);
}

TEST(Heat, WarmsSeveralPortionsTogether) {
  // 240.0 g of water (4.181 J/(g K) at 25 °C, IAPWS-95) by 12.5 K: 12.54 kJ.
  const ToldRecord told("water=200.0 g mass; salt=40.0 g mass; change=12.5 K temperature_change; heat=? energy",
                        "heat: mass=water, mass=salt, temperature_change=change, heat=heat");
  EXPECT_NEAR(told.si("heat"), 12543, 10);
}

TEST(Heat, WeighsAVolumeByItsDensity) {
  // 200.0 mL of water, 0.99705 g/mL at 25 °C (Tanaka et al. 2001), by 10.0 K: 199.4 x 4.181 x 10.0 = 8337 J.
  const ToldRecord told(
      "water=200.0 mL volume; before=25.0 Cel temperature; after=35.0 Cel "
      "temperature; heat=? energy",
      "heat: volume=water, temperature_before=before, temperature_after=after, heat=heat");
  EXPECT_NEAR(told.si("heat"), 8337, 10);
}

}  // namespace
}  // namespace sash::workings
