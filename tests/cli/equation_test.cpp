#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/said.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::cli {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;

std::string first_line(const std::vector<std::string>& words) {
  const std::string out = said(words).out;
  return out.substr(0, out.find('\n'));
}

// Source: OpenStax Chemistry 2e, section 4.2 and chapter 17 write copper in dilute nitric acid so: 3, 8, 3, 2, 4.
TEST(EquationCommand, BalancesInTheOrderWritten) {
  EXPECT_EQ(first_line({"equation", "Cu + HNO3 -> Cu(NO3)2 + NO + H2O"}), "3 Cu + 8 HNO₃ → 3 Cu(NO₃)₂ + 2 NO + 4 H₂O");
  const json j = json::parse(said({"equation", "Cu + HNO3 -> Cu(NO3)2 + NO + H2O", "--json"}).out);
  EXPECT_EQ(j.at("status"), "balanced");
  EXPECT_EQ(j.at("coefficients"), json::parse("[3, 8, 3, 2, 4]"));
  EXPECT_EQ(j.at("balanced"), "3 Cu + 8 HNO3 -> 3 Cu(NO3)2 + 2 NO + 4 H2O");
  EXPECT_TRUE(j.at("why").is_null());
}

TEST(EquationCommand, AcceptsEveryArrow) {
  for (const char* arrow : {"=", "->", "→"})
    EXPECT_EQ(first_line({"equation", std::string("H2 + O2 ") + arrow + " H2O"}), "2 H₂ + O₂ → 2 H₂O") << arrow;
}

TEST(EquationCommand, BalancesThePublishedExamples) {
  for (const auto& row : test::read_table("known/chem/balancing.csv")) {
    const auto inputs = row.pairs("inputs");
    const auto& text = row.at("inputs");
    const std::string equation = text.substr(text.find('=') + 1);
    std::vector<std::int64_t> expected;
    bool numbers = true;
    for (const auto piece : split(row.at("expected"), ',')) {
      const auto n = read_number(trim(piece));
      numbers = numbers && n.has_value();
      if (n) expected.push_back(static_cast<std::int64_t>(*n));
    }
    if (!inputs.contains("equation") || !numbers) continue;
    const Said answer = said({"equation", equation, "--json"});
    ASSERT_EQ(answer.code, fine) << row.at("id") << ' ' << equation << answer.err;
    EXPECT_EQ(json::parse(answer.out).at("coefficients"), json(expected)) << row.at("id") << ' ' << row.at("source");
  }
}

// Source: OpenStax Chemistry 2e, Example 17.2 (permanganate and iron(II) in acid).
TEST(EquationCommand, BalancesCharge) {
  EXPECT_EQ(first_line({"equation", "MnO4^- + Fe^2+ + H^+ -> Mn^2+ + Fe^3+ + H2O"}),
            "MnO₄⁻ + 5 Fe²⁺ + 8 H⁺ → Mn²⁺ + 5 Fe³⁺ + 4 H₂O");
}

TEST(EquationCommand, SaysWhyNoneIsPossible) {
  EXPECT_EQ(said({"equation", "H2 -> O2"}),
            (Said{conflicts_found, "impossible: H stands only on the left; O stands only on the right.\n", ""}));
  const Said told = said({"equation", "H2 -> O2", "--json"});
  EXPECT_EQ(told.code, conflicts_found);
  const json j = json::parse(told.out);
  EXPECT_EQ(j.at("status"), "impossible");
  EXPECT_EQ(j.at("coefficients"), json::array());
  EXPECT_TRUE(j.at("balanced").is_null());
  EXPECT_EQ(j.at("why"), "H stands only on the left; O stands only on the right.");
}

// C burns to CO and to CO2 independently: any mixture of 2 C + O2 -> 2 CO and C + O2 -> CO2 balances.
TEST(EquationCommand, SaysWhenTheAnswerIsNotUnique) {
  const Said told = said({"equation", "C + O2 -> CO + CO2", "--json"});
  EXPECT_EQ(told.code, conflicts_found);
  const json j = json::parse(told.out);
  EXPECT_EQ(j.at("status"), "not unique");
  EXPECT_EQ(j.at("coefficients"), json::array());
  EXPECT_TRUE(j.at("balanced").is_null());
  ASSERT_EQ(j.at("solutions").size(), 2U);
  for (const auto& s : j.at("solutions")) {
    const auto n = s.get<std::vector<std::int64_t>>();
    ASSERT_EQ(n.size(), 4U);
    EXPECT_EQ(n[0], n[2] + n[3]) << "carbon";
    EXPECT_EQ(2 * n[1], n[2] + 2 * n[3]) << "oxygen";
  }
}

TEST(EquationCommand, JudgesCoefficientsThatWereTyped) {
  EXPECT_EQ(first_line({"equation", "2 H2 + O2 -> 2 H2O"}), "Balanced as typed.");
  EXPECT_EQ(first_line({"equation", "1 H2 + O2 -> H2O"}),
            "As typed it does not balance. O: 2 on the left, 1 on the right.");
}

// 0.34 - (-0.7618) V: OpenStax Chemistry 2e, Appendix L. A flame, a precipitation and a half-reaction have no cell.
TEST(EquationCommand, SaysWhetherPotentialsLetARedoxReactionGo) {
  const std::string zinc = said({"equation", "Zn + CuSO4 -> ZnSO4 + Cu"}).out;
  EXPECT_THAT(zinc, HasSubstr("By standard potentials it goes by itself"));
  EXPECT_THAT(zinc, HasSubstr("E° = (1.1018 ± 0.0029) V, n = 2"));
  EXPECT_THAT(said({"equation", "Cu + HCl -> CuCl2 + H2"}).out, HasSubstr("does not go by itself"));
  const json cell = json::parse(said({"equation", "Zn + CuSO4 -> ZnSO4 + Cu", "--json"}).out).at("cell");
  EXPECT_NEAR(cell.at("volts").get<double>(), 1.1018, 1e-9);
  EXPECT_EQ(cell.at("anode").get<std::string>(), "Zn^2+ + 2 e^- -> Zn");
  for (const char* text : {"CH4 + O2 -> CO2 + H2O", "AgNO3 + NaCl -> AgCl + NaNO3", "Cu^2+ + e^- -> Cu"}) {
    EXPECT_FALSE(json::parse(said({"equation", text, "--json"}).out).contains("cell")) << text;
  }
}

// 2 x 1.0080, 2 x 15.999 and their sum by hand: IUPAC 2021 abridged weights.
TEST(EquationCommand, ListsMolesAndMasses) {
  EXPECT_EQ(said({"equation", "H2 + O2 -> H2O"}).out,
            "2 H₂ + O₂ → 2 H₂O\n"
            "              mol       g/mol           g   g to 1 g of H₂\n"
            "  H₂            2       2.016       4.032   1.0000\n"
            "  O₂            1      31.998      31.998   7.9360\n"
            "  H₂O           2      18.015      36.030   8.9360\n");
  const json j = json::parse(said({"equation", "H2 + O2 -> H2O", "--json"}).out);
  EXPECT_NEAR(j.at("ratio").at(2).at("mass").get<double>(), 36.030, 1e-9);
}

// Source: OpenStax Chemistry 2e, Example 4.13: 1.274 g of copper sulfate with zinc in excess gives 0.5072 g of copper.
TEST(EquationCommand, ReckonsWhatFormsFromWhatWasTaken) {
  const json j =
      json::parse(said({"equation", "CuSO4 + Zn -> Cu + ZnSO4", "--take", "1.274 g copper(II) sulfate", "--json"}).out);
  const json& copper = j.at("amounts").at("products").at(0);
  EXPECT_EQ(copper.at("species"), "Cu");
  EXPECT_NEAR(copper.at("formed").at("mass").get<double>(), 0.5072, 5e-5);
  EXPECT_TRUE(j.at("amounts").at("reactants").at(0).at("limiting"));
  EXPECT_FALSE(j.at("amounts").at("reactants").at(1).contains("taken"));
}

// Source: OpenStax Chemistry 2e, Example 4.12: 2.00 g of silicon with 1.50 g of nitrogen; silicon limits.
TEST(EquationCommand, NamesWhatLimitsAndWhatIsLeft) {
  const Said told = said({"equation", "Si + N2 -> Si3N4", "--take", "2.00 g Si", "--take", "1.50 g N2"});
  EXPECT_EQ(told.code, fine) << told.err;
  EXPECT_NE(told.out.find("\nlimiting: Si\n"), std::string::npos) << told.out;
  EXPECT_NE(told.out.find("1.13 times what is needed"), std::string::npos) << told.out;
}

// 25.0 mL of 2.0 mol/L is 0.050 mol; 22.414 L/mol at 0 °C and 101.325 kPa (CODATA 2018).
TEST(EquationCommand, TakesSolutionsAndGivesGasVolumes) {
  const json j = json::parse(said({"equation", "Zn + HCl -> ZnCl2 + H2", "--take", "25.0 mL of 2.0 M HCl", "--celsius",
                                   "0", "--kilopascal", "101.325", "--json"})
                                 .out);
  EXPECT_NEAR(j.at("amounts").at("products").at(1).at("volume").get<double>(), 0.025 * 22.414, 1e-4);
}

// 10 mL of ethanol: density 0.7893 g/mL at 20 °C (CRC Handbook), 46.069 g/mol.
TEST(EquationCommand, TakesLiquidsByVolume) {
  const Said told = said({"equation", "C2H5OH + O2 -> CO2 + H2O", "--take", "10 mL ethanol", "--json"});
  const json j = json::parse(told.out);
  EXPECT_NEAR(j.at("amounts").at("reactants").at(0).at("taken").at("mol").get<double>(), 7.893 / 46.069, 1e-4);
}

TEST(EquationCommand, RefusesWhatCannotBeTaken) {
  const auto refusal = [](const char* take) {
    return said({"equation", "Zn + HCl -> ZnCl2 + H2", "--take", take}).err;
  };
  EXPECT_NE(refusal("5 g gold").find("Au (from '5 g gold') is not in Zn + 2 HCl"), std::string::npos);
  EXPECT_NE(refusal("Zn").find("does not begin with a number"), std::string::npos);
  EXPECT_NE(refusal("5 Zn").find("has no unit"), std::string::npos);
  EXPECT_NE(refusal("0 g Zn").find("must be above 0"), std::string::npos);
  EXPECT_NE(refusal("5 min Zn").find("is no amount of a substance"), std::string::npos);
  EXPECT_NE(refusal("5 g H2").find("stands on the right"), std::string::npos);
}

// Source: Harris, Quantitative Chemical Analysis, section 16-4 (2, 5, 6 -> 2, 5, 8).
TEST(EquationCommand, CompletesAndAddsHalfReactions) {
  EXPECT_TRUE(said({"equation", "MnO4^- -> Mn^2+; H2O2 -> O2", "--in", "acid"})
                  .out.starts_with("  MnO₄⁻ + 8 H⁺ + 5 e⁻ → Mn²⁺ + 4 H₂O\n"
                                   "  H₂O₂ → O₂ + 2 H⁺ + 2 e⁻\n"
                                   "2 MnO₄⁻ + 5 H₂O₂ + 6 H⁺ → 2 Mn²⁺ + 5 O₂ + 8 H₂O\n"));
  EXPECT_EQ(first_line({"equation", "MnO4^- + SO3^2- -> MnO2 + SO4^2-", "--in", "base"}),
            "2 MnO₄⁻ + 3 SO₃²⁻ + H₂O → 2 MnO₂ + 3 SO₄²⁻ + 2 OH⁻");
  EXPECT_EQ(said({"equation", "MnO4- -> Mn2+"}).out,
            "impossible: O stands only on the left.\n"
            "With --in acid it is completed to MnO₄⁻ + 8 H⁺ + 5 e⁻ → Mn²⁺ + 4 H₂O.\n");
  EXPECT_EQ(said({"equation", "MnO4- -> Mn2+", "--in", "vodka"}),
            fault("'vodka' is no medium; --in takes acid or base."));
}

TEST(EquationCommand, AsksForAnArrow) {
  EXPECT_EQ(said({"equation", "H2 + O2"}),
            fault("There is no arrow in 'H2 + O2'; put -> or = between what reacts and what forms."));
}

}  // namespace
}  // namespace sash::cli
