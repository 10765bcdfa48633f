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

}  // namespace
}  // namespace sash::chem
