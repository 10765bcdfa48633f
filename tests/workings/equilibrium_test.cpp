// Equilibrium states by the tables' constants and by given ones; published worked cases are in tests/known/workings.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

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
using ::testing::HasSubstr;

constexpr const char* acetic = "CH3CO2H = H^+ + CH3CO2^-: 1.8e-5";

// x^2 / (0.100 - x) = 1.8e-5 gives x = 1.333e-3, pH 2.875 (quadratic by hand).
TEST(Equilibrium, ComparesAStatedPhWithWhatTheTotalsGive) {
  for (const auto& [ph, verdict] :
       {std::pair{"2.88 [pH]", Verdict::agrees_as_rounded}, std::pair{"3.5 [pH]", Verdict::conflicts}}) {
    RecordBuilder b;
    const auto acid = b.figure("0.100 mol/L", Kind::molar_concentration);
    const auto p = b.figure(ph, Kind::pH);
    b.relation(RelationType::equilibrium, {{"total", acid, "CH3CO2H"}, {"pH", p}}, {{"constants", acetic}});
    const Finding f = first(b);
    EXPECT_EQ(f.verdict, verdict) << f.sentence;
    ASSERT_TRUE(f.computed);
    EXPECT_NEAR(f.computed->value, 2.875, 0.002);
    // d ln x / d ln c is c / (2 (c - x) + x), 0.503, and d ln x / d ln K is (c - x) / (2 (c - x) + x), 0.497; c is good
    // to 0.0005/sqrt(3) in 0.100, K to 0.05/sqrt(3) in 1.8.
    EXPECT_NEAR(f.computed->spread, std::hypot(0.503 * 0.00289, 0.497 * 0.01604) / 2.302585, 3e-5);
  }
}

TEST(Equilibrium, WritesWhatIsThere) {
  RecordBuilder b;
  const auto acid = b.figure("0.100 mol/L", Kind::molar_concentration);
  b.relation(RelationType::equilibrium, {{"total", acid, "CH3CO2H"}}, {{"constants", acetic}});
  const Finding f = first(b);
  EXPECT_EQ(f.verdict, Verdict::worked_out) << f.sentence;
  EXPECT_THAT(f.sentence, HasSubstr("pH works out to"));
  EXPECT_THAT(plain_text(f.workings), HasSubstr("CH₃CO₂H 0.0987 mol/L"));
  const Report report = check(b.record());
  EXPECT_EQ(report.constants.size(), 2u);  // of the acid and of water
  EXPECT_EQ(report.constants.back().source, "given with the relation");
}

// 0.0100 mol each of silver and chloride: 1.43 g of AgCl (143.32 g/mol) but for the 1.3e-5 mol that stays dissolved.
TEST(Equilibrium, WeighsAPrecipitate) {
  const ToldRecord told(
      "silver=0.0100 mol amount; chloride=0.0100 mol amount; volume=1.000 L "
      "volume; solid=? mass",
      "equilibrium: total@AgNO3=silver, total@NaCl=chloride, volume=volume, "
      "precipitate@AgCl=solid | constants=AgCl(s) = Ag^+ + Cl^-: 1.6e-10");
  const Report& report = told.report();
  const FigureState* state = report.find(told.figure("solid"));
  ASSERT_TRUE(state && state->reconciled) << report.findings.at(0).sentence;
  EXPECT_NEAR(state->reconciled->value, (0.0100 - 1.265e-5) * 143.32, 0.001);
}

// By the tables, and nothing said of a solid: Ksp of 1.6e-10 (OpenStax Chemistry 2e, appendix J) leaves some 2e-9 mol/L
// of silver beside 0.09 mol/L of chloride, so that all of it falls out.
TEST(Equilibrium, LetsFallOutWhatNobodyNamed) {
  const ToldRecord told(
      "silver=0.0100 mol/L molar_concentration; chloride=0.100 mol/L "
      "molar_concentration; left=? molar_concentration",
      "equilibrium: total@AgNO3=silver, total@NaCl=chloride, species@Ag^+=left");
  const Report& report = told.report();
  const FigureState* state = report.find(told.figure("left"));
  ASSERT_TRUE(state && state->reconciled) << report.findings.at(0).sentence;
  EXPECT_THAT(plain_text(report.findings.at(0).workings), HasSubstr("Cl\u207b 0.0900 mol/L, solid AgCl 0.0100 mol/L"));
}

TEST(Equilibrium, OfWhatDoesNotFormThereIsNothing) {
  const ToldRecord told(
      "silver=1.0e-6 mol/L molar_concentration; chloride=1.0e-6 mol/L "
      "molar_concentration; solid=? molar_concentration",
      "equilibrium: total@AgNO3=silver, total@NaCl=chloride, "
      "precipitate@AgCl=solid | constants=AgCl(s) = Ag^+ + Cl^-: 1.6e-10");
  const Report& report = told.report();
  const FigureState* state = report.find(told.figure("solid"));
  ASSERT_TRUE(state && state->reconciled) << report.findings.at(0).sentence;
  EXPECT_EQ(state->reconciled->value, 0);
}

// With the tables' constants and activities: pKa 4.757 of acetic acid, USGS PHREEQC minteq.v4; ideal it would be 2.882.
TEST(Equilibrium, TakesConstantsFromTheTables) {
  const ToldRecord told("acid=0.100 mol/L molar_concentration; p=? pH", "equilibrium: total@acetic acid=acid, pH=p");
  const Report& report = told.report();
  const FigureState* state = report.find(told.figure("p"));
  ASSERT_TRUE(state && state->reconciled) << report.findings.at(0).sentence;
  EXPECT_NEAR(state->reconciled->value, 2.882, 0.02);
  ASSERT_FALSE(report.constants.empty());
  EXPECT_THAT(report.constants.back().source, HasSubstr("minteq"));
}

TEST(Equilibrium, SaysWhatIsMissing) {
  const ToldRecord told("p=3.0 [pH] pH", "equilibrium: pH=p");
  const Finding& f = told.first();
  EXPECT_EQ(f.verdict, Verdict::unsettled);
  EXPECT_THAT(f.sentence, HasSubstr("what was put into the solution"));
}

TEST(Equilibrium, SaysWhichConstantItCannotRead) {
  const ToldRecord told("acid=0.100 mol/L molar_concentration",
                        "equilibrium: total@HF=acid | constants=HF = H^+ + F^-");
  const Finding& f = told.first();
  EXPECT_EQ(f.verdict, Verdict::unsettled);
  EXPECT_THAT(f.sentence, HasSubstr("an equation, a colon and a number"));
}

// Mg(OH)2 (Ksp 8.9e-12, OpenStax Chemistry 2e, Appendix J) at a held pH of 10: [OH-] = 1e-4, so [Mg2+] = 8.9e-4 mol/L.
TEST(Equilibrium, HoldsThePhAtAFigure) {
  const ToldRecord told("p=10.00 [pH] pH; magnesium=0.100 mol/L molar_concentration; left=? molar_concentration",
                        "equilibrium: total@MgCl2=magnesium, pH=p, species@Mg^2+=left | "
                        "constants=Mg(OH)2(s) = Mg^2+ + 2 OH^-: 8.9e-12; held_pH=yes");
  const Report& report = told.report();
  const FigureState* state = report.find(told.figure("left"));
  ASSERT_TRUE(state && state->reconciled) << report.findings.at(0).sentence;
  const auto unit = quantity::Unit::parse(state->reconciled->unit);
  ASSERT_TRUE(unit);
  EXPECT_NEAR(unit->to_si(state->reconciled->value), 0.89, 0.001);  // mol/m3
}

// The solubility is the root of Ksp, so half of its relative uncertainty: 0.05/sqrt(3) in 1.6 (AgCl, OpenStax Chemistry
// 2e, Appendix J).
TEST(Equilibrium, CarriesTheUncertaintyOfAGivenConstant) {
  const ToldRecord told("s=? molar_concentration",
                        "equilibrium: solubility@AgCl=s | constants=AgCl(s) = Ag^+ + Cl^-: 1.6e-10");
  const Finding& f = told.first();
  ASSERT_TRUE(f.computed) << f.sentence;
  EXPECT_EQ(f.computed->unit, "umol/L");
  EXPECT_NEAR(f.computed->value, 12.65, 0.01);
  EXPECT_NEAR(f.computed->spread, 12.65 * 0.02887 / 1.6 / 2, 0.002);
}

// Copper(II) and ammonia: published logarithms of the constant of the tetraammine run from 11.75 to 13.23, so a factor
// of ten stays open, and that is what the result must show: not a number with four digits.
TEST(Equilibrium, IsNoSurerThanItsSourcesAgree) {
  const ToldRecord told(
      "copper=0.0500 mol/L molar_concentration; ammonia=1.00 mol/L "
      "molar_concentration; base=0.100 mol/L molar_concentration; dissolved=? "
      "molar_concentration",
      "equilibrium: total@CuSO4=copper, total@NH3=ammonia, total@NaOH=base, "
      "species@[Cu(NH3)4]^2+=dissolved");
  const Finding& f = told.first();
  ASSERT_TRUE(f.computed) << f.sentence;
  EXPECT_GT(f.computed->spread, 0.3 * f.computed->value);
}

// A blue solution, as anybody sees who adds ammonia to copper sulfate until it is in large excess.
TEST(Equilibrium, TakesCopperOverIntoTheTetraammineWhereAmmoniaIsInLargeExcess) {
  const ToldRecord told(
      "copper=0.0500 mol/L molar_concentration; ammonia=2.00 mol/L "
      "molar_concentration; solid=? molar_concentration",
      "equilibrium: total@CuSO4=copper, total@NH3=ammonia, precipitate@Cu(OH)2=solid");
  const Finding& f = told.first();
  ASSERT_TRUE(f.computed) << f.sentence;
  EXPECT_EQ(f.computed->value, 0) << f.sentence;
}

TEST(Equilibrium, SaysThatNoDrawsCheckIt) {
  RecordBuilder b;
  const auto acid = b.figure("0.100 mol/L", Kind::molar_concentration);
  b.relation(RelationType::equilibrium, {{"total", acid, "CH3CO2H"}}, {{"constants", acetic}});
  const Finding f = first(b);
  EXPECT_THAT(f.notes, ::testing::Contains(HasSubstr("no Monte Carlo run checks this one")));
}

}  // namespace
}  // namespace sash::workings
