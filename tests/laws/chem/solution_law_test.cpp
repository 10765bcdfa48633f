// Laws of solutions: every way to say a strength leads back to it, mixing keeps mass and solute and never depends on
// the order, and a gas keeps its law.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "chem/gas.h"
#include "chem/solution.h"

namespace sash::chem {
namespace {

constexpr std::array solutes{"HNO3",    "H2SO4",   "HCl",     "NH3",     "NaOH",     "KOH",      "H2O2",
                             "H3PO4",   "CH3COOH", "ethanol", "NaCl",    "KI",       "CuSO4",    "AgNO3",
                             "sucrose", "KMnO4",   "CaCl2",   "Na2S2O3", "glycerol", "methanol", "propan-2-ol"};

TEST(SolutionLaw, EveryStrengthLeadsBack) {
  for (const char* solute : solutes) {
    const double most = *strongest_covered(solute);
    for (double share = 0.02; share < 1; share += 0.07) {
      const auto s = solution_of(solute, StrengthKind::mass_fraction, share * most);
      ASSERT_TRUE(s) << solute << s.fault().sentence;
      const std::array<std::pair<StrengthKind, double>, 4> said{
          {{StrengthKind::molarity, s->molarity},
           {StrengthKind::molality, s->molality},
           {StrengthKind::grams_per_litre, s->grams_per_litre},
           {StrengthKind::mass_per_volume, s->grams_per_litre / 1000}}};
      for (const auto& [kind, strength] : said) {
        const auto back = solution_of(solute, kind, strength);
        ASSERT_TRUE(back) << solute << back.fault().sentence;
        EXPECT_NEAR(back->w, s->w, 1e-9) << solute << " at " << s->w;
      }
    }
  }
}

TEST(SolutionLaw, AStrongerSolutionHoldsMoreInALitre) {
  for (const char* solute : solutes) {
    const double most = *strongest_covered(solute);
    double last = -1;
    for (int i = 0; i <= 200; ++i) {
      const auto s = solution_of(solute, StrengthKind::mass_fraction, most * i / 200);
      ASSERT_TRUE(s) << solute;
      EXPECT_GT(s->grams_per_litre, last) << solute << " at " << s->w;
      last = s->grams_per_litre;
    }
  }
}

TEST(SolutionLaw, MixingKeepsMassAndSoluteInAnyOrder) {
  for (const char* solute : solutes) {
    const double most = *strongest_covered(solute);
    std::array portions{Portion{30, 0.9 * most}, Portion{50, 0}, Portion{20, 0.3 * most}};
    const auto one = mix(solute, portions);
    std::reverse(portions.begin(), portions.end());
    const auto other = mix(solute, portions);
    ASSERT_TRUE(one && other) << solute;
    EXPECT_NEAR(one->grams, 100, 1e-9);
    EXPECT_NEAR(one->solution.w * one->grams, 30 * 0.9 * most + 20 * 0.3 * most, 1e-9) << solute;
    EXPECT_NEAR(one->millilitres, other->millilitres, 1e-9) << solute;
  }
}

TEST(GasLaw, EachQuantityIsTheInverseOfTheOthers) {
  for (const double pascal : {1e3, 1e5, 3e6}) {
    for (const double kelvin : {200.0, 298.15, 900.0}) {
      for (const double mol : {1e-5, 1.0, 40.0}) {
        const double volume = *solve_gas({pascal, std::nullopt, kelvin, mol});
        EXPECT_NEAR(*solve_gas({std::nullopt, volume, kelvin, mol}), pascal, 1e-9 * pascal);
        EXPECT_NEAR(*solve_gas({pascal, volume, std::nullopt, mol}), kelvin, 1e-9 * kelvin);
        EXPECT_NEAR(*solve_gas({pascal, volume, kelvin, std::nullopt}), mol, 1e-9 * mol);
      }
    }
  }
}

}  // namespace
}  // namespace sash::chem
