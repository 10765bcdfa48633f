// Densities and strengths printed in handbooks: every row of the table is computed by our tables and models.

#include "chem/density.h"

#include <gtest/gtest.h>

#include "chem/commercial.h"
#include "chem/concentration.h"
#include "chem/solution.h"
#include "known/chem/worked_row.h"

namespace sash::chem {
namespace {

double solution_row(const test::Row& row) {
  const std::string solute = text(row, "solute");
  if (solute == "NaOCl")
    return bleach_density(input(row, "available_Cl2_gpl"), input(row, "excess_NaOH_percent"))->value;
  const double w = input(row, "w_percent") / 100;
  if (text(row, "wanted") == "molarity") return molarity(w, input(row, "rho_gcm3"), molar(solute));
  const double celsius = input(row, "t_C");
  const auto density = solution_density(solute, w, celsius);
  if (!density) {
    ADD_FAILURE() << row.at("id") << ": " << density.fault().sentence;
    return 0;
  }
  return density->value;
}

double row_value(const test::Row& row) {
  if (has(row, "solute")) return solution_row(row);
  if (has(row, "substance")) {
    const auto density = density_of(text(row, "substance"), input(row, "t_C"));
    if (!density) {
      ADD_FAILURE() << row.at("id") << ": " << density.fault().sentence;
      return 0;
    }
    return row.at("unit") == "kg/m3" ? density->value * 1000 : density->value;
  }
  // Mass, volume and density of a lump: the definition.
  if (text(row, "wanted") == "density") return input(row, "m_g") / input(row, "V_cm3");
  if (text(row, "wanted") == "volume") return input(row, "m_g") / input(row, "rho_gmL");
  return input(row, "V_cm3") * input(row, "rho_gcm3");
}

TEST(KnownDensity, EveryRowIsComputed) {
  const auto rows = test::read_table("known/chem/density.csv");
  ASSERT_EQ(rows.size(), 156u);
  for (const auto& row : rows) expect_row(row, row_value(row));
}

// The handbook prints molarity beside density: the whole conversion must give it from the mass percent alone.
TEST(KnownDensity, MolarityFollowsFromMassPercentAlone) {
  std::size_t walked = 0;
  for (const auto& row : test::read_table("known/chem/density.csv")) {
    if (!has(row, "rho_gcm3") || !has(row, "solute")) continue;
    const auto solution = solution_of(text(row, "solute"), StrengthKind::mass_fraction, input(row, "w_percent") / 100);
    ASSERT_TRUE(solution) << row.at("id") << solution.fault().sentence;
    expect_row(row, solution->molarity);
    const auto back = solution_of(text(row, "solute"), StrengthKind::molarity, solution->molarity);
    ASSERT_TRUE(back) << row.at("id") << back.fault().sentence;
    EXPECT_NEAR(back->w, solution->w, 1e-9) << row.at("id");
    ++walked;
  }
  EXPECT_EQ(walked, 51u);
}

}  // namespace
}  // namespace sash::chem
