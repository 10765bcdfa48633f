#include "chem/equation.h"

#include <gtest/gtest.h>

namespace sash::chem {
namespace {

std::string reread(std::string_view text) {
  const auto equation = read_equation(text);
  return equation ? equation->plain() : "refused: " + equation.fault().sentence;
}

TEST(EquationText, AcceptsEveryArrow) {
  for (const char* arrow : {"=", "->", "-->", "→", "=>", "⟶", "==", "–>"}) {
    EXPECT_EQ(reread(std::string("2 H2 + O2 ") + arrow + " 2 H2O"), "2 H2 + O2 -> 2 H2O") << arrow;
    EXPECT_EQ(reread(std::string("2H2+O2") + arrow + "2H2O"), "2 H2 + O2 -> 2 H2O") << arrow;
  }
  for (const char* arrow : {"⇌", "<=>", "<->", "⇄"}) {
    EXPECT_EQ(reread(std::string("N2O4 ") + arrow + " 2 NO2"), "N2O4 <=> 2 NO2") << arrow;
  }
}

TEST(EquationText, TellsChargesFromPlusSigns) {
  EXPECT_EQ(reread("Ag+ + Cl- -> AgCl"), "Ag^+ + Cl^- -> AgCl");
  EXPECT_EQ(reread("Ag^++Cl^-->AgCl"), "Ag^+ + Cl^- -> AgCl");
  EXPECT_EQ(reread("Ag⁺ + Cl⁻ → AgCl"), "Ag^+ + Cl^- -> AgCl");
  EXPECT_EQ(reread("Fe^3++e^-=Fe^2+"), "Fe^3+ + e^- -> Fe^2+");
  EXPECT_EQ(reread("Na+(aq) + Cl-(aq) -> NaCl(s)"), "Na^+(aq) + Cl^-(aq) -> NaCl(s)");
  EXPECT_EQ(reread("H+ + OH- -> H2O"), "H^+ + OH^- -> H2O");
  EXPECT_EQ(reread("Cu^{2+} + 2e- -> Cu"), "Cu^2+ + 2 e^- -> Cu");
  EXPECT_EQ(reread("2NH4+ + S2- -> (NH4)2S"), "2 NH4^+ + S^2- -> (NH4)2S");
}

TEST(EquationText, KeepsStatesAndReadsArrowsAsStates) {
  EXPECT_EQ(reread("Zn(s) + 2HCl(aq) -> ZnCl2(aq) + H2↑"), "Zn(s) + 2 HCl(aq) -> ZnCl2(aq) + H2(g)");
  EXPECT_EQ(reread("AgNO3 + NaCl → AgCl↓ + NaNO3"), "AgNO3 + NaCl -> AgCl(s) + NaNO3");
  EXPECT_EQ(reread("Cu + 4 HNO3(conc.) -> Cu(NO3)2 + 2 NO2(g) + 2 H2O(l)"),
            "Cu + 4 HNO3(aq) -> Cu(NO3)2 + 2 NO2(g) + 2 H2O(l)");
}

TEST(EquationText, SetsReagentsOnTheArrowAside) {
  for (const char* text : {"C2H5OH -[H2SO4, heat]-> C2H4 + H2O", "C2H5OH ->[H2SO4, heat] C2H4 + H2O"}) {
    const auto equation = read_equation(text);
    ASSERT_TRUE(equation.ok()) << text << equation.fault().sentence;
    EXPECT_EQ(equation->on_arrow(), "H2SO4, heat");
    EXPECT_EQ(equation->plain(), "C2H5OH -> C2H4 + H2O");
  }
  EXPECT_EQ(reread("AgCl + 2NH3 ->[Ag(NH3)2]^+ + Cl^-"), "AgCl + 2 NH3 -> [Ag(NH3)2]^+ + Cl^-");
  EXPECT_EQ(reread("Fe^2+ + 6CN^- ->[Fe(CN)6]4-"), "Fe^2+ + 6 CN^- -> [Fe(CN)6]^4-");
}

TEST(EquationText, TakesFractionCoefficients) {
  EXPECT_EQ(reread("H2 + 1/2 O2 -> H2O"), "H2 + 1/2 O2 -> H2O");
  EXPECT_EQ(reread("H2 + ½O2 -> H2O"), "H2 + 1/2 O2 -> H2O");
  EXPECT_EQ(reread("H2 + 0.5 O2 -> H2O"), "H2 + 1/2 O2 -> H2O");
}

TEST(EquationText, SaysWhatIsWrongAndWhere) {
  EXPECT_EQ(reread("H2 + O2"),
            "refused: There is no arrow in 'H2 + O2'; put -> or = between what reacts and what forms.");
  EXPECT_EQ(reread("H2 -> O2 -> H2O"), "refused: 'H2 -> O2 -> H2O' has 2 arrows; write one step at a time.");
  EXPECT_EQ(reread(" -> H2O"), "refused: Nothing stands before the arrow of ' -> H2O'.");
  EXPECT_EQ(reread("H2 + + O2 -> H2O"), "refused: A plus in 'H2 + + O2 -> H2O' has no species beside it.");
  EXPECT_EQ(reread("H2 + Oq2 -> H2O"), "refused: Unknown element 'Oq' at character 1 of 'Oq2'; did you mean 'O'?");
  EXPECT_EQ(reread("0 H2 -> H2"),
            "refused: '0' before ' H2' is no coefficient; type a number above 0, such as 2, 1/2 or 0.5.");
  const auto fault = read_equation("H2 + Oq2 -> H2O").fault();
  EXPECT_EQ(fault.offending, "H2 + Oq2 -> H2O");
  EXPECT_EQ(*fault.place, 5U);
}

// Spellings met in textbooks, lecture notes and captions; what each means is plain from the chemistry.
TEST(EquationText, TakesArrowsOfAnyLengthAndLabelsDrawnIntoThem) {
  for (const char* arrow : {"---->", "===>", "⟹", "➜", "➔", "⇒"})
    EXPECT_EQ(reread(std::string("H2 + Cl2 ") + arrow + " 2 HCl"), "H2 + Cl2 -> 2 HCl") << arrow;
  EXPECT_EQ(reread("H2 + I2 ⇔ 2 HI"), "H2 + I2 <=> 2 HI");
  for (const char* arrow :
       {"--heat-->", "-(MnO2, heat)->", "-MnO2->", "--Δ-->", "→(Δ)", "->[MnO2][heat]", "-[MnO2]->"}) {
    const auto read = read_equation(std::string("2 KClO3 ") + arrow + " 2 KCl + 3 O2");
    ASSERT_TRUE(read.ok()) << arrow << ' ' << read.fault().sentence;
    EXPECT_EQ(read->plain(), "2 KClO3 -> 2 KCl + 3 O2") << arrow;
    EXPECT_FALSE(read->on_arrow().empty()) << arrow;
  }
  EXPECT_EQ(read_equation("N2 + 3 H2 ⇌[Fe][450 °C] 2 NH3")->on_arrow(), "Fe, 450 °C");
  EXPECT_EQ(reread("(NH4)2CO3 ->(NH4)2O + CO2"), "(NH4)2CO3 -> (NH4)2O + CO2");
}

TEST(EquationText, TellsDoubleBondsFromTheSignBetweenTheSides) {
  EXPECT_EQ(reread("CH2=CH2 + Br2 = CH2Br-CH2Br"), "CH2=CH2 + Br2 -> CH2Br-CH2Br");
  EXPECT_EQ(reread("HC≡CH + H2 -> CH2=CH2"), "HC#CH + H2 -> CH2=CH2");
  EXPECT_EQ(reread("2H2+O2=2H2O"), "2 H2 + O2 -> 2 H2O");
}

TEST(EquationText, KeepsTheStateOfANamedForm) {
  EXPECT_EQ(reread("C(s, graphite) + O2(g) -> CO2(g)"), "C(s) + O2(g) -> CO2(g)");
  EXPECT_EQ(reread("C(graphite) + O2(g) -> CO2(g)"), "C(s) + O2(g) -> CO2(g)");
  EXPECT_EQ(reread("Ag^+(aq) + Cl^-(aq) -> AgCl(s)↓"), "Ag^+(aq) + Cl^-(aq) -> AgCl(s)");
  EXPECT_EQ(reread("2 H2 (g) + O2 (g) -> 2 H2O (ℓ)"), "2 H2(g) + O2(g) -> 2 H2O(l)");
}

TEST(EquationText, ReadsChargesInBracketsAndAfterTheirSign) {
  EXPECT_EQ(reread("Cr2O7(2-) + 14 H(+) + 6 e^- -> 2 Cr(3+) + 7 H2O"), "Cr2O7^2- + 14 H^+ + 6 e^- -> 2 Cr^3+ + 7 H2O");
  EXPECT_EQ(reread("SO4-2 + Ba+2 -> BaSO4"), "SO4^2- + Ba^2+ -> BaSO4");
  EXPECT_EQ(reread("Ag+ + Cl- -> AgCl"), "Ag^+ + Cl^- -> AgCl");
}

TEST(EquationText, RefusesEnergiesAndADashThatMayBeACharge) {
  EXPECT_EQ(reread("2 H2 + O2 -> 2 H2O + 572 kJ"),
            "refused: '572 kJ' is an energy and no species; leave it out of the equation.");
  const auto glued = read_equation("H+ + OH-->H2O");
  ASSERT_FALSE(glued.ok());
  EXPECT_EQ(glued.fault().code, Code::ambiguous);
  EXPECT_EQ(glued.fault().place, 7U);
  EXPECT_EQ(reread("CaCO3-->CaO + CO2"), "CaCO3 -> CaO + CO2");
}

}  // namespace
}  // namespace sash::chem
