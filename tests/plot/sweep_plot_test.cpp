#include "plot/sweep_plot.h"

#include <gmock/gmock.h>

namespace sash::plot {
namespace {

using ::testing::HasSubstr;

chem::Sweep run(const char* salt, double salt_molarity, const char* reagent, double molarity, double most_ml) {
  constexpr int steps = 24;
  std::vector<double> added;
  for (int i = 0; i <= steps; ++i) added.push_back(most_ml * 1e-3 * i / steps);
  const std::vector<chem::Ingredient> dish{{chem::read_formula(salt).value(), salt_molarity}};
  const std::vector<chem::Ingredient> burette{{chem::read_formula(reagent).value(), molarity}};
  const auto sweep = chem::sweep(dish, 0.050, burette, added);
  EXPECT_TRUE(sweep.ok()) << sweep.fault().sentence;
  return *sweep;
}

// Qualitative analysis as every textbook has it (Vogel's Qualitative Inorganic Analysis, reactions of aluminium and of
// copper): sodium hydroxide first precipitates aluminium hydroxide and clears it up in excess; the most stands there
// when three hydroxides are in for one aluminium, 7.5 mL here.
TEST(SweepPlot, ShowsWhereAluminiumHydroxideClearsUp) {
  const chem::Sweep sweep = run("AlCl3", 0.05, "NaOH", 1, 24);
  const auto stretches = solid_stretches(sweep);
  ASSERT_FALSE(stretches.empty());
  EXPECT_NEAR(stretches.front().most_at, 7.5, 1.1);
  EXPECT_NEAR(stretches.front().most, 2.5, 0.2);
  ASSERT_TRUE(stretches.front().cleared);
  EXPECT_GT(*stretches.front().cleared, stretches.front().most_at);
  const Plot plot = plot_of(sweep, {.reagent = "1 M NaOH"});
  EXPECT_THAT(plot.reading, HasSubstr("has cleared up by"));
  EXPECT_EQ(plot.x.title(), "1 M NaOH added / mL");
  EXPECT_EQ(plot.y.unit, "mmol");
}

TEST(SweepPlot, ShowsCopperGoingOverIntoItsAmmine) {
  const Plot plot = plot_of(run("CuSO4", 0.05, "NH3", 2, 24), {.reagent = "2 M NH₃"});
  EXPECT_THAT(plot.reading, HasSubstr("dwindles to"));
  bool ammine = false;
  for (const Series& s : plot.series) ammine = ammine || s.name.find("NH₃") != std::string::npos;
  EXPECT_TRUE(ammine) << "the deep blue ammine complex is one of the dissolved species";
}

// Silver chloride in sodium chloride stays: no amount of dilute chloride dissolves it.
TEST(SweepPlot, SaysWhenAPrecipitateStays) {
  const Plot plot = plot_of(run("AgNO3", 0.05, "NaCl", 0.1, 40), {.reagent = "0.1 M NaCl"});
  EXPECT_THAT(plot.reading, HasSubstr("AgCl appears at"));
  EXPECT_THAT(plot.reading, HasSubstr("and stays."));
}

TEST(SweepPlot, SaysWhenNothingPrecipitates) {
  const Plot plot = plot_of(run("HCl", 0.1, "NaOH", 0.1, 60), {.reagent = "0.1 M NaOH"});
  EXPECT_EQ(plot.reading, "Nothing precipitates.");
  EXPECT_FALSE(plot.series.empty());
}

}  // namespace
}  // namespace sash::plot
