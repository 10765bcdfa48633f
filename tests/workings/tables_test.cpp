// Relations that take what nobody states from the tables of the chemistry.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checked.h"
#include "quantity/unit.h"
#include "tools/told_record.h"

namespace sash::workings {
namespace {

using model::RelationType;
using quantity::Kind;
using test::first;
using test::RecordBuilder;
using test::ToldRecord;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

double kilojoules(const RecordBuilder& b, model::FigureId q) { return test::si_of(b, q) / 1000; }

// 1.000 mol NaOH: -44.51 kJ/mol, CRC Handbook, Enthalpy of Solution of Electrolytes (V. B. Parker, NSRDS-NBS 2).
TEST(HeatTables, KnowWhatDissolvingGivesOff) {
  RecordBuilder b;
  const auto m = b.figure("39.997 g", Kind::mass);
  const auto q = b.figure("", Kind::energy);
  b.relation(RelationType::heat, {{"reacting_mass", m}, {"heat", q}},
             {{"substance", "NaOH"}, {"process", "dissolving"}});
  EXPECT_NEAR(kilojoules(b, q), 44.51, 0.01);
}

// H+ + OH- -> H2O: 55.81 kJ/mol at 25 °C and infinite dilution, USGS PHREEQC minteq.v4.dat.
TEST(HeatTables, KnowWhatNeutralisingGivesOff) {
  RecordBuilder b;
  const auto n = b.figure("0.0500 mol", Kind::amount);
  const auto q = b.figure("", Kind::energy);
  b.relation(RelationType::heat, {{"amount", n}, {"heat", q}},
             {{"substance", "hydrochloric acid"}, {"process", "neutralisation"}});
  EXPECT_NEAR(kilojoules(b, q), 0.0500 * 55.81, 0.001);
}

// Methane burnt to liquid water: 890 kJ/mol (OpenStax Chemistry 2e, section 5.3).
TEST(HeatTables, KnowWhatAReactionGivesOff) {
  RecordBuilder b;
  const auto n = b.figure("2.000 mol", Kind::amount);
  const auto q = b.figure("", Kind::energy);
  b.relation(RelationType::heat, {{"amount", n}, {"heat", q}},
             {{"substance", "CH4"}, {"equation", "CH4(g) + O2(g) -> CO2(g) + H2O(l)"}});
  EXPECT_NEAR(kilojoules(b, q), 2 * 890.5, 1.5);
}

TEST(HeatTables, SayWhyTheyDoNotKnow) {
  const ToldRecord told("n=1.0 mol amount; q=1.0 kJ energy",
                        "heat: amount=n, heat=q | substance=NaOH; process=stirring");
  EXPECT_THAT(told.first().notes, Contains(HasSubstr("not “stirring”")));
}

// At 20 °C and half saturated the dew point is 9.3 °C (WMO-No. 8, Annex 4.B).
TEST(Dew, IsSaidWhereTheWallIsColder) {
  for (const auto& [after, wet] : {std::pair{"5.0 Cel", true}, std::pair{"12.0 Cel", false}}) {
    RecordBuilder b;
    const auto m = b.figure("100.0 g", Kind::mass);
    const auto from = b.figure("20.0 Cel", Kind::temperature);
    const auto to = b.figure(after, Kind::temperature);
    b.relation(RelationType::heat, {{"mass", m}, {"temperature_before", from}, {"temperature_after", to}});
    const auto notes = first(b).notes;
    if (wet) {
      EXPECT_THAT(notes, Contains(HasSubstr("dew point of the room, 9.3 °C")));
    } else {
      EXPECT_THAT(notes, Not(Contains(HasSubstr("dew"))));
    }
  }
}

// Henry's constant of CO2 at 25 °C, 3.4e-4 mol/(m3 Pa) (R. Sander, Atmos. Chem. Phys. 23 (2023) 10901): times RT 0.843,
// so that as much water keeps 0.843 of 1.843, 46 %.
TEST(GasOverWater, SaysWhatStaysDissolved) {
  const ToldRecord told("v=500 mL gas_volume of carbon dioxide",
                        "gas_given_off: volume=v | over_water=yes; water=500 mL");
  EXPECT_THAT(told.first().notes, Contains(HasSubstr("46 % of the gas stays dissolved")));
}

// Ethanol and water, 50.0 mL of each at 20 °C: 39.47 g and 49.91 g make 44.16 % by mass, which has 0.9265 g/mL (OIML R
// 22, interpolated): 96.5 mL.
TEST(Mixing, LosesVolumeAsTheTablesSay) {
  RecordBuilder b;
  const auto spirit = b.figure("50.0 mL", Kind::volume, "ethanol");
  const auto water = b.figure("50.0 mL", Kind::volume, "ethanol");
  const auto pure = b.figure("100 %", Kind::mass_percent, "ethanol");
  b.edit(pure).doubt.from = model::Doubt::From::assumed_exact;
  const auto mixed = b.figure("", Kind::mass_percent, "ethanol");
  const auto whole = b.figure("", Kind::volume);
  b.relation(RelationType::mixing,
             {{"part", spirit, "ethanol"},
              {"part", water, "water"},
              {"part_strength", pure, "ethanol"},
              {"whole", whole},
              {"whole_strength", mixed}},
             {{"substance", "ethanol"}});
  const Report report = check(b.record());
  const FigureState* volume = report.find(whole);
  ASSERT_TRUE(volume && volume->reconciled) << report.findings.at(0).sentence;
  EXPECT_NEAR(volume->reconciled->value, 96.5, 0.15) << volume->reconciled->text;
  EXPECT_THAT(report.findings.at(0).notes, Contains(HasSubstr("Mixing changes the volume by")));
}

TEST(Mixing, SaysThatVolumesAreTakenToAddUpWhereNoTableTells) {
  const ToldRecord told("one=50.0 mL volume; other=50.0 mL volume; whole=? volume",
                        "mixing: part@a=one, part@b=other, whole=whole");
  EXPECT_THAT(told.first().notes, Contains(HasSubstr("Volumes are taken to add up")));
}

}  // namespace
}  // namespace sash::workings
