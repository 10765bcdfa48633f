// Laws of the equilibrium part: every tabulated equation conserves atoms and charge, and every solution found does too,
// obeys mass action and holds no solid that is not saturated.

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "chem/balance.h"
#include "chem/equilibria.h"

namespace sash::chem {
namespace {

TEST(EquilibriumLaw, EveryTabulatedEquationIsBalanced) {
  ASSERT_GT(equilibrium_constants().size(), 900u);
  for (const EquilibriumConstant& row : equilibrium_constants()) {
    const auto checked = verify(row.equation);
    ASSERT_TRUE(checked) << row.equation.plain();
    EXPECT_TRUE(checked->balanced) << row.equation.plain() << ": " << checked->why;
  }
}

/// Random mixtures of bench substances; all totals kept, all constants obeyed.
TEST(EquilibriumLaw, RandomMixturesKeepTotalsAndObeyMassAction) {
  const std::vector<const char*> bench{"HCl",   "NaOH",   "NH3",      "AgNO3", "NaCl",    "CuSO4", "Na2CO3", "CaCl2",
                                       "AlCl3", "FeCl3",  "Pb(NO3)2", "KI",    "CH3COOH", "H2SO4", "ZnSO4",  "K2CrO4",
                                       "BaCl2", "Na3PO4", "MgCl2",    "NiSO4", "Na2S2O3", "C6H8O7"};
  std::mt19937 random(7);
  std::uniform_real_distribution<double> exponent(-5, 0);
  std::uniform_int_distribution<std::size_t> pick(0, bench.size() - 1);
  int most_steps = 0;
  constexpr int mixtures = 300;
  for (int n = 0; n < mixtures; ++n) {
    std::vector<Ingredient> put;
    for (int i = 0; i < 4; ++i) put.push_back({*read_formula(bench[pick(random)]), std::pow(10, exponent(random))});
    std::string name;
    for (const auto& p : put) name += std::to_string(p.molarity) + " " + p.what.plain() + "; ";
    MixtureChoice choice;
    choice.activities = n % 2 == 1;
    const auto mixed = equilibrate(put, choice);
    ASSERT_TRUE(mixed) << name << mixed.fault().sentence;
    most_steps = std::max(most_steps, mixed->state.steps);
    const ChemicalSystem& system = mixed->system;
    const Equilibrium& state = mixed->state;
    // Totals, summed up here from the recipe.
    std::vector<double> total(system.component_count(), 0), held(total), scale(total);
    for (const Ingredient& p : put) {
      const auto parts = in_components(p.what);
      for (const auto& part : *parts) total[*system.find(part.component)] += part.count * p.molarity;
    }
    for (std::size_t j = 0; j < system.species().size(); ++j) {
      ASSERT_GE(state.molarity[j], 0) << name;
      ASSERT_TRUE(std::isfinite(state.molarity[j])) << name;
      for (std::size_t i = 0; i < held.size(); ++i) {
        held[i] += system.species()[j].components[i] * state.molarity[j];
        scale[i] += std::abs(system.species()[j].components[i]) * state.molarity[j];
      }
    }
    for (std::size_t s = 0; s < system.solids().size(); ++s) {
      ASSERT_GE(state.solid[s], 0) << name;
      EXPECT_LT(state.log_saturation[s], 1e-6) << name << system.solids()[s].formula.plain();
      if (state.solid[s] > 0) {
        EXPECT_GT(state.log_saturation[s], -1e-6) << name << system.solids()[s].formula.plain();
      }
      for (std::size_t i = 0; i < held.size(); ++i) {
        held[i] += system.solids()[s].components[i] * state.solid[s];
        scale[i] += std::abs(system.solids()[s].components[i]) * state.solid[s];
      }
    }
    for (std::size_t i = 0; i < held.size(); ++i) {
      EXPECT_NEAR(held[i], total[i], 1e-8 * scale[i] + 1e-14) << name << system.species()[i].formula.plain();
    }
    // Charge follows from the balances: the solution is neutral.
    double charge = 0, charges = 0;
    for (std::size_t j = 0; j < system.species().size(); ++j) {
      const double z = system.species()[j].formula.charge();
      charge += z * state.molarity[j];
      charges += std::abs(z) * state.molarity[j];
    }
    EXPECT_NEAR(charge, 0, 1e-7 * charges) << name;
  }
  RecordProperty("most_steps", most_steps);
}

// More ammonia never brings less of the metal into solution beyond the point where the precipitate is gone, and a sweep
// does not depend on how many points it has.
TEST(EquilibriumLaw, ASweepPointIsTheMixtureItself) {
  const std::vector<Ingredient> copper{{*read_formula("CuSO4"), 0.1}}, ammonia{{*read_formula("NH3"), 2.0}};
  const std::vector<double> few{0.01, 0.03}, many{0, 0.005, 0.01, 0.02, 0.03};
  const auto a = sweep(copper, 0.1, ammonia, few), b = sweep(copper, 0.1, ammonia, many);
  ASSERT_TRUE(a && b);
  EXPECT_NEAR(a->points[0].ph, b->points[2].ph, 1e-9);
  EXPECT_NEAR(a->points[1].ph, b->points[4].ph, 1e-9);
}

}  // namespace
}  // namespace sash::chem
