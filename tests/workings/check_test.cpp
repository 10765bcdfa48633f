
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checked.h"

namespace sash::workings {
namespace {

using model::RelationType;
using quantity::Kind;
using test::acid;
using test::RecordBuilder;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

// Nitric acid of density 1.42 g/mL; expected values here are products and sums one can do by hand.

Finding only_finding(RecordBuilder& b) {
  const Report report = check(b.record());
  EXPECT_EQ(report.findings.size(), 1u);
  return report.findings.at(0);
}

TEST(Check, AgreesWhereTheNumbersAreEqual) {
  auto b = acid("28.4 g", "20.0 mL");
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::agrees);
  EXPECT_EQ(plain_text(f.workings), "m = ρ V = 1.42 g/mL × 20.0 mL = 28.4 g");
  ASSERT_TRUE(f.computed);
  EXPECT_NEAR(f.computed->value, 28.4, 1e-9);
  EXPECT_EQ(f.computed->unit, "g");
}

TEST(Check, AgreesAsRounded) {
  auto b = acid("28 g", "20.0 mL");
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::agrees_as_rounded);
  EXPECT_THAT(f.sentence, HasSubstr("was given as 28 g"));
  EXPECT_THAT(f.sentence, HasSubstr("rounds to that"));
  EXPECT_FALSE(f.tolerance_reason.empty());
}

TEST(Check, AgreesWithinTheUncertainty) {
  RecordBuilder b;
  const auto m = b.figure_within("28.9 g", 0.6, Kind::mass);
  const auto v = b.figure("20.0 mL", Kind::volume);
  b.relation(RelationType::same_portion, {{"mass", m}, {"volume", v}}, {{"density", "1.42 g/mL"}});
  EXPECT_EQ(only_finding(b).verdict, Verdict::agrees);
}

TEST(Check, ConflictsAndSaysWhatItWorksOutTo) {
  auto b = acid("24.6 g", "20.0 mL");
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::conflicts);
  EXPECT_EQ(f.sentence,
            "Mass of nitric acid was given as 24.6 g, but works out to (28.40 ± 0.14) g; they may differ by ±0.15 g at "
            "most.");
  ASSERT_FALSE(f.culprits.empty());
  EXPECT_TRUE(f.culprits.front().tied);  // mass or volume: two figures cannot say which
}

TEST(Check, WorksOutWhatNobodyStates) {
  auto b = acid("", "20.0 mL");
  const Report report = check(b.record());
  const Finding& f = report.findings.at(0);
  EXPECT_EQ(f.verdict, Verdict::worked_out);
  ASSERT_TRUE(f.computed);
  EXPECT_NEAR(f.computed->value, 28.4, 1e-9);
  EXPECT_FALSE(f.said);
  ASSERT_EQ(report.figures.size(), 2u);
  EXPECT_EQ(report.figures[0].standing, Standing::determined);
  EXPECT_EQ(report.figures[1].standing, Standing::unchecked);
}

TEST(Check, SaysThatADensityIsMissing) {
  auto b = acid("28.4 g", "20.0 mL", {});
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::unsettled);
  EXPECT_THAT(f.missing, ElementsAre("the density of nitric acid"));
  EXPECT_EQ(f.sentence, "This cannot be settled: missing the density of nitric acid.");
}

TEST(Check, NeedsAValueAboveZero) {
  auto b = acid("0 g", "20.0 mL");
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::unsettled);
  EXPECT_THAT(f.missing, ElementsAre("a value of mass of nitric acid above zero, not 0 g"));
}

TEST(Check, SaysThatAVolumeIsNoMass) {
  RecordBuilder b;
  const auto m = b.figure("28.4 mL", Kind::volume);
  const auto v = b.figure("20.0 mL", Kind::volume);
  b.relation(RelationType::same_portion, {{"mass", m}, {"volume", v}}, {{"density", "1.42 g/mL"}});
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::unsettled);
  EXPECT_THAT(f.sentence, HasSubstr("it is a volume, not a mass"));
}

TEST(Check, TakesTheCorrectedFigure) {
  auto b = acid("24.6 g", "20.0 mL");
  const auto better = b.figure("28.4 g", Kind::mass, "nitric acid");
  b.edit({1}).corrected_by = better;
  EXPECT_EQ(only_finding(b).verdict, Verdict::agrees);
}

TEST(Check, LeavesOutWhatIsOnlyProposed) {
  auto b = acid("24.6 g", "20.0 mL");
  b.record().relations.front().origin.standing = model::Standing::proposed;
  EXPECT_TRUE(check(b.record()).findings.empty());
}

TEST(Check, FindsWhichReactantRunsOut) {
  // 3 Cu + 8 HNO3: 3.17 g Cu is 0.0499 mol, a third of it 0.0166; 0.120 mol HNO3, an eighth 0.0150: the acid runs out.
  // NO is a quarter of the acid, 0.0300 mol.
  RecordBuilder b;
  const auto copper = b.figure("3.17 g", Kind::mass, "copper");
  const auto acid = b.figure("0.120 mol", Kind::amount);
  const auto gas = b.figure("0.0300 mol", Kind::amount);
  b.relation(RelationType::reaction, {{"reactant", copper, "Cu"}, {"reactant", acid, "HNO3"}, {"product", gas, "NO"}},
             {{"equation", "Cu + HNO3 -> Cu(NO3)2 + NO + H2O"}});
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::agrees);
  EXPECT_THAT(plain_text(f.workings), HasSubstr("HNO₃ runs out first"));
}

TEST(Check, CarriesAnUnstatedAmountFromOneRelationToTheNext) {
  RecordBuilder b;
  const auto strength = b.figure("6.0 mol/L", Kind::molar_concentration);
  const auto volume = b.figure("20.0 mL", Kind::volume);
  const auto acid = b.figure("", Kind::amount, "HNO3");
  const auto gas = b.figure("0.0300 mol", Kind::amount);
  const auto solution = b.relation(RelationType::in_solution,
                                   {{"strength", strength}, {"solution_volume", volume}, {"solute_amount", acid}}, {});
  const auto reaction = b.relation(RelationType::reaction, {{"reactant", acid, "HNO3"}, {"product", gas, "NO"}},
                                   {{"equation", "Cu + HNO3 -> Cu(NO3)2 + NO + H2O"}});
  const Report report = check(b.record());
  EXPECT_EQ(report.find(solution)->verdict, Verdict::worked_out);
  EXPECT_EQ(report.find(reaction)->verdict, Verdict::agrees);
  EXPECT_EQ(report.test.freedom, 1);
}

TEST(Check, AYieldOverOneHundredPercentCannotBe) {
  RecordBuilder b;
  const auto actual = b.figure("11.0 g", Kind::mass);
  const auto theory = b.figure("10.0 g", Kind::mass);
  const auto percent = b.figure("110 %", Kind::percent_yield);
  b.relation(RelationType::yield, {{"actual", actual}, {"theoretical", theory}, {"percent", percent}});
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::agrees) << "11.0 of 10.0 is 110 %: the arithmetic holds";
  EXPECT_THAT(f.sentence, HasSubstr("works out to the same"));
  EXPECT_THAT(f.remark, HasSubstr("More than 100 % cannot be pure, dry product"));
  EXPECT_EQ(label_of(f), "agrees, but cannot be");
  EXPECT_FALSE(f.explanations.empty());
  const Report report = check(b.record());
  EXPECT_EQ(report.count(Verdict::conflicts), 0u);
  EXPECT_EQ(report.remarks(), 1u);
}

TEST(Check, WorksOutAYieldNobodyStates) {
  RecordBuilder b;
  const auto actual = b.figure("9.00 g", Kind::mass);
  const auto theory = b.figure("10.0 g", Kind::mass);
  b.relation(RelationType::yield, {{"actual", actual}, {"theoretical", theory}});
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::worked_out);
  ASSERT_TRUE(f.computed);
  EXPECT_NEAR(f.computed->value, 90.0, 1e-9);
  EXPECT_EQ(f.computed->unit, "%");
}

TEST(Check, SaysWhenAQuenchIsNotEnough) {
  // 2.5 kg HNO3 take 2.103 kg Na2CO3.
  RecordBuilder b;
  const auto acid = b.figure("2.5 kg", Kind::mass);
  const auto soda = b.figure("2.0 kg", Kind::mass);
  b.relation(RelationType::quench, {{"target", acid, "HNO3"}, {"destroyer", soda, "Na2CO3"}},
             {{"equation", "2 HNO3 + Na2CO3 -> 2 NaNO3 + H2O + CO2"}});
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::conflicts) << f.sentence;
  EXPECT_THAT(f.sentence, HasSubstr("that is not enough"));
  b.edit(soda).reading = model::Reading{2.13, {}, "2.13", "kg", model::Hedge::exact};
  const Finding close = only_finding(b);
  EXPECT_EQ(close.verdict, Verdict::worked_out) << close.sentence;
  EXPECT_THAT(close.notes, ::testing::Contains(HasSubstr("may not be enough")));
}

TEST(Check, DrawsWhereFirstOrderBends) {
  // 1 / x with x uniform in 0.5 to 1.5: mean ln 3 = 1.0986, variance 4/3 - (ln 3)^2 = 0.1264, so 0.3555; first order
  // says 1 and 0.2887 (both by hand).
  RecordBuilder b;
  const auto part = b.figure("1.0 g", Kind::mass);
  b.edit(part).doubt = {model::Doubt::From::assumed_exact, 0, {}};
  const auto fraction = b.figure_within("1.0 1", 0.5, Kind::fraction);
  const auto whole = b.figure("", Kind::mass);
  b.relation(RelationType::share, {{"part", part}, {"whole", whole}, {"fraction", fraction}});
  const Finding f = only_finding(b);
  ASSERT_TRUE(f.computed);
  EXPECT_NEAR(f.computed->value, 1.0986, 0.02);
  EXPECT_NEAR(f.computed->spread, 0.3555, 0.02);
  EXPECT_THAT(f.notes, ::testing::Contains(HasSubstr("Monte Carlo")));
}

TEST(Check, AddsAndTakesAway) {
  RecordBuilder b;
  const auto a = b.figure("5.00 g", Kind::mass);
  const auto c = b.figure("2.53 g", Kind::mass);
  const auto spilt = b.figure("0.50 g", Kind::mass);
  const auto whole = b.figure("7.03 g", Kind::mass);
  b.relation(RelationType::total, {{"part", a}, {"part", c}, {"less", spilt, "spilt"}, {"whole", whole}});
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::agrees);
  EXPECT_EQ(plain_text(f.workings), "m(total) = m(1) + m(2) − m(spilt) = 5.00 g + 2.53 g − 0.50 g = 7.03 g");
}

TEST(Check, TakesAShareOfAWhole) {
  RecordBuilder b;
  const auto part = b.figure("", Kind::mass);
  const auto whole = b.figure("8.0 g", Kind::mass);
  b.relation(RelationType::share, {{"part", part}, {"whole", whole}}, {{"fraction", "3/8"}});
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::worked_out);
  EXPECT_NEAR(f.computed->value, 3.0, 1e-9);
}

TEST(Check, SaysSoWhenAnEquationCannotBalance) {
  RecordBuilder b;
  const auto copper = b.figure("3.17 g", Kind::mass);
  b.relation(RelationType::reaction, {{"reactant", copper, "Cu"}}, {{"equation", "Cu -> CuO"}});
  const Finding f = only_finding(b);
  EXPECT_EQ(f.verdict, Verdict::unsettled);
  EXPECT_THAT(f.sentence, HasSubstr("an equation that balances"));
}

TEST(Check, NamesTheFigureThatSpoilsSeveralRelations) {
  auto b = acid("28.4 g", "20.0 mL");
  const auto again = b.figure("28.4 g", Kind::mass, "acid on the balance");
  const auto third = b.figure("24.6 g", Kind::mass, "acid in the notebook");
  const auto restated = b.relation(RelationType::same_portion, {{"same", {1}}, {"same", again}, {"same", third}});
  const Report report = check(b.record());
  const Finding* f = report.find(restated);
  EXPECT_EQ(f->verdict, Verdict::conflicts);
  ASSERT_FALSE(f->culprits.empty());
  EXPECT_FALSE(f->culprits[0].tied);
  EXPECT_EQ(f->culprits[0].should_be.at(0).figure, third);
  EXPECT_NEAR(f->culprits[0].should_be.at(0).value, 28.4, 0.05);
  EXPECT_EQ(f->said->figure, third);
}

TEST(Check, KeepsUnrelatedConflictsApart) {
  // Both use the molar mass of copper; their errors have nothing to do with each other. 3.177 g Cu is 0.05000 mol.
  RecordBuilder b;
  std::vector<model::RelationId> relations;
  for (const auto& [mass, amount] : {std::pair{"3.177 g", "0.0700 mol"}, std::pair{"6.354 g", "0.0500 mol"}}) {
    const auto m = b.figure(mass, Kind::mass, "Cu");
    const auto n = b.figure(amount, Kind::amount, "Cu");
    relations.push_back(b.relation(RelationType::same_portion, {{"mass", m}, {"amount", n}}));
  }
  const Report report = check(b.record());
  EXPECT_EQ(report.count(Verdict::conflicts), 2u);
  for (const auto id : relations) {
    const Finding* f = report.find(id);
    ASSERT_EQ(f->culprits.size(), 2u);
    for (const Culprit& c : f->culprits) {
      ASSERT_EQ(c.should_be.size(), 1u);
      EXPECT_THAT(f->figures, ::testing::Contains(c.should_be[0].figure));
      EXPECT_TRUE(c.tied);
      EXPECT_TRUE(c.settles);
    }
  }
}

TEST(Check, AnEmptyRecordHasNoFindings) {
  const Report report = check(model::Record{});
  EXPECT_TRUE(report.findings.empty());
  EXPECT_EQ(report.test.freedom, 0);
}

}  // namespace
}  // namespace sash::workings
