// The relation kinds that the published worked examples do not reach; expected values by hand, as each test says.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checked.h"
#include "tools/told_record.h"
#include "workings/relations/kind.h"

namespace sash::workings {
namespace {

using model::RelationType;
using quantity::Kind;
using test::first;
using test::RecordBuilder;
using test::ToldRecord;
using ::testing::Contains;
using ::testing::HasSubstr;

TEST(RelationKinds, EveryTypeHasSlotsAndALabel) {
  for (int t = 0; t <= static_cast<int>(RelationType::duration); ++t) {
    const RelationKind& kind = kind_of(static_cast<RelationType>(t));
    EXPECT_FALSE(kind.slots().empty());
    EXPECT_FALSE(kind.label().empty());
  }
}

TEST(Electrolysis, DepositsHalfAMoleOfCopperForAMoleOfElectrons) {
  // 10.00 A for 9648.5 s is one mole of electrons; copper(II) takes two: 63.546 / 2 g.
  const ToldRecord told("i=10.00 A current; t=9648.5 s duration; m=? mass",
                        "electrolysis: current=i, duration=t, product@Cu=m | electrons=2");
  EXPECT_NEAR(told.value("m"), 31.773, 0.001);
}

TEST(Electrolysis, AnEfficiencyOverOneCannotBe) {
  const ToldRecord told("i=10.00 A current; t=9648.5 s duration; m=40.0 g mass; e=? percent_other",
                        "electrolysis: current=i, duration=t, product@Cu=m, efficiency=e | electrons=2");
  const Finding& f = told.first();
  EXPECT_EQ(f.verdict, Verdict::worked_out) << f.sentence;  // nothing else states it
  EXPECT_NE(f.remark.find("More than 100 % cannot have come from this charge alone"), std::string::npos) << f.remark;
}

TEST(Mixing, AddsUpWhatThePartsHold) {
  // 100 mL of 1 mol/L and 300 mL of 2 mol/L hold 0.7 mol in 400 mL: 1.75 mol/L.
  const ToldRecord told(
      "v1=100.0 mL volume; v2=300.0 mL volume; c1=1.000 mol/L molar_concentration; "
      "c2=2.000 mol/L molar_concentration; c=? molar_concentration",
      "mixing: part@weak=v1, part@strong=v2, part_strength@weak=c1, "
      "part_strength@strong=c2, whole_strength=c");
  EXPECT_NEAR(told.value("c"), 1.75, 1e-9);
}

TEST(Mixing, AddsWaterAsAPartThatHoldsNothing) {
  // 50.0 g of 20 % and 150.0 g of water: 5 %.
  const ToldRecord told("m1=50.0 g mass; m2=150.0 g mass; w1=20.0 % mass_percent; w=? mass_percent",
                        "mixing: part@acid=m1, part@water=m2, part_strength@acid=w1, whole_strength=w");
  EXPECT_NEAR(told.value("w"), 5.0, 1e-9);
}

TEST(Dilution, BetweenAPercentageAndAMolarity) {
  // 10.0 mL of 37.2 % hydrochloric acid of 1.19 g/mL hold 4.427 g or 0.12141 mol; in 250.0 mL that is 0.4857 mol/L.
  const ToldRecord told(
      "w=37.2 % mass_percent; v=10.0 mL volume; whole=250.0 mL volume; c=? "
      "molar_concentration",
      "dilution: strength_before=w, volume_before=v, volume_after=whole, "
      "strength_after=c | substance=HCl; density_before=1.19 g/mL");
  EXPECT_NEAR(told.value("c"), 0.4857, 0.0002);
}

TEST(Dilution, ByTheSolventAdded) {
  const ToldRecord told(
      "c1=2.00 mol/L molar_concentration; v=25.0 mL volume; water=75.0 mL volume; "
      "c2=? molar_concentration",
      "dilution: strength_before=c1, volume_before=v, solvent_added=water, strength_after=c2");
  EXPECT_NEAR(told.value("c2"), 0.5, 1e-9);
  EXPECT_THAT(told.first().notes, Contains(HasSubstr("Volumes are taken to add up")));
}

TEST(CountEach, Multiplies) {
  const ToldRecord told("n=12 1 count; each=0.25 g mass; whole=3.0 g mass",
                        "count_each: count=n, each=each, whole=whole");
  EXPECT_EQ(told.first().verdict, Verdict::agrees);
}

TEST(Chain, MultipliesTheYieldsOfItsSteps) {
  // Copper to nitrate to hydroxide to oxide: one copper each. 0.0500 mol Cu (3.1773 g); 80 % and 90 % give 0.0360 mol
  // of hydroxide, 3.512 g (97.56 g/mol), 72 % overall.
  const ToldRecord told(
      "start=3.1773 g mass of copper; y1=80.0 % percent_yield; y2=90.0 % "
      "percent_yield; product=? mass of Cu(OH)2; overall=? percent_yield",
      "chain: start@Cu=start, step_yield@1=y1, step_yield@2=y2, product@2=product, "
      "overall_yield=overall | equation:1=Cu + HNO3 -> Cu(NO3)2 + NO + H2O; "
      "equation:2=Cu(NO3)2 + NaOH -> Cu(OH)2 + NaNO3");
  EXPECT_NEAR(told.value("product"), 3.512, 0.001);
  EXPECT_NEAR(told.value("overall"), 72.0, 1e-6);
}

TEST(Chain, GivesTheOverallYieldWithoutTheIntermediates) {
  // 5.00 g CuO (79.545) back to 3.595 g Cu (63.546): 0.05657 of 0.06286 mol, 90.0 %.
  const ToldRecord told("start=5.000 g mass of CuO; product=3.595 g mass of Cu; overall=90.0 % percent_yield",
                        "chain: start@CuO=start, product@2=product, overall_yield=overall | "
                        "equation:1=CuO + H2SO4 -> CuSO4 + H2O; equation:2=CuSO4 + Zn -> Cu + ZnSO4");
  const Finding& f = told.first();
  EXPECT_TRUE(f.verdict == Verdict::agrees || f.verdict == Verdict::agrees_as_rounded) << f.sentence;
}

TEST(ElementBalance, FindsWhereTheCopperWent) {
  // 6.3546 g Cu is 0.1 mol; 0.06 mol left as 4.7727 g CuO; 0.04 mol unaccounted for: 2.5418 g as copper.
  const ToldRecord told("in=6.3546 g mass; out=4.7727 g mass; lost=? mass",
                        "element_balance: in@Cu=in, out@CuO=out, unaccounted@Cu=lost | element=Cu");
  EXPECT_NEAR(told.value("lost"), 2.5418, 0.0005);
}

TEST(ElementBalance, RefusesASubstanceWithoutTheElement) {
  const ToldRecord told("in=6.3546 g mass; out=4.7727 g mass", "element_balance: in@Cu=in, out@NaCl=out | element=Cu");
  EXPECT_THAT(told.first().sentence, HasSubstr("NaCl has none"));
}

TEST(Duration, ComparesWithTheTimeCode) {
  RecordBuilder b;
  const auto said = b.figure("90 s", Kind::duration);
  b.relation(RelationType::duration, {{"stated", said}}, {{"from", "12:30"}, {"until", "14:00.5"}});
  EXPECT_NE(first(b).verdict, Verdict::conflicts);
  b.record().relations[0].given["until"] = "13:10";
  const Finding f = first(b);
  EXPECT_EQ(f.verdict, Verdict::conflicts) << f.sentence;
  EXPECT_THAT(f.notes, Contains(HasSubstr("cut or sped up")));
}

TEST(Duration, NeedsAnEnd) {
  const ToldRecord told("said=90 s duration", "duration: stated=said | from=12:30");
  EXPECT_THAT(told.first().missing, Contains(HasSubstr("where it ends")));
}

TEST(Heat, CountsTheVesselToo) {
  // 100.0 g water (4.181 J/(g K) at 25 °C, IAPWS-95) and 200 g glass (0.83 J/(g K)) by 10.0 K: 4181 + 1660 J.
  RecordBuilder b;
  const auto m = b.figure("100.0 g", Kind::mass);
  const auto vessel = b.figure("200.0 g", Kind::mass);
  const auto dt = b.figure("10.0 K", Kind::temperature_change);
  const auto q = b.figure("", Kind::energy);
  b.relation(RelationType::heat, {{"mass", m}, {"vessel_mass", vessel}, {"temperature_change", dt}, {"heat", q}});
  RecordBuilder copy = b;
  const Reckoned heat = *check(copy.record()).find(q)->reconciled;
  EXPECT_NEAR(heat.unit == "kJ" ? heat.value * 1000 : heat.value, 5841, 2);
}

TEST(Heat, CoolingIsNegative) {
  const ToldRecord told("m=100.0 g mass; before=25.0 Cel temperature; after=20.0 Cel temperature; q=? energy",
                        "heat: mass=m, temperature_before=before, temperature_after=after, heat=q");
  EXPECT_LT(told.value("q"), 0);
}

TEST(Reaction, SaysWhenEitherReactantMayRunOut) {
  // 3 Cu + 8 HNO3: 0.0500 mol and 0.1333 mol are in proportion within their digits; 0.160 mol is not.
  for (const auto& [amount, close] : {std::pair{"0.1333 mol", true}, std::pair{"0.1600 mol", false}}) {
    RecordBuilder b;
    const auto copper = b.figure("0.0500 mol", Kind::amount);
    const auto acid = b.figure(amount, Kind::amount);
    const auto gas = b.figure("", Kind::amount);
    b.relation(RelationType::reaction, {{"reactant", copper, "Cu"}, {"reactant", acid, "HNO3"}, {"product", gas, "NO"}},
               {{"equation", "Cu + HNO3 -> Cu(NO3)2 + NO + H2O"}});
    const std::vector<std::string> notes = first(b).notes;
    const bool said = std::any_of(notes.begin(), notes.end(), [](const std::string& n) {
      return n.find("may run out first instead") != std::string::npos;
    });
    EXPECT_EQ(said, close) << amount;
  }
}

TEST(Equivalents, AreMolesToOneMoleOfTheLimitingReactant) {
  const ToldRecord told("copper=0.0500 mol amount; acid=0.200 mol amount; eq=? equivalents",
                        "reaction: reactant@Cu=copper, reactant@HNO3=acid, equivalents@HNO3=eq | "
                        "equation=Cu + HNO3 -> Cu(NO3)2 + NO2 + H2O; equivalents_of=Cu");
  EXPECT_NEAR(told.value("eq"), 4.0, 1e-9);
}

TEST(LeftOver, IsWhatTheLimitingReactantDoesNotUse) {
  // 0.0500 mol Cu uses 0.200 mol of 0.250 mol HNO3 (to NO2): 0.0500 mol is left.
  const ToldRecord told("copper=0.0500 mol amount; acid=0.250 mol amount; left=0.0500 mol amount",
                        "reaction: reactant@Cu=copper, reactant@HNO3=acid, left_over@HNO3=left | "
                        "equation=Cu + HNO3 -> Cu(NO3)2 + NO2 + H2O");
  EXPECT_EQ(told.first().verdict, Verdict::agrees) << told.first().sentence;
}

// 2.00 g Si are 0.07121 mol, a third of it 0.02374; 1.50 g N2 are 0.05354 mol, half of it 0.02677: silicon runs out.
// 0.02374 mol Si3N4 (140.283 g/mol) weigh 3.330 g; 0.05354 - 0.04747 mol N2 are left, 0.170 g. OpenStax Chemistry 2e,
// Example 4.12 for the limiting reactant; the rest by hand with its molar masses.
TEST(Reaction, WorksOutFromReactantsAlone) {
  const ToldRecord told("si=2.00 g mass; n2=1.50 g mass",
                        "reaction: reactant@Si=si, reactant@N2=n2 | equation=3 Si + 2 N2 -> Si3N4");
  const Finding& f = told.first();
  EXPECT_EQ(f.verdict, Verdict::worked_out) << f.sentence;
  ASSERT_TRUE(f.computed);
  EXPECT_NEAR(f.computed->value, 3.330, 0.001);
  EXPECT_NEAR(f.computed->spread, 3.330 * 0.0029 / 2.00, 0.0002);  // of the silicon alone: 0.005/sqrt(3) g
  ASSERT_EQ(f.besides.size(), 3u);
  EXPECT_EQ(f.besides[0].name, "theoretical amount of Si₃N₄");
  EXPECT_EQ(f.besides[1].name, "amount of N₂ left over");
  EXPECT_EQ(f.besides[2].name, "mass of N₂ left over");
  EXPECT_EQ(f.besides[2].value.unit, "mg");
  EXPECT_NEAR(f.besides[2].value.value, 170, 1);
  EXPECT_NE(f.sentence.find("Si runs out first"), std::string::npos) << f.sentence;
  const std::string written = plain_text(f.workings);
  EXPECT_NE(written.find("Si runs out first"), std::string::npos) << written;
  EXPECT_NE(written.find("m(Si₃N₄) = "), std::string::npos) << written;
  EXPECT_NE(written.find("n(N₂, left) = "), std::string::npos) << written;
}

// 1.00 g of copper alone: the acid is taken to be in excess. 0.015737 mol Cu(NO3)2 (187.555 g/mol) weigh 2.9516 g.
TEST(Reaction, WorksOutFromOneReactant) {
  const ToldRecord told("cu=1.00 g mass",
                        "reaction: reactant@Cu=cu | equation=Cu + 4 HNO3 -> Cu(NO3)2 + 2 NO2 + 2 H2O");
  const Finding& f = told.first();
  EXPECT_EQ(f.verdict, Verdict::worked_out) << f.sentence;
  ASSERT_TRUE(f.computed);
  EXPECT_NEAR(f.computed->value, 2.9516, 0.0005);
  EXPECT_EQ(f.besides.size(), 5u);  // NO2 and water, as amounts and masses; the amount of the nitrate
}

// Nobody states an amount of gas: 2.016 g of hydrogen are one mole.
TEST(GasGivenOff, WorksOutTheAmountOfAMass) {
  const ToldRecord told("m=2.016 g mass", "gas_given_off: mass=m | substance=H2");
  const Finding& f = told.first();
  EXPECT_EQ(f.verdict, Verdict::worked_out) << f.sentence;
  ASSERT_TRUE(f.computed);
  EXPECT_EQ(f.computed->unit, "mol");
  EXPECT_NEAR(f.computed->value, 1, 0.001);
}

// Copper does not dissolve in hydrochloric acid: E(Cu2+/Cu) = +0.34 V, OpenStax Chemistry 2e, Appendix L.
TEST(Reaction, DoubtsWhatPotentialsSayRunsTheOtherWay) {
  for (const auto& [metal, doubted] : {std::pair{"Cu", true}, {"Zn", false}}) {
    RecordBuilder b;
    const auto m = b.figure("5.00 g", Kind::mass);
    const auto g = b.figure("", Kind::amount);
    const std::string equation = std::string(metal) + " + 2 HCl -> " + metal + "Cl2 + H2";
    b.relation(RelationType::reaction, {{"used", m, metal}, {"product", g, "H2"}}, {{"equation", equation}});
    const Finding f = first(b);
    const bool says = std::any_of(f.notes.begin(), f.notes.end(), [](const std::string& note) {
      return note.find("does not go by itself") != std::string::npos;
    });
    EXPECT_EQ(says, doubted) << metal;
  }
}

// CCl2F2 takes two H2, not the four that were typed.
TEST(Reaction, SaysThatTypedCoefficientsDoNotBalance) {
  const ToldRecord told("in=1.000 mol amount; hydrogen=? amount",
                        "reaction: used@CCl2F2=in, used@H2=hydrogen | equation=CCl2F2 + 4 H2 -> CH2F2 + 2 HCl");
  EXPECT_NEAR(told.value("hydrogen"), 2.000, 1e-9);
  EXPECT_THAT(told.first().notes, Contains(HasSubstr("As typed the equation does not balance")));
}

// 0.5105 g of potassium hydrogen phthalate (204.22 g/mol) are 2.500 mmol: 25.00 mL of 0.1000 mol/L.
TEST(Titration, IsStandardisedAgainstWhatWasWeighed) {
  const ToldRecord told("v=25.00 mL volume; c=? molar_concentration; m=0.5105 g mass",
                        "titration: titrant_volume=v, titrant_strength=c, sample_mass=m | "
                        "equation=KHC8H4O4 + NaOH -> KNaC8H4O4 + H2O; titrant=NaOH; analyte=KHC8H4O4");
  EXPECT_NEAR(told.value("c"), 0.1000, 5e-5);
  EXPECT_THAT(told.first().notes, Contains(HasSubstr("taken as analyte")));
}

TEST(Heat, AsksForTheMassOfAVesselKnownByTheGram) {
  const ToldRecord told("m=100.0 g mass; d=5.0 Cel temperature_change; q=? energy",
                        "heat: mass=m, temperature_change=d, heat=q | vessel_heat_capacity=0.83 J/(g.K)");
  EXPECT_THAT(told.first().sentence, HasSubstr("the mass of the vessel, or its heat capacity as a whole"));
}

TEST(SamePortion, SaysHowAMissingDensityCanBeGiven) {
  const ToldRecord told("m=10.0 g mass of dish soap; v=? volume of dish soap", "same_portion: mass=m, volume=v");
  const Finding& f = told.first();
  EXPECT_EQ(f.verdict, Verdict::unsettled);
  EXPECT_THAT(f.missing, Contains(HasSubstr("density of dish soap")));
  EXPECT_THAT(plain_text(f.workings), HasSubstr("ρ = ?"));
  EXPECT_THAT(plain_text(f.workings), HasSubstr("give it with the relation as density, such as 1.05 g/mL"));
}

}  // namespace
}  // namespace sash::workings
