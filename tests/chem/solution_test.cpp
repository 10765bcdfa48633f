#include "chem/solution.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "chem/commercial.h"

namespace sash::chem {
namespace {

// CRC Handbook, 102nd ed., 20 C: H2SO4 96 % is 1.8355 g/mL and 17.966 mol/L.
TEST(Solution, AllStrengthsOfOneSolutionAgree) {
  const Solution s = *solution_of("H2SO4", StrengthKind::mass_fraction, 0.96);
  EXPECT_NEAR(s.molarity, 17.966, 0.002);
  EXPECT_NEAR(solution_of("sulfuric acid", StrengthKind::molarity, s.molarity)->w, 0.96, 1e-6);
  EXPECT_NEAR(solution_of("H2SO4", StrengthKind::molality, s.molality)->w, 0.96, 1e-9);
  EXPECT_NEAR(solution_of("H2SO4", StrengthKind::grams_per_litre, s.grams_per_litre)->w, 0.96, 1e-6);
  EXPECT_NEAR(solution_of("H2SO4", StrengthKind::mass_per_volume, s.grams_per_litre / 1000)->w, 0.96, 1e-6);
}

TEST(Solution, OutsideTheTablesIsRefusedWithWhatIsCovered) {
  const auto too_strong = solution_of("NaCl", StrengthKind::mass_fraction, 0.5);
  ASSERT_FALSE(too_strong);
  EXPECT_EQ(too_strong.fault().code, Code::out_of_range);
  EXPECT_EQ(too_strong.fault().sentence,
            "The tables know solutions of NaCl up to 26 % at 20 °C, and up to 26.5899 % from 0 to 140 °C, not 50 % at "
            "20 °C; state the density.");
  EXPECT_EQ(solution_of("NaCl", StrengthKind::mass_fraction, 0.1, 150).fault().code, Code::out_of_range);
  EXPECT_EQ(solution_of("NaCl", StrengthKind::mass_fraction, -0.1).fault().code, Code::out_of_range);
  EXPECT_EQ(solution_of("NaCl", StrengthKind::molarity, 50).fault().code, Code::out_of_range);
  EXPECT_EQ(solution_of("unobtainium chloride", StrengthKind::molarity, 1).fault().code, Code::unknown_name);
}

TEST(Solution, AStatedDensityNeedsNoTable) {
  // OpenStax Chemistry 2e, Example 3.22 form: 20.2 % HCl, 1.10 g/mL is 6.09 mol/L.
  const auto s = solution_of("HCl", StrengthKind::mass_fraction, 0.202, 20, 1.10);
  ASSERT_TRUE(s);
  EXPECT_NEAR(s->molarity, 6.09, 0.01);
}

TEST(Solution, EqualVolumesOfEthanolAndWaterShrink) {
  // 50 mL + 50 mL: about 96 to 97 mL (common practice; here from the CRC table itself).
  const std::array portions{Portion{50 * 0.7893, 1}, Portion{50 * 0.9982, 0}};
  const auto mixed = mix("ethanol", portions);
  ASSERT_TRUE(mixed);
  EXPECT_NEAR(mixed->apart, 100, 0.05);
  EXPECT_NEAR(mixed->millilitres, 96.4, 0.3);
  EXPECT_GT(mixed->lost(), 3);
}

TEST(Solution, ARecipeKeepsTheSolute) {
  const Solution stock = commercial_solution("concentrated hydrochloric acid")->solution;
  const Solution wanted = *solution_of("HCl", StrengthKind::molarity, 1);
  const Recipe recipe = *dilute(stock, wanted, 1000);
  EXPECT_NEAR(recipe.stock_grams * stock.w / stock.molar_mass, 1, 1e-6);
  EXPECT_NEAR(recipe.stock_millilitres, 83, 1.5);  // bench rule: 83 mL of concentrated acid in a litre gives 1 M
  EXPECT_EQ(dilute(wanted, stock, 100).fault().code, Code::impossible);
}

TEST(Solution, FormulasOfSeveralSugarsAreSettledByName) {
  EXPECT_NEAR(solution_density("sucrose", 0.40)->value, 1.1765, 0.00005);  // CRC
  EXPECT_NE(solution_density("lactose", 0.10)->value, solution_density("maltose", 0.10)->value);
  EXPECT_EQ(solution_density("C3H8O", 0.10).fault().code, Code::ambiguous);
  EXPECT_FALSE(solution_density("dimethyl ether", 0.10));
}

TEST(Solution, SpecificGravityFindsBothStrengthsOfSulfuricAcid) {
  const auto two = strengths_at_density("H2SO4", 1.8350);
  ASSERT_TRUE(two);
  ASSERT_EQ(two->size(), 2u);
  EXPECT_NEAR(two->front(), 0.96, 0.005);
  EXPECT_GT(two->back(), 0.985);
  EXPECT_EQ(strengths_at_density("H2SO4", 3).fault().code, Code::out_of_range);
}

TEST(Commercial, NamesCarryTheirAssumption) {
  const auto nitric = commercial_solution("conc nitric acid");
  ASSERT_TRUE(nitric);
  EXPECT_EQ(nitric->assumption, "Taken as 68 % HNO3 by mass; labels give 65 to 71 %.");
  EXPECT_NEAR(nitric->solution.molarity, 15.8, 0.7);  // OpenStax Appendix F: 16.0 mol/L at 71 %
  EXPECT_NEAR(commercial_solution("concentrated sulphuric acid")->solution.molarity, 18.0, 0.1);  // Appendix F
  EXPECT_NEAR(commercial_solution("glacial acetic acid")->solution.molarity, 17.4, 0.1);          // Appendix F
  EXPECT_NEAR(commercial_solution("concentrated ammonia")->solution.molarity, 14.8, 0.1);         // Appendix F
  const auto unknown = commercial_solution("concentrated nitrik acid");
  ASSERT_FALSE(unknown);
  ASSERT_FALSE(unknown.fault().others.empty());
  EXPECT_EQ(unknown.fault().others.front(), "concentrated nitric acid");
}

TEST(Solution, TheModelJoinsTheMeasuredCurve) {
  // Textbook figure: 50 % NaOH is 1.525 g/mL, 19.1 mol/L (OpenStax Chemistry 2e, Appendix F prints 1.53 and 19.1).
  EXPECT_NEAR(solution_density("NaOH", 0.50)->value, 1.525, 0.008);
  for (const char* solute : {"NaOH", "HNO3", "H3PO4", "NH3", "KOH", "CaCl2"}) {
    const double end = *strongest_covered(solute);
    for (double w = 0.01; w < end; w += 0.0005) {
      const double step = solution_density(solute, w)->value - solution_density(solute, w - 0.0005)->value;
      EXPECT_LT(std::abs(step), 0.001) << solute << " at " << w;
    }
  }
}

TEST(Commercial, EveryNameGivesASolution) {
  for (const char* name : {"fuming nitric acid",
                           "battery acid",
                           "concentrated phosphoric acid",
                           "household ammonia",
                           "concentrated sodium hydroxide",
                           "concentrated perchloric acid",
                           "concentrated hydrobromic acid",
                           "concentrated hydroiodic acid",
                           "concentrated hydrofluoric acid",
                           "concentrated formic acid",
                           "muriatic acid",
                           "vinegar",
                           "perhydrol",
                           "drugstore peroxide",
                           "bleach",
                           "pool bleach",
                           "rubbing alcohol",
                           "rectified spirit",
                           "formalin",
                           "brine"}) {
    const auto known = commercial_solution(name);
    ASSERT_TRUE(known) << name << ": " << known.fault().sentence;
    EXPECT_GT(known->solution.molarity, 0) << name;
  }
}

TEST(Water, DensityIsKnownFromFreezingToBoiling) {
  EXPECT_NEAR(water_density(100)->value, 0.9584, 0.0002);  // OpenStax Chemistry 2e, Appendix E
  EXPECT_NEAR(water_density(39.9999)->value, water_density(40.0001)->value, 2e-6);
  EXPECT_EQ(water_density(-5).fault().code, Code::out_of_range);
}

TEST(PureDensity, ATemperatureTooFarOffIsRefused) {
  EXPECT_EQ(density_of("ethanol", 60).fault().code, Code::out_of_range);
  EXPECT_GT(density_of("ethanol", 25)->spread, density_of("ethanol", 20)->spread);
  EXPECT_NEAR(density_of("copper", 20)->value, 8.96, 0.01);  // CRC
  EXPECT_EQ(density_of("water", 20)->value, water_density(20)->value);
}

}  // namespace
}  // namespace sash::chem
