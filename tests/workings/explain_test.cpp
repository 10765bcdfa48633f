#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checked.h"
#include "tools/told_record.h"

namespace sash::workings {
namespace {

using model::RelationType;
using quantity::Kind;
using test::acid;
using test::first;
using test::RecordBuilder;
using test::ToldRecord;
using ::testing::HasSubstr;
using K = Explanation::Kind;

const Explanation* find(const Finding& f, K kind) {
  for (const Explanation& e : f.explanations) {
    if (e.kind == kind) return &e;
  }
  return nullptr;
}

std::string sentences(const Finding& f) {
  std::string text = f.sentence + "\n";
  for (const Explanation& e : f.explanations) text += e.sentence + "\n";
  return text;
}

TEST(Explain, ASlippedDecimalPoint) {
  const Finding f = first(acid("2.84 g"));
  const Explanation* e = find(f, K::slipped_decimal);
  ASSERT_TRUE(e) << sentences(f);
  EXPECT_THAT(e->sentence, HasSubstr("28.4 g instead of 2.84 g"));
  ASSERT_TRUE(e->would_be);
  EXPECT_NEAR(e->would_be->value, 28.4, 1e-9);
}

TEST(Explain, SwappedDigits) {
  const Finding f = first(acid("24.8 g"));
  const Explanation* e = find(f, K::swapped_digits);
  ASSERT_TRUE(e) << sentences(f);
  EXPECT_THAT(e->sentence, HasSubstr("28.4 for 24.8"));
}

// 20.0 mL of 3.00 mol/L hold 60.0 mmol: sixty, not sixteen.
TEST(Explain, SixteenSaidForSixty) {
  const ToldRecord told("strength=3.00 mol/L molar_concentration; volume=20.0 mL volume; amount=16 mmol amount",
                        "in_solution: strength=strength, solution_volume=volume, "
                        "solute_amount=amount | substance=NaOH");
  const Finding& f = told.first();
  const Explanation* e = find(f, K::misheard_number);
  ASSERT_TRUE(e) << sentences(f);
  EXPECT_THAT(e->sentence, HasSubstr("16 was said or heard for 60"));
  EXPECT_NEAR(e->would_be->value, 60, 1e-9);
}

TEST(Explain, AWrongUnit) {
  const Finding f = first(acid("28.4 kg"));
  const Explanation* e = find(f, K::wrong_unit);
  ASSERT_TRUE(e) << sentences(f);
  EXPECT_THAT(e->sentence, HasSubstr("it was meant in g, not kg"));
}

TEST(Explain, AVolumeReadForAMass) {
  const Finding f = first(acid("20.0 g"));
  const Explanation* e = find(f, K::volume_read_for_mass);
  ASSERT_TRUE(e) << sentences(f);
  EXPECT_NEAR(e->would_be->value, 28.4, 1e-9);
}

TEST(Explain, APercentageTakenForAFraction) {
  const ToldRecord told("part=3.00 g mass; whole=12.0 g mass; fraction=0.25 % percent_other",
                        "share: part=part, whole=whole, fraction=fraction");
  const Finding& f = told.first();
  EXPECT_TRUE(find(f, K::percent_for_fraction)) << sentences(f);
}

TEST(Explain, NothingWhereNoSlipFits) {
  const Finding f = first(acid("25.7 g"));
  EXPECT_EQ(f.verdict, Verdict::conflicts);
  EXPECT_TRUE(f.explanations.empty()) << sentences(f);
}

// 5.00 g CuO (79.545 g/mol) give 0.06286 mol: 10.03 g CuSO4 (159.60 g/mol), 15.69 g of the pentahydrate (249.68 g/mol).
Finding copper_sulfate(const std::string& isolated, const std::string& percent) {
  RecordBuilder b;
  const auto oxide = b.figure("5.00 g", Kind::mass, "copper(II) oxide");
  const auto salt = b.figure(isolated, Kind::mass);
  const auto y = b.figure(percent, Kind::percent_yield);
  b.relation(RelationType::yield, {{"reactant", oxide, "CuO"}, {"actual", salt}, {"percent", y}},
             {{"equation", "CuO + H2SO4 -> CuSO4 + H2O"}, {"product", "CuSO4"}});
  return first(b);
}

TEST(Explain, AYieldOverOneHundredPercentByASolventOrAHydrate) {
  const Finding f = copper_sulfate("11.0 g", "110 %");
  ASSERT_NE(f.verdict, Verdict::conflicts);
  ASSERT_FALSE(f.remark.empty());
  const Explanation* wet = find(f, K::residual_solvent);
  ASSERT_TRUE(wet) << sentences(f);
  EXPECT_THAT(wet->sentence, HasSubstr("0.97 g of its 11.0 g"));  // 11.0 - 10.03
  EXPECT_EQ(f.explanations.front().kind, K::residual_solvent) << sentences(f);
  EXPECT_TRUE(find(f, K::other_hydrate)) << sentences(f);
  EXPECT_TRUE(find(f, K::unreacted_reactant)) << sentences(f);
}

TEST(Explain, AYieldWorkedOutWithTheMolarMassOfTheHydrate) {
  // 14.3 g of the pentahydrate are 91.1 %; taken as anhydrous they would be 143 %.
  RecordBuilder b;
  const auto oxide = b.figure("5.00 g", Kind::mass, "copper(II) oxide");
  const auto salt = b.figure("9.03 g", Kind::mass);  // 90.0 % as anhydrous, 57.5 % as pentahydrate
  const auto y = b.figure("57.5 %", Kind::percent_yield);
  b.relation(RelationType::yield, {{"reactant", oxide, "CuO"}, {"actual", salt}, {"percent", y}},
             {{"equation", "CuO + H2SO4 -> CuSO4 + H2O"}, {"product", "CuSO4"}});
  const Finding f = first(b);
  ASSERT_EQ(f.verdict, Verdict::conflicts);
  const Explanation* e = find(f, K::wrong_formula_weight);
  ASSERT_TRUE(e) << sentences(f);
  EXPECT_THAT(e->sentence, HasSubstr("CuSO₄·5H₂O instead of CuSO₄"));
}

TEST(Explain, AnotherLimitingReactant) {
  // 2 H2 + O2: 5.00 g H2 and 10.0 g O2; from the oxygen 11.3 g of water, from the hydrogen 44.7 g.
  const ToldRecord told("hydrogen=5.00 g mass; oxygen=10.0 g mass; water=44.7 g mass",
                        "reaction: reactant@H2=hydrogen, reactant@O2=oxygen, product@H2O=water | "
                        "equation=2 H2 + O2 -> 2 H2O");
  const Finding& f = told.first();
  ASSERT_EQ(f.verdict, Verdict::conflicts);
  const Explanation* e = find(f, K::other_limiting_reactant);
  ASSERT_TRUE(e) << sentences(f);
  EXPECT_THAT(e->sentence, HasSubstr("H2"));
}

TEST(Explain, AnotherHydrateInASolution) {
  // 24.97 g CuSO4·5H2O in 1.000 L are 0.1000 mol/L; taken as anhydrous they would be 0.1564.
  const ToldRecord told("m=24.97 g mass; v=1.000 L volume; c=0.1000 mol/L molar_concentration",
                        "in_solution: solute_mass=m, solution_volume=v, strength=c | substance=CuSO4");
  const Finding& f = told.first();
  ASSERT_EQ(f.verdict, Verdict::conflicts);
  const Explanation* e = find(f, K::other_hydrate);
  ASSERT_TRUE(e) << sentences(f);
  EXPECT_THAT(e->sentence, HasSubstr("CuSO₄·5H₂O"));
}

// 10.00 g CaCO3 (100.09 g/mol) give 5.603 g CaO (56.077 g/mol) and 4.397 g CO2 (44.009 g/mol).
TEST(Explain, AnotherProductOfTheEquation) {
  const ToldRecord told("chalk=10.00 g mass; weighed=4.40 g mass",
                        "reaction: reactant@CaCO3=chalk, product@CaO=weighed | equation=CaCO3 -> CaO + CO2");
  const Finding& f = told.first();
  ASSERT_EQ(f.verdict, Verdict::conflicts);
  const Explanation* e = find(f, K::other_product);
  ASSERT_TRUE(e) << sentences(f);
  EXPECT_THAT(e->sentence, HasSubstr("CO₂"));
}

// 21.9 of 20.0 g are 109.5 %; with the digits the other way round it is 12.9 g and 64.5 %.
TEST(Explain, AYieldOverOneHundredPercentBySwappedDigits) {
  const ToldRecord told("actual=21.9 g mass; theory=20.0 g mass", "yield: actual=actual, theoretical=theory");
  const Finding& f = told.first();
  EXPECT_EQ(f.verdict, Verdict::worked_out);
  ASSERT_FALSE(f.remark.empty());
  const Explanation* e = find(f, K::swapped_digits);
  ASSERT_TRUE(e) << sentences(f);
  EXPECT_THAT(e->sentence, HasSubstr("12.9 g instead of 21.9 g, and the yield 64.5 %"));
  EXPECT_TRUE(find(f, K::residual_solvent)) << sentences(f);
}

// A litre that was a millilitre: 1.000 L of 0.100 mol/L hold 0.100 mol, not 0.100 mmol.
TEST(Explain, MillilitresForLitres) {
  const ToldRecord told("c=0.100 mol/L molar_concentration; v=1.000 mL volume; n=0.100 mol amount",
                        "in_solution: strength=c, solution_volume=v, solute_amount=n");
  const Finding& f = told.first();
  const Explanation* e = find(f, K::wrong_unit);
  ASSERT_TRUE(e) << sentences(f);
  EXPECT_THAT(sentences(f), HasSubstr("it was meant in L, not mL"));
}

// 24.97 g CuSO4·5H2O (249.68 g/mol) are 0.1000 mol; worked out as anhydrous (159.60 g/mol) 0.1565 mol.
TEST(Explain, TheAnhydrousWeightForTheHydrate) {
  const ToldRecord told("m=24.97 g mass; n=0.1565 mol amount", "same_portion: mass=m, amount=n | substance=CuSO4·5H2O");
  const Finding& f = told.first();
  ASSERT_EQ(f.verdict, Verdict::conflicts);
  EXPECT_TRUE(find(f, K::wrong_formula_weight)) << sentences(f);
}

}  // namespace
}  // namespace sash::workings
