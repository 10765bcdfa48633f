#include "chem/redox.h"

#include <gtest/gtest.h>

namespace sash::chem {
namespace {

Completion completed(std::string_view text, Medium medium) {
  const auto equation = read_equation(text);
  EXPECT_TRUE(equation.ok()) << text;
  return complete(*equation, medium).value();
}

std::string in_acid(std::string_view text) {
  const Completion c = completed(text, Medium::acid);
  return c.equation ? c.equation->plain() : c.why;
}

std::string in_base(std::string_view text) {
  const Completion c = completed(text, Medium::base);
  return c.equation ? c.equation->plain() : c.why;
}

std::string halves(std::string_view one, std::string_view other, Medium medium) {
  const auto sum = complete_halves(read_equation(one).value(), read_equation(other).value(), medium);
  return sum ? sum->equation->plain() : sum.fault().sentence;
}

// Expected half-reactions: standard electrode potential tables (CRC Handbook, "Electrochemical series").
TEST(Completion, AddsElectronsToAHalfReactionInAcid) {
  EXPECT_EQ(in_acid("MnO4^- -> Mn^2+"), "MnO4^- + 8 H^+ + 5 e^- -> Mn^2+ + 4 H2O");
  EXPECT_EQ(in_acid("Cr2O7^2- -> Cr^3+"), "Cr2O7^2- + 14 H^+ + 6 e^- -> 2 Cr^3+ + 7 H2O");
  EXPECT_EQ(in_acid("H2O2 -> H2O"), "H2O2 + 2 H^+ + 2 e^- -> 2 H2O");
  EXPECT_EQ(in_acid("O2 -> H2O2"), "O2 + 2 H^+ + 2 e^- -> H2O2");
  EXPECT_EQ(in_acid("O2 -> H2O"), "O2 + 4 H^+ + 4 e^- -> 2 H2O");
  EXPECT_EQ(in_acid("H^+ -> H2"), "2 H^+ + 2 e^- -> H2");
  EXPECT_EQ(in_acid("NO3^- -> NO"), "NO3^- + 4 H^+ + 3 e^- -> NO + 2 H2O");
  EXPECT_EQ(in_acid("Fe^2+ -> Fe^3+"), "Fe^2+ -> Fe^3+ + e^-");
}

TEST(Completion, AddsElectronsToAHalfReactionInBase) {
  EXPECT_EQ(in_base("MnO4^- -> MnO2"), "MnO4^- + 3 e^- + 2 H2O -> MnO2 + 4 OH^-");
  EXPECT_EQ(in_base("ClO^- -> Cl^-"), "ClO^- + 2 e^- + H2O -> Cl^- + 2 OH^-");
  EXPECT_EQ(in_base("H2O -> H2"), "2 e^- + 2 H2O -> H2 + 2 OH^-");
  EXPECT_EQ(in_base("Ag2O -> Ag"), "Ag2O + 2 e^- + H2O -> 2 Ag + 2 OH^-");
  EXPECT_TRUE(completed("MnO4^- -> MnO2", Medium::base).half_reaction);
}

// OpenStax Chemistry 2e, section 17.1 and chapter 4 (redox in acid and base).
TEST(Completion, FindsTheWaterAndAcidOfAWholeEquation) {
  EXPECT_EQ(in_acid("Cr2O7^2- + Fe^2+ -> Cr^3+ + Fe^3+"), "Cr2O7^2- + 6 Fe^2+ + 14 H^+ -> 2 Cr^3+ + 6 Fe^3+ + 7 H2O");
  EXPECT_EQ(in_base("MnO4^- + Cr(OH)3 -> MnO2 + CrO4^2-"), "MnO4^- + Cr(OH)3 + OH^- -> MnO2 + CrO4^2- + 2 H2O");
  EXPECT_EQ(in_base("Cl2 -> Cl^- + ClO3^-"), "3 Cl2 + 6 OH^- -> 5 Cl^- + ClO3^- + 3 H2O");
  EXPECT_FALSE(completed("Cl2 -> Cl^- + ClO3^-", Medium::base).half_reaction);
}

// Peroxide and its oxygen share nothing with the other couple but O and H: electrons settle it. 2, 5, 6 is the
// titration of hydrogen peroxide in every textbook (Harris, Quantitative Chemical Analysis, section 16-4).
TEST(Completion, LetsElectronsDecideBetweenCouplesOfOxygen) {
  const Completion c = completed("MnO4^- + H2O2 -> Mn^2+ + O2", Medium::acid);
  ASSERT_TRUE(c.equation);
  EXPECT_EQ(c.equation->plain(), "2 MnO4^- + 5 H2O2 + 6 H^+ -> 2 Mn^2+ + 5 O2 + 8 H2O");
  ASSERT_EQ(c.halves.size(), 2U);
  EXPECT_EQ(c.halves[1].plain(), "H2O2 -> O2 + 2 H^+ + 2 e^-");
}

TEST(Completion, AddsCompletedHalves) {
  EXPECT_EQ(halves("MnO4^- -> Mn^2+", "C2O4^2- -> CO2", Medium::acid),
            "2 MnO4^- + 5 C2O4^2- + 16 H^+ -> 2 Mn^2+ + 10 CO2 + 8 H2O");
  EXPECT_EQ(halves("MnO4^- -> MnO2", "SO3^2- -> SO4^2-", Medium::base),
            "2 MnO4^- + 3 SO3^2- + H2O -> 2 MnO2 + 3 SO4^2- + 2 OH^-");
  EXPECT_EQ(halves("Al -> [Al(OH)4]^-", "NO3^- -> NH3", Medium::base),
            "8 Al + 3 NO3^- + 5 OH^- + 18 H2O -> 8 [Al(OH)4]^- + 3 NH3");
}

TEST(Completion, ReplacesTheIonOfTheOtherMediumAndKeepsTypedHydronium) {
  EXPECT_EQ(in_base("MnO4^- + I^- + H^+ -> MnO2 + I2 + H2O"), "2 MnO4^- + 6 I^- + 4 H2O -> 2 MnO2 + 3 I2 + 8 OH^-");
  EXPECT_EQ(in_acid("H3O^+ + Zn -> Zn^2+ + H2"), "Zn + 2 H3O^+ -> Zn^2+ + H2 + 2 H2O");
}

TEST(Completion, GivesAddedSpeciesAStateWhereTheOthersHaveOne) {
  EXPECT_EQ(in_acid("MnO4^-(aq) + Fe^2+(aq) -> Mn^2+(aq) + Fe^3+(aq)"),
            "MnO4^-(aq) + 5 Fe^2+(aq) + 8 H^+(aq) -> Mn^2+(aq) + 5 Fe^3+(aq) + 4 H2O(l)");
}

TEST(Completion, SaysWhichElementKeepsItFromBalancing) {
  const Completion c = completed("MnO4^- -> Fe^3+", Medium::acid);
  EXPECT_EQ(c.status, BalanceStatus::impossible);
  EXPECT_NE(c.why.find("Mn stands only on the left; Fe stands only on the right."), std::string::npos) << c.why;
}

TEST(Completion, ShowsTheFamilyWhereElectronsLeaveItOpen) {
  const Completion c = completed("Cu + HNO3 -> Cu^2+ + NO + NO2", Medium::acid);
  EXPECT_EQ(c.status, BalanceStatus::not_unique);
  EXPECT_GE(c.solutions.size(), 2U);
  for (const Equation& e : c.solutions) EXPECT_TRUE(verify(e)->balanced) << e.plain();
}

TEST(Completion, KeepsAtomsAndChargeInEveryAnswer) {
  for (const char* text :
       {"MnO4^- -> Mn^2+", "IO3^- + I^- -> I2", "ClO2 -> ClO2^- + ClO3^-", "P4 -> PH3 + H2PO2^-", "VO2^+ -> V^2+",
        "S2O3^2- -> SO4^2-", "NH3 + ClO^- -> N2H4 + Cl^-", "As2S3 + NO3^- -> AsO4^3- + SO4^2- + NO",
        "C2H5OH + Cr2O7^2- -> CH3COOH + Cr^3+", "CN^- + ClO^- -> CNO^- + Cl^-", "Pb -> PbO2", "BH4^- -> B(OH)4^-"}) {
    for (const Medium medium : {Medium::acid, Medium::base}) {
      const Completion c = completed(text, medium);
      ASSERT_TRUE(c.equation) << text << ' ' << c.why;
      EXPECT_TRUE(verify(*c.equation)->balanced) << c.equation->plain();
    }
  }
}

TEST(Completion, RefusesWaterAlone) {
  const auto none = complete(read_equation("H2O -> H^+ + OH^-").value(), Medium::acid);
  ASSERT_FALSE(none.ok());
  EXPECT_EQ(none.fault().code, Code::wrong_use);
}

}  // namespace
}  // namespace sash::chem
