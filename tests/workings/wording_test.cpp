// What findings and workings say, as a chemist would write it; numbers by hand, as each test says.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/text.h"
#include "tools/told_record.h"

namespace sash::workings {
namespace {

using test::ToldRecord;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::StartsWith;

TEST(Casing, BeginsASentenceWithACapitalButForWordsWhoseCaseMeansSomething) {
  EXPECT_EQ(to_begin_with("mass of copper"), "Mass of copper");
  EXPECT_EQ(to_begin_with("pH of acetic acid"), "pH of acetic acid");
  EXPECT_EQ(to_begin_with("pKa"), "pKa");
  EXPECT_EQ(to_begin_with("isolated mass of NaCl"), "Isolated mass of NaCl");
  EXPECT_EQ(to_begin_with(""), "");
}

TEST(Sentences, SayPhOnceAndInItsOwnCase) {
  const ToldRecord t("a=0.10 mol/L molar_concentration; p=? pH of acetic acid",
                     "equilibrium: total@CH3COOH=a, pH=p | constants=CH3COOH = H^+ + CH3COO^-: 1.8e-5");
  EXPECT_THAT(t.first().sentence, StartsWith("pH of acetic acid works out to 2.8"));
}

TEST(Sentences, SayAStatedPhOnceToo) {
  const ToldRecord t("a=0.10 mol/L molar_concentration; p=3.87 [pH] pH of acetic acid",
                     "equilibrium: total@CH3COOH=a, pH=p | constants=CH3COOH = H^+ + CH3COO^-: 1.8e-5");
  EXPECT_THAT(t.first().sentence, StartsWith("pH of acetic acid was given as 3.87, but works out to 2.8"));
  EXPECT_EQ(t.first().said->text, "pH 3.87");
  EXPECT_THAT(t.first().culprits.at(0).sentence + t.first().culprits.at(1).sentence, Not(HasSubstr("were pH")));
}

// 5.00 g of toluene (92.14 g/mol) give at most 5.815 g of toluidine (107.16 g/mol): 8.20 g are 141 %.
TEST(Explain, AnOverallYieldOverOneHundredPercentToo) {
  const ToldRecord t("a=5.00 g mass; p=8.20 g mass; o=? percent_yield",
                     "chain: start@C7H8=a, product@2=p, overall_yield=o | equation:1=C7H8 + HNO3 -> C7H7NO2 + H2O; "
                     "equation:2=C7H7NO2 + 3 H2 -> C7H9N + 2 H2O");
  EXPECT_NEAR(t.value("o"), 141.0, 0.1);
  EXPECT_THAT(t.first().remark, HasSubstr("More than 100 %"));
  std::string wet;
  for (const Explanation& e : t.first().explanations) {
    if (e.kind == Explanation::Kind::residual_solvent) wet = e.sentence;
  }
  EXPECT_THAT(wet, HasSubstr("2.4 g of its 8.20 g"));
}

// Permanganate takes up five electrons in acid, three where it goes to the dioxide.
TEST(Titration, GuessesNoneOfSeveralWays) {
  const ToldRecord t(
      "v=20.00 mL volume; c=0.0200 mol/L molar_concentration; s=10.00 mL volume; x=? molar_concentration",
      "titration: titrant_volume=v, titrant_strength=c, sample_volume=s, sample_strength=x | "
      "titrant=KMnO4; analyte=H2C2O4");
  EXPECT_EQ(t.first().verdict, Verdict::unsettled);
  EXPECT_THAT(t.first().sentence,
              HasSubstr("the equation of the reaction (without one it can go in more than one way"));
}

// Five electrons from each permanganate, two to each hydrogensulfite: 2 KMnO4 (158.03 g/mol) take 5 NaHSO3 (104.06
// g/mol); 10.0 g take 16.46 g, of which 15.0 g are 91 %.
TEST(Quench, GoesByEquivalentsWhereNobodyGivesAnEquation) {
  const ToldRecord t("q=10.0 g mass; d=15.0 g mass; k=? percent_other",
                     "quench: target@KMnO4=q, destroyer@NaHSO3=d, margin=k");
  EXPECT_NEAR(t.value("k"), 91.1, 0.1);
  EXPECT_THAT(t.first().notes, Contains(HasSubstr("5 NaHSO₃ go with 2 KMnO₄")));
}

// The silver that thiosulfate leaves free rests on a constant whose sources lie decades apart.
TEST(Sentences, GiveATraceInOrderOfMagnitude) {
  const ToldRecord t("a=0.050 mol/L molar_concentration; b=0.10 mol/L molar_concentration; x=? molar_concentration",
                     "equilibrium: total@AgNO3=a, total@Na2S2O3=b, species@Ag^+=x");
  EXPECT_THAT(t.first().sentence, HasSubstr("in order of magnitude"));
  EXPECT_THAT(t.first().sentence, Not(HasSubstr("±")));
}

TEST(Workings, WriteNoQuantityAsItself) {
  const ToldRecord t(
      "v=20.00 mL volume; c=0.1000 mol/L molar_concentration; s=10.00 mL volume; x=? molar_concentration",
      "titration: titrant_volume=v, titrant_strength=c, sample_volume=s, sample_strength=x | "
      "equation=NaOH + HCl -> NaCl + H2O; titrant=NaOH; analyte=HCl");
  const std::string written = plain_text(t.first().workings);
  for (const auto line : split_lines(written)) {
    const auto sides = split(line, '=');
    ASSERT_GE(sides.size(), 2u) << line;
    EXPECT_NE(trim(sides[0]), trim(sides[1])) << line;
  }
  EXPECT_NEAR(t.value_in("x", "mol/L"), 0.2, 1e-9);
}

// 0.100 mol of something that takes up 25 kJ/mol cools 209 g of water (4.18 J/(g K)) by 2.86 K.
TEST(Workings, PutNegativeFactorsInBracketsAndKeepTemperaturesInCelsius) {
  const ToldRecord t("n=0.100 mol amount; m=209 g mass; a=20.0 Cel temperature; b=? temperature",
                     "heat: amount=n, mass=m, temperature_before=a, temperature_after=b | enthalpy=-25.0 kJ/mol; "
                     "heat_capacity=4.18 J/(g.K)");
  const std::string written = plain_text(t.first().workings);
  EXPECT_THAT(written, HasSubstr("\u2212n ΔH = \u22120.100 mol × (\u221225.0 kJ/mol)"));
  EXPECT_THAT(written, HasSubstr("T(2) = T(1) + ΔT = 20.0 °C + 2.86"));
  EXPECT_NEAR(t.value("b"), 22.86, 0.01);
}

// 2.50 L at 25 °C and 100 kPa: 0.10085 mol, 3.227 g of oxygen (R = 8.314 J/(mol K), 32.00 g/mol).
TEST(Findings, TellEveryFigureThatNobodyStated) {
  const ToldRecord t("V=2.50 L gas_volume; T=25.0 Cel temperature; p=100.0 kPa pressure; n=? amount; m=? mass",
                     "gas_given_off: volume=V, temperature=T, pressure=p, amount=n, mass=m | substance=O2");
  EXPECT_THAT(t.first().sentence, HasSubstr("Besides: mass (3.227"));
  ASSERT_FALSE(t.first().besides.empty());
  EXPECT_EQ(t.first().besides.back().value.figure, t.figure("m"));
  EXPECT_NEAR(t.value_in("m", "g"), 3.227, 0.002);
  EXPECT_THAT(plain_text(t.first().workings), HasSubstr("m = n M(O₂)"));
}

TEST(Findings, NameFiguresByTheirPlaceWhereNothingElseTellsThemApart) {
  const ToldRecord t("a=10.0 mL volume; b=2.00 mol/L molar_concentration; c=? molar_concentration; d=100.0 mL volume",
                     "dilution: volume_before=a, strength_before=b, strength_after=c, volume_after=d");
  EXPECT_THAT(t.first().sentence, StartsWith("Molarity after dilution works out to"));
  const ToldRecord r("a=1.00 g mass; b=? mass", "reaction: used@Mg=a, product@MgO=b | equation=2 Mg + O2 -> 2 MgO");
  EXPECT_THAT(r.first().sentence, StartsWith("Mass of MgO works out to"));
}

TEST(Findings, AShareOfMoreThanTheWholeCannotBe) {
  const ToldRecord t("x=120 % percent_other exact; a=10.0 g mass; b=? mass", "share: part=b, whole=a, fraction=x");
  EXPECT_THAT(t.first().remark, HasSubstr("more than 100 % cannot be a share of the whole"));
  const ToldRecord w("w=150 % mass_percent exact; m=100.0 g mass; s=? mass",
                     "in_solution: strength=w, solution_mass=m, solute_mass=s | substance=NaCl");
  EXPECT_THAT(w.first().remark, HasSubstr("cannot be a share of a solution"));
}

TEST(Findings, AWholeIsNotItsOwnPart) {
  const ToldRecord t("a=5.0 g mass; b=6.0 g mass", "total: part=a, part=b, whole=a");
  EXPECT_EQ(t.first().verdict, Verdict::unsettled);
  EXPECT_THAT(t.first().sentence, HasSubstr("one of its own parts"));
}

// Of Na2S2O3 (158.10 g/mol) two go with one Br2 (159.81 g/mol): 10.0 g of bromine take 19.8 g.
TEST(Quench, SaysHowMuchWouldBeEnough) {
  const ToldRecord t("q=10.0 g mass; d=15.0 g mass",
                     "quench: target@Br2=q, destroyer@Na2S2O3=d | equation=Br2 + 2 Na2S2O3 -> 2 NaBr + Na2S4O6");
  EXPECT_EQ(t.first().verdict, Verdict::conflicts);
  EXPECT_THAT(t.first().notes, Contains(HasSubstr("Just enough would be 19.8 g of Na₂S₂O₃")));
}

// Water boils at 3.17 kPa and 25 °C (Wagner and Pruss, 2002).
TEST(GasOverWater, NeedsMorePressureThanTheWaterHas) {
  const ToldRecord t("p=1.0 kPa pressure; T=25 Cel temperature; V=1.0 L gas_volume; n=? amount",
                     "gas_given_off: amount=n, volume=V, temperature=T, pressure=p | substance=O2; over_water=yes");
  EXPECT_THAT(t.first().sentence, HasSubstr("above that of water vapour alone, 3.17 kPa"));
}

TEST(BadFigures, GetASentenceEach) {
  const auto said = [](const char* figures, const char* relations) {
    return ToldRecord(figures, relations).first().sentence;
  };
  const char* burning = "reaction: used@Cu=a, product@CuO=p | equation=2 Cu + O2 -> 2 CuO";
  EXPECT_THAT(said("a=0 g mass; p=? mass", burning), HasSubstr("a value of mass of Cu used up above zero, not 0 g"));
  EXPECT_THAT(said("a=-5 g mass; p=? mass", burning), HasSubstr("above zero, not \u22125 g"));
  EXPECT_THAT(said("a=1e300 g mass; p=? mass", burning), HasSubstr("too large to compute with"));
  EXPECT_THAT(said("a=1e-300 g mass; p=? mass", burning), HasSubstr("too small to compute with"));
  EXPECT_THAT(said("a=5 s mass; p=? mass", burning), HasSubstr("cannot be the unit of a mass"));
  EXPECT_THAT(said("a=0 mol/L molar_concentration; p=? pH", "equilibrium: total@HCl=a, pH=p"),
              HasSubstr("molarity of HCl above zero"));
}

// Constants of AgCl in two tables: lg K -9.75 (minteq.v4) and 1.6e-10, which is -9.796 (OpenStax Chemistry 2e, Appendix
// J): half their distance over sqrt(3) is 0.0133, of which the solubility, a square root, takes half: 1.53 %.
TEST(Solubility, IsAsUncertainAsTheSourcesOfItsConstantAreApart) {
  const ToldRecord t("s=? molar_concentration", "equilibrium: solubility@AgCl=s");
  const Reckoned r = t.reconciled("s");
  EXPECT_NEAR(r.spread / r.value, 0.0153, 0.001);
}

// 5.00 mL of acetic anhydride (1.08 g/mL, 102.09 g/mol) are 52.9 mmol to 14.5 mmol of salicylic acid (138.12 g/mol).
TEST(Equivalents, AreOfTheReactantThatRunsOutWhereNothingElseIsSaid) {
  const ToldRecord t("a=2.00 g mass; v=5.00 mL volume of acetic anhydride; e=? equivalents",
                     "reaction: reactant@C7H6O3=a, reactant@C4H6O3=v, equivalents@C4H6O3=e | "
                     "equation=C7H6O3 + C4H6O3 -> C9H8O4 + C2H4O2");
  EXPECT_NEAR(t.value("e"), 3.65, 0.02);
}

TEST(Explain, NoHydrateOfWhatHasNone) {
  const ToldRecord t("a=2.00 g mass; p=3.50 g mass; y=? percent_yield",
                     "yield: reactant@C7H6O3=a, actual=p, percent=y | equation=C7H6O3 + C4H6O3 -> C9H8O4 + C2H4O2; "
                     "product=C9H8O4");
  ASSERT_FALSE(t.first().remark.empty());
  for (const Explanation& e : t.first().explanations) EXPECT_NE(e.kind, Explanation::Kind::other_hydrate) << e.sentence;
}

// 14.0 g for 12.56 g of CuSO4 (159.60 g/mol) are 111.5 %; as the monohydrate (177.62 g/mol) 100.2 %, which is as much
// as the digits leave open; as the dihydrate (195.63 g/mol) 91 %.
TEST(Explain, AHydrateByTheTwoYieldsAlone) {
  const ToldRecord t("p=14.0 g mass; t=12.56 g mass; y=? percent_yield",
                     "yield: actual=p, theoretical=t, percent=y | product=CuSO4");
  std::string hydrate;
  for (const Explanation& e : t.first().explanations) {
    if (e.kind == Explanation::Kind::other_hydrate) hydrate = e.sentence;
  }
  EXPECT_THAT(hydrate, HasSubstr("CuSO₄·H₂O (a yield of 100 %)"));
  EXPECT_EQ(t.first().explanations.front().kind, Explanation::Kind::residual_solvent);
}

TEST(Density, OfNitricAcidDoesNotFitAnotherStrength) {
  // 68 % nitric acid weighs 1.40 g/mL (CRC table, 20 °C), not 1.20.
  const ToldRecord t("g=1.20 g/mL density; w=68 % mass_percent; V=10.0 mL volume; n=? amount",
                     "in_solution: density=g, strength=w, solution_volume=V, solute_amount=n | substance=nitric acid");
  EXPECT_EQ(t.first().verdict, Verdict::conflicts);
  std::vector<double> densities;
  for (const Culprit& c : t.first().culprits) {
    if (c.should_be.front().figure == t.figure("g")) densities.push_back(c.should_be.front().value);
  }
  ASSERT_EQ(densities.size(), 1u);
  EXPECT_NEAR(densities[0], 1.40, 0.01);
  EXPECT_THAT(t.everything_said(), Not(HasSubstr("HNO₃·")));
}

}  // namespace
}  // namespace sash::workings
