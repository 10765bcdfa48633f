#include "chem/quench.h"

#include <gtest/gtest.h>

namespace sash::chem {
namespace {

Formula formula(std::string_view text) { return *read_formula(text); }

TEST(Quench, TakesTheMoreDemandingWayAndSaysSo) {
  const auto need = quench(formula("Cl2"), 1, formula("Na2S2O3"));
  ASSERT_TRUE(need);
  EXPECT_EQ(need->agent_per_target, 2);  // 2 S2O3 2- + Cl2, to tetrathionate
  EXPECT_EQ(need->assumption, "Na₂S₂O₃ is taken to go to tetrathionate.");
  EXPECT_EQ(quench(formula("Cl2"), 1, formula("Na2S2O3"), {}, "sulfate")->agent_per_target, 0.25);
}

TEST(Quench, AHydrateWeighsMoreAndActsTheSame) {
  const auto dry = quench(formula("I2"), 1, formula("Na2S2O3"));
  const auto wet = quench(formula("I2"), 1, formula("Na2S2O3·5H2O"));
  EXPECT_EQ(dry->needed_mol, wet->needed_mol);
  EXPECT_NEAR(wet->needed_grams / dry->needed_grams, 248.18 / 158.10, 0.001);  // handbook molar masses
}

TEST(Quench, RefusesWhatDoesNotActAgainstEachOther) {
  EXPECT_EQ(quench(formula("HCl"), 1, formula("CH3COOH")).fault().code, Code::impossible);
  EXPECT_EQ(quench(formula("HCl"), 1, formula("Au")).fault().code, Code::not_found);
  EXPECT_EQ(quench(formula("HCl"), -1, formula("NaOH")).fault().code, Code::out_of_range);
}

TEST(Quench, MarginIsGivenOverNeeded) {
  const Quench need = *quench(formula("HCl"), 0.3, formula("NaHCO3"));
  const QuenchMargin plenty = *margin_of(need, 0.3, 2 * need.needed_grams);
  EXPECT_TRUE(plenty.enough);
  EXPECT_NEAR(plenty.times, 2, 1e-12);
  EXPECT_NEAR(plenty.left_grams, need.needed_grams, 1e-9);
  const QuenchMargin scant = *margin_of(need, 0.3, 0.5 * need.needed_grams);
  EXPECT_FALSE(scant.enough);
  EXPECT_NEAR(scant.target_left, 0.15, 1e-12);
}

}  // namespace
}  // namespace sash::chem
