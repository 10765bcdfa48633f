// Cell potentials, Gibbs energies, constants and the Nernst equation: worked examples of OpenStax Chemistry 2e, section
// 17.4, with the potentials of its Appendix L.
#include "chem/cell.h"

#include <gtest/gtest.h>

#include <cmath>

namespace sash::chem {
namespace {

Cell cell(std::string_view text) {
  const auto found = cell_of(*read_equation(text));
  EXPECT_TRUE(found) << text << (found ? "" : found.fault().sentence);
  return found.value_or(Cell{});
}

TEST(Cell, GivesPotentialGibbsEnergyAndConstant) {
  const Cell silver = cell("Fe + 2 Ag^+ -> Fe^2+ + 2 Ag");
  EXPECT_NEAR(silver.volts, 1.247, 0.0005);
  EXPECT_EQ(silver.electrons, 2);
  EXPECT_NEAR(silver.gibbs(), -240.6, 0.1);
  EXPECT_NEAR(silver.log_k(), 42.128, 0.05);  // the book rounds 0.05916 to 0.0592
  // "Check your learning" there takes 0.0592 too: 6.8e9, from E = 0.291 V.
  const Cell tin = cell("Sn + 2 Cu^2+ -> Sn^2+ + 2 Cu^+");
  EXPECT_NEAR(tin.volts, 0.291, 0.0006);
  EXPECT_NEAR(tin.gibbs(), -56.2, 0.15);
  EXPECT_NEAR(tin.log_k(), std::log10(6.8e9), 0.03);
}

TEST(Cell, CountsElectronsOfTheEquationAsWritten) {
  EXPECT_EQ(cell("2 Al + 3 Cu^2+ -> 2 Al^3+ + 3 Cu").electrons, 6);
  EXPECT_EQ(cell("Al + Cu^2+ -> Al^3+ + Cu").electrons, 6);
  // Section 17.1: permanganate and iron(II); E = 1.507 - 0.771 V.
  const Cell permanganate = cell("MnO4^- + 5 Fe^2+ + 8 H^+ -> Mn^2+ + 5 Fe^3+ + 4 H2O");
  EXPECT_NEAR(permanganate.volts, 0.736, 1e-9);
  EXPECT_EQ(permanganate.electrons, 5);
}

TEST(Cell, SeesWhatDoesNotGo) {
  // Copper and dilute acid, cobalt and iron(II): nothing happens.
  EXPECT_NEAR(cell("Cu + 2 H^+ -> Cu^2+ + H2").volts, -0.34, 1e-9);
  EXPECT_NEAR(cell("Co + Fe^2+ -> Co^2+ + Fe").volts, -0.17, 0.005);
  EXPECT_NE(cell_sentence(cell("Cu + 2 H^+ -> Cu^2+ + H2")).find("does not go by itself"), std::string::npos);
}

TEST(Cell, TakesSaltsAndAcidsApart) {
  EXPECT_NEAR(cell("Zn + CuSO4 -> ZnSO4 + Cu").volts, 1.1018, 1e-9);
  EXPECT_NEAR(cell("Zn + 2 HCl -> ZnCl2 + H2").volts, 0.7618, 1e-9);
  EXPECT_NEAR(cell("3 Cu + 8 HNO3 -> 3 Cu(NO3)2 + 2 NO + 4 H2O").volts, 0.957 - 0.34, 1e-9);
  EXPECT_NEAR(cell("Cl2 + 2 KI -> 2 KCl + I2").volts, 1.35827 - 0.5355, 1e-9);
}

TEST(Cell, KeepsAcidAndBaseApart) {
  // Disproportionation of chlorine in alkali needs couples of alkali only; the table has none for Cl2 and ClO-.
  EXPECT_EQ(cell_of(*read_equation("Cl2 + 2 OH^- -> Cl^- + ClO^- + H2O")).fault().code, Code::not_found);
  // Zinc and water in alkali: -0.8277 - (-1.199) V.
  EXPECT_NEAR(cell("Zn + 2 OH^- + 2 H2O -> [Zn(OH)4]^2- + H2").volts, 0.3713, 1e-9);
}

TEST(Cell, SaysWhatItCannotSay) {
  EXPECT_EQ(cell_of(*read_equation("HCl + NaOH -> NaCl + H2O")).fault().code, Code::not_found);
  EXPECT_EQ(cell_of(*read_equation("Cu -> Ag")).fault().code, Code::impossible);
  EXPECT_EQ(cell_of(*read_equation("2 H2 + O2 -> 2 H2O")).fault().code, Code::not_found);
}

// Example 17.7 and what follows it: -0.14 V; n = 6, Q = 1440, +1.97 V; concentration cell +0.021 V.
TEST(Nernst, ReproducesTheBook) {
  EXPECT_NEAR(nernst(-0.17, 2, 0.15 / 1.94), -0.14, 0.005);
  EXPECT_NEAR(nernst(cell("2 Al + 3 Cu^2+ -> 2 Al^3+ + 3 Cu").volts, 6, 0.15 * 0.15 / std::pow(0.025, 3)), 1.97, 0.005);
  EXPECT_NEAR(nernst(0, 2, 0.10 / 0.50), 0.021, 0.0005);
}

// Exercises at the end of section 17.4: -83.7 and +235.3 kJ/mol.
TEST(Cell, TurnsVoltsIntoKilojoules) {
  Cell c;
  c.electrons = 2;
  c.volts = 0.434;
  EXPECT_NEAR(c.gibbs(), -83.7, 0.06);
  c.electrons = 1;
  c.volts = -2.439;
  EXPECT_NEAR(c.gibbs(), 235.3, 0.06);
}

TEST(PotentialTable, IsBalancedAndWrittenAsReductions) {
  EXPECT_GT(standard_potentials().size(), 120u);
  for (const StandardPotential& p : standard_potentials()) {
    EXPECT_TRUE(verify(p.reduction)->balanced) << p.reduction.plain();
    bool takes = false;
    for (std::size_t i = 0; i < p.reduction.all().size(); ++i) {
      takes = takes || (p.reduction.all()[i].formula.is_electron() && p.reduction.on_left(i));
    }
    EXPECT_TRUE(takes) << p.reduction.plain();
    EXPECT_FALSE(p.source.empty());
  }
}

}  // namespace
}  // namespace sash::chem
