#include "chem/equilibria.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "chem/equilibrium_constants.h"

namespace sash::chem {
namespace {

Formula f(std::string_view text) { return *read_formula(text); }
using Put = std::vector<Ingredient>;

double ph(const Put& put, bool activities = false) {
  MixtureChoice choice;
  choice.activities = activities;
  const auto found = ph_of(put, choice);
  EXPECT_TRUE(found) << (found ? "" : found.fault().sentence);
  return found.value_or(0);
}

std::map<std::string, double> split(std::string_view text) {
  std::map<std::string, double> parts;
  const auto found = in_components(f(text));
  EXPECT_TRUE(found) << text;
  if (!found) return parts;
  for (const auto& part : *found) parts[part.component.plain()] = part.count;
  return parts;
}

TEST(Components, SubstancesSplitAsAChemistWould) {
  using Parts = std::map<std::string, double>;
  EXPECT_EQ(split("AgNO3"), (Parts{{"Ag^+", 1}, {"NO3^-", 1}}));
  EXPECT_EQ(split("NH4NO3"), (Parts{{"NH4^+", 1}, {"NO3^-", 1}}));
  EXPECT_EQ(split("NH3"), (Parts{{"NH4^+", 1}, {"H^+", -1}}));
  EXPECT_EQ(split("NaOH"), (Parts{{"Na^+", 1}, {"H^+", -1}}));
  EXPECT_EQ(split("CuSO4*5H2O"), (Parts{{"Cu^2+", 1}, {"SO4^2-", 1}}));
  EXPECT_EQ(split("H2SO4"), (Parts{{"H^+", 2}, {"SO4^2-", 1}}));
  EXPECT_EQ(split("Na2S2O3"), (Parts{{"Na^+", 2}, {"S2O3^2-", 1}}));
  EXPECT_EQ(split("KAl(SO4)2*12H2O"), (Parts{{"K^+", 1}, {"Al^3+", 1}, {"SO4^2-", 2}}));
  EXPECT_EQ(split("CH3COOH"), (Parts{{"CH3COO^-", 1}, {"H^+", 1}}));
  EXPECT_EQ(split("CO2"), (Parts{{"CO3^2-", 1}, {"H^+", 2}}));
  EXPECT_EQ(split("H2O"), Parts{});
  for (const char* molecule : {"C2H5OH", "C6H12O6", "C12H22O11", "CO(NH2)2", "CH3CONH2", "C9H8O4"}) {
    EXPECT_FALSE(in_components(f(molecule))) << molecule;
  }
}

// Textbook pH values (OpenStax Chemistry 2e, ch. 14): water 7.00; 0.1 M HCl 1.00; 0.1 M NaOH 13.00; 0.1 M acetic acid
// 2.87; 0.1 M ammonia 11.1; half-neutralised acetic acid 4.75.
TEST(Equilibria, KnowsTheUsualPh) {
  EXPECT_NEAR(ph({}), 7.00, 0.01);
  EXPECT_NEAR(ph({{f("HCl"), 0.1}}), 1.00, 0.01);
  EXPECT_NEAR(ph({{f("NaOH"), 0.1}}), 13.00, 0.01);
  EXPECT_NEAR(ph({{f("CH3COOH"), 0.1}}), 2.87, 0.02);
  EXPECT_NEAR(ph({{f("NH3"), 0.1}}), 11.12, 0.02);
  EXPECT_NEAR(ph({{f("CH3COOH"), 0.1}, {f("NaOH"), 0.05}}), 4.75, 0.02);
  EXPECT_NEAR(ph({{f("HCl"), 0.1}, {f("NaOH"), 0.1}}), 7.00, 0.01);
  EXPECT_NEAR(ph({{f("HCl"), 1e-8}}), 6.98, 0.01);  // not 8
}

// Standard buffers at 25 °C: 0.1 M acetic acid with 0.1 M acetate 4.650; 0.025 M of each phosphate 6.865 (IUPAC 2002
// and NBS pH standards). The set's ion pairs of sodium and potassium with phosphate cost 0.09.
TEST(Equilibria, ActivitiesGiveTheStandardBuffers) {
  EXPECT_NEAR(ph({{f("CH3COOH"), 0.1}, {f("CH3COONa"), 0.1}}, true), 4.650, 0.02);
  EXPECT_NEAR(ph({{f("KH2PO4"), 0.025}, {f("Na2HPO4"), 0.025}}, true), 6.865, 0.1);
}

TEST(Equilibria, SolidsAppearAndVanish) {
  // Ammonia on a copper sulfate solution: first a precipitate, then the deep blue complex.
  const std::vector<double> added{0, 0.002, 0.1};
  const auto run = sweep(Put{{f("CuSO4"), 0.05}}, 0.1, Put{{f("NH3"), 5}}, added);
  ASSERT_TRUE(run) << run.fault().sentence;
  const auto solid = [&](std::size_t i) {
    double sum = 0;
    for (const double s : run->points[i].state.solid) sum += s;
    return sum;
  };
  EXPECT_EQ(solid(0), 0);
  EXPECT_GT(solid(1), 0.01);
  EXPECT_EQ(solid(2), 0);
  const auto blue = run->system.find(f("[Cu(NH3)4]^2+"));
  ASSERT_TRUE(blue);
  EXPECT_GT(run->points[2].state.molarity[*blue], 0.015);
}

TEST(Equilibria, AluminiumHydroxideDissolvesInAcidAndInAlkali) {
  for (const double base : {0.0, 0.3, 0.6}) {
    const auto mixed = equilibrate(Put{{f("AlCl3"), 0.1}, {f("NaOH"), base}});
    ASSERT_TRUE(mixed) << mixed.fault().sentence;
    EXPECT_EQ(!mixed->solids.empty(), base == 0.3) << base << " pH " << mixed->ph;
  }
}

TEST(Equilibria, SilverChlorideDissolvesInAmmoniaOnly) {
  const double in_water = *solubility(f("AgCl"), {});
  const double in_ammonia = *solubility(f("AgCl"), Put{{f("NH3"), 1.0}});
  const double in_salt = *solubility(f("AgCl"), Put{{f("NaCl"), 0.01}});
  EXPECT_NEAR(in_water, std::sqrt(std::pow(10, -9.75)), 2e-6);  // minteq.v4: log Ksp -9.75
  EXPECT_GT(in_ammonia, 0.03);
  EXPECT_LT(in_salt, in_water / 5);
}

TEST(Equilibria, WhatCannotBeIsRefused) {
  EXPECT_EQ(ph_of(Put{{f("C6H12O6"), 0.1}}).fault().code, Code::not_found);
  EXPECT_EQ(ph_of(Put{{f("HCl"), -0.1}}).fault().code, Code::out_of_range);
  EXPECT_EQ(sweep({}, 0, {}, {}).fault().code, Code::out_of_range);
  EXPECT_FALSE(equilibrate(Put{{f("NaCl"), 1.0}}, {})->note.empty());  // Davies beyond 0.5 mol/L
}

TEST(MassAction, TellsWhatIsWrongWithAnEquation) {
  auto system = *ChemicalSystem::of(std::vector{f("Ag^+"), f("NH3")});
  EXPECT_EQ(system.add("Ag^+ + 2 NH3 = AgCl", 1).fault().code, Code::impossible);
  EXPECT_EQ(system.add("Ag^+ = NH3", 1).fault().code, Code::wrong_use);
  ASSERT_TRUE(system.add("Ag^+ + 2 NH3 = [Ag(NH3)2]^+", 7.23));
  EXPECT_EQ(equilibrium(system, {{-1, 1}, {}}).fault().code, Code::impossible);
  EXPECT_NEAR(*system.log_k(*read_equation("[Ag(NH3)2]^+ = Ag^+ + 2 NH3")), -7.23, 1e-12);
}

TEST(MassAction, TwoFormsOfOneSolidLeaveTheLessSoluble) {
  auto system = *ChemicalSystem::of(std::vector{f("Ca^2+"), f("CO3^2-")});
  ASSERT_TRUE(system.add("CaCO3(s) = Ca^2+ + CO3^2-", -8.30));  // aragonite
  ASSERT_TRUE(system.add("CaCO3(s) = Ca^2+ + CO3^2-", -8.48));  // calcite
  const auto state = equilibrium(system, {{0.1, 0.1}, {}});
  ASSERT_TRUE(state) << state.fault().sentence;
  EXPECT_EQ(state->solid[0], 0);
  EXPECT_NEAR(state->solid[1], 0.1 - std::pow(10, -4.24), 1e-9);
}

// Carbonic acid by steps: log10 of the constant that makes H2CO3 from carbonate is that of both steps together.
TEST(ChemicalSystems, CarryAShiftOfOneConstantToAllThatRestsOnIt) {
  auto system = ChemicalSystem::of(std::vector{f("H^+"), f("CO3^2-")});
  ASSERT_TRUE(system);
  ASSERT_TRUE(system->add("HCO3^- = H^+ + CO3^2-", -10.3));
  ASSERT_TRUE(system->add("H2CO3 = H^+ + HCO3^-", -6.4));
  ASSERT_EQ(system->constants().size(), 2u);
  const ChemicalSystem other = system->shifted(std::vector{0.2, 0.0});
  EXPECT_NEAR(other.log_k(*read_equation("HCO3^- = H^+ + CO3^2-")).value(), -10.1, 1e-12);
  EXPECT_NEAR(other.log_k(*read_equation("H2CO3 = 2 H^+ + CO3^2-")).value(), -16.5, 1e-12);
  EXPECT_NEAR(other.log_k(*read_equation("H2CO3 = H^+ + HCO3^-")).value(), -6.4, 1e-12);
}

// Silver chloride: 10^-9.75 in minteq.v4, 1.6e-10 (10^-9.796) in OpenStax Chemistry 2e, Appendix J: 0.046 apart.
TEST(ConstantsTable, IsAsUncertainAsItsSourcesLieApart) {
  const auto system = system_of(std::vector{f("Ag^+"), f("Cl^-")});
  ASSERT_TRUE(system);
  for (std::size_t k = 0; k < system->constants().size(); ++k) {
    if (system->constants()[k].made.plain() != "AgCl") continue;
    if (system->constants()[k].equation.all().front().state != State::solid) continue;
    EXPECT_NEAR(log_k_spread(*system, k), 0.046 / 2 / std::sqrt(3.0), 0.002);
    return;
  }
  FAIL() << "no solid silver chloride";
}

}  // namespace
}  // namespace sash::chem
