// Atomic weights: Prohaska et al., Pure Appl. Chem. 94 (2022) 573-600, Table 1, abridged: H 1.0080(2), O 15.999(1),
// S 32.06(2), Cu 63.546(3), N 14.007(1), Na 22.990(1). Molar masses below are their sums, worked by hand.
#include <nlohmann/json.hpp>

#include "cli/said.h"

namespace sash::cli {
namespace {

using nlohmann::json;

TEST(FormulaCommand, GivesMolarMassAndComposition) {
  // 63.546 + 32.06 + 9 x 15.999 + 10 x 1.0080 = 249.677; shares: 63.546 / 249.677 and so on.
  EXPECT_EQ(said({"formula", "CuSO4·5H2O"}), (Said{fine,
                                                   "CuSO₄·5H₂O\n"
                                                   "  known as    copper(II) sulfate pentahydrate\n"
                                                   "  molar mass  (249.677 ± 0.013) g/mol\n"
                                                   "  Cu            1 x    63.5460 g/mol    25.451 % of the mass\n"
                                                   "  S             1 x    32.0600 g/mol    12.841 % of the mass\n"
                                                   "  O             9 x    15.9990 g/mol    57.671 % of the mass\n"
                                                   "  H            10 x     1.0080 g/mol     4.037 % of the mass\n"
                                                   "  (IUPAC 2021 abridged standard atomic weights; standard "
                                                   "uncertainty)\n",
                                                   ""}));
}

TEST(FormulaCommand, SaysTheSameToPrograms) {
  const Said answer = said({"formula", "CuSO4·5H2O", "--json"});
  ASSERT_EQ(answer.code, fine) << answer.err;
  EXPECT_EQ(answer.err, "");
  const json j = json::parse(answer.out);
  EXPECT_NEAR(j.at("molar_mass").get<double>(), 249.677, 1e-9);
  // The stated ± are bounds of a rectangular distribution (Possolo et al., Metrologia 55 (2018) 581): divided by
  // the root of 3, sqrt((0.003^2 + 0.02^2 + (9 x 0.001)^2 + (10 x 0.0002)^2) / 3) = 0.01283.
  EXPECT_NEAR(j.at("uncertainty").get<double>(), 0.01283, 5e-6);
  EXPECT_EQ(j.at("composition"), json::parse(R"({"Cu": 1, "S": 1, "O": 9, "H": 10})"));
  EXPECT_NEAR(j.at("mass_fractions").at("Cu").get<double>(), 63.546 / 249.677, 1e-9);
  EXPECT_EQ(j.at("unit"), "g/mol");
  EXPECT_EQ(j.at("charge"), 0);
  EXPECT_TRUE(j.contains("formula"));
}

TEST(FormulaCommand, ReadsBracketsChargesAndOtherDots) {
  const auto ask = [](const char* formula) { return json::parse(said({"formula", formula, "--json"}).out); };
  // 63.546 + 2 x (14.007 + 3 x 15.999)
  EXPECT_NEAR(ask("Cu(NO3)2").at("molar_mass").get<double>(), 187.554, 1e-9);
  // 32.06 + 4 x 15.999
  const json sulfate = ask("SO4^2-");
  EXPECT_NEAR(sulfate.at("molar_mass").get<double>(), 96.056, 1e-3);
  EXPECT_EQ(sulfate.at("charge"), -2);
  for (const char* dot : {"CuSO4*5H2O", "CuSO₄·5H₂O"})
    EXPECT_NEAR(ask(dot).at("molar_mass").get<double>(), 249.677, 1e-9) << dot;
}

TEST(FormulaCommand, ShowsWhereAFormulaGoesWrong) {
  EXPECT_EQ(said({"formula", "Cu(NO3"}), (Said{failed, "",
                                               "sashline: The bracket '(' at character 3 of 'Cu(NO3' is never closed.\n"
                                               "  Cu(NO3\n"
                                               "    ^\n"}));
  // A full stop between digits could be either; it is never guessed.
  EXPECT_EQ(
      said({"formula", "CuSO4.5H2O"}),
      (Said{failed, "",
            "sashline: The full stop at character 6 of 'CuSO4.5H2O' can be a dot before 5 or the decimal point of "
            "4.5; type 'CuSO4·5H2O' (or * for the dot) if it is a dot.\n"
            "  CuSO4.5H2O\n"
            "       ^\n"
            "  CuSO4·5H2O\n"}));
  const Said unknown = said({"formula", "H2Xq"});
  EXPECT_EQ(unknown.code, failed);
  EXPECT_EQ(unknown.out, "");
  EXPECT_NE(unknown.err.find("Unknown element 'Xq' at character 3 of 'H2Xq'"), std::string::npos) << unknown.err;
  EXPECT_NE(unknown.err.find("\n  H2Xq\n    ^\n"), std::string::npos) << unknown.err;
  EXPECT_EQ(said({"formula", ""}), fault("Nothing to read: type a formula, such as H2O."));
}

TEST(FormulaCommand, TakesNames) {
  const auto mass = [](const char* name) {
    return json::parse(said({"formula", name, "--json"}).out).at("molar_mass").get<double>();
  };
  EXPECT_NEAR(mass("blue vitriol"), 249.677, 1e-9);
  EXPECT_NEAR(mass("copper(II) sulphate pentahydrate"), 249.677, 1e-9);
  // Acronyms that read as formulas of other things: KHC8H4O4, 39.098 + 5 x 1.0080 + 8 x 12.011 + 4 x 15.999.
  EXPECT_NEAR(mass("KHP"), 204.222, 1e-9);
  EXPECT_NEAR(mass("Glauber’s salt"), 322.186, 1e-9);
}

// Glucose, fructose and their kin share a formula; none of them is preferred.
TEST(FormulaCommand, NamesEveryIsomerItKnows) {
  const json names = json::parse(said({"formula", "C6H12O6", "--json"}).out).at("names");
  EXPECT_GE(names.size(), 2U);
}

}  // namespace
}  // namespace sash::cli
