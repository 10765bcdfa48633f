#include "chem/balance.h"

#include <gtest/gtest.h>

namespace sash::chem {
namespace {

Balance balanced(std::string_view text) {
  const auto equation = read_equation(text);
  EXPECT_TRUE(equation.ok()) << text;
  return balance(*equation).value();
}

// Expected equations: OpenStax Chemistry 2e, chapters 4 and 17; the sentences are ours.
TEST(Balance, GivesSmallestWholeCoefficientsInWrittenOrder) {
  const Balance b = balanced("Cu + HNO3 -> Cu(NO3)2 + NO + H2O");
  EXPECT_EQ(b.status, BalanceStatus::balanced);
  EXPECT_EQ(b.coefficients, (Coefficients{3, 8, 3, 2, 4}));
  EXPECT_EQ(b.balanced, "3 Cu + 8 HNO3 -> 3 Cu(NO3)2 + 2 NO + 4 H2O");
  EXPECT_TRUE(b.why.empty());
}

TEST(Balance, IgnoresCoefficientsAlreadyTyped) {
  EXPECT_EQ(balanced("7 H2 + 1/2 O2 -> 9 H2O").coefficients, (Coefficients{2, 1, 2}));
}

TEST(Balance, CountsHalfAWaterExactly) {
  EXPECT_EQ(balanced("CaSO4·2H2O -> CaSO4·0.5H2O + H2O").coefficients, (Coefficients{2, 2, 3}));
}

TEST(Balance, KeepsIsotopesApart) { EXPECT_EQ(balanced("D2O + H2O -> HDO").coefficients, (Coefficients{1, 1, 2})); }

TEST(Balance, NamesTheElementsThatStandOnOneSide) {
  const Balance b = balanced("NaCl + AgNO3 -> AgCl + KNO3");
  EXPECT_EQ(b.status, BalanceStatus::impossible);
  EXPECT_EQ(b.why, "Na stands only on the left; K stands only on the right.");
}

TEST(Balance, NamesTheKindThatBreaksTheRest) {
  // Permanganate and hydrochloric acid with the chlorine gas forgotten.
  const Balance b = balanced("KMnO4 + HCl -> KCl + MnCl2 + H2O");
  EXPECT_EQ(b.status, BalanceStatus::impossible);
  EXPECT_NE(
      b.why.find("Without Cl it would balance as KMnO4 + 8 HCl -> KCl + MnCl2 + 4 H2O, with Cl at 8 on the left and "
                 "3 on the right."),
      std::string::npos)
      << b.why;
}

TEST(Balance, NamesTheChargeWhenOnlyThatIsWrong) {
  const Balance b = balanced("Fe^2+ -> Fe^3+");
  EXPECT_EQ(b.status, BalanceStatus::impossible);
  EXPECT_NE(b.why.find("with charge at 2 on the left and 3 on the right"), std::string::npos) << b.why;
}

TEST(Balance, ShowsTheReactionsThatAreMixed) {
  const Balance b = balanced("Fe + O2 -> FeO + Fe2O3");
  EXPECT_EQ(b.status, BalanceStatus::not_unique);
  EXPECT_EQ(b.solutions.size(), 2U);
  EXPECT_EQ(b.why,
            "2 independent reactions are mixed here, in any proportion: 2 Fe + O2 -> 2 FeO; 4 Fe + 3 O2 -> 2 Fe2O3.");
}

TEST(Balance, SaysWhichSpeciesTakesNoPart) {
  const Balance b = balanced("C12H22O11 + H2SO4 -> C + H2O");
  EXPECT_EQ(b.status, BalanceStatus::impossible);
  EXPECT_EQ(b.why, "H2SO4 would need the coefficient 0: it takes no part as written. S stands only on the left.");
}

TEST(Balance, SaysWhichSpeciesMustChangeSides) {
  const Balance b = balanced("H2O + CO2 -> C6H12O6 + H2");
  EXPECT_EQ(b.status, BalanceStatus::impossible);
  EXPECT_EQ(
      b.why,
      "CO2 and C6H12O6 would have to stand on the other side of the arrow, as in 6 H2O + C6H12O6 -> 6 CO2 + 12 H2.");
}

// Two independent reactions, in none of which the sulfuric acid could take part.
TEST(Balance, FindsIdleSpeciesAmongSeveralReactions) {
  const Balance b = balanced("Fe + O2 + H2SO4 -> FeO + Fe2O3");
  EXPECT_EQ(b.status, BalanceStatus::impossible);
  EXPECT_EQ(b.idle, std::vector<std::size_t>{2});
}

TEST(Verify, PointsAtTheElementThatIsOff) {
  const auto v = verify(*read_equation("Cu + 2 HNO3 -> Cu(NO3)2 + H2O")).value();
  EXPECT_FALSE(v.balanced);
  EXPECT_EQ(v.why, "O: 6 on the left, 7 on the right.");
}

TEST(Verify, AcceptsFractionsAndChecksCharge) {
  EXPECT_TRUE(verify(*read_equation("H2 + 1/2 O2 -> H2O"))->balanced);
  EXPECT_EQ(verify(*read_equation("MnO4^- + 8 H^+ + 4 e^- -> Mn^2+ + 4 H2O"))->why,
            "charge: 3 on the left, 2 on the right.");
}

// OpenStax Chemistry 2e, section 17.1: permanganate and iron(II).
TEST(HalfReactions, CancelTheirElectrons) {
  const auto oxidation = read_equation("Fe^2+ -> Fe^3+ + e^-").value();
  const auto reduction = read_equation("MnO4^- + H^+ + e^- -> Mn^2+ + H2O").value();
  EXPECT_EQ(combine_half_reactions(oxidation, reduction)->plain(),
            "5 Fe^2+ + MnO4^- + 8 H^+ -> 5 Fe^3+ + Mn^2+ + 4 H2O");
  EXPECT_EQ(combine_half_reactions(reduction, oxidation)->plain(),
            "MnO4^- + 8 H^+ + 5 Fe^2+ -> Mn^2+ + 4 H2O + 5 Fe^3+");
}

TEST(HalfReactions, RefuseTwoOfTheSameKind) {
  const auto one = read_equation("Fe^2+ -> Fe^3+ + e^-").value();
  const auto other = read_equation("Zn -> Zn^2+ + e^-").value();
  EXPECT_EQ(combine_half_reactions(one, other).fault().sentence,
            "Both half-reactions give electrons; turn one of them round.");
}

}  // namespace
}  // namespace sash::chem
