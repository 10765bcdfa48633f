#include "plot/relation_plot.h"

#include <gmock/gmock.h>

#include "workings/records.h"

namespace sash::plot {
namespace {

using model::RelationType;
using quantity::Kind;
using ::testing::HasSubstr;
using workings::test::RecordBuilder;

std::optional<Plot> plotted(RecordBuilder& b, model::RelationId id) {
  return plot_of(*model::find(b.record(), id), workings::check(b.record()));
}

double at(const Series& s, double x) {
  for (const Point& p : s.points) {
    if (std::abs(p.x - x) < 1e-9) return p.y;
  }
  return std::nan("");
}

// 100 g of water, 0.10 mol that gives off 55.8 kJ/mol: 5.58 kJ warm it by 5580 / (100 x 4.184) = 13.34 K, by hand.
TEST(RelationPlot, DrawsTheFinalTemperatureAgainstTheAmount) {
  RecordBuilder b;
  const auto mass = b.figure("100.0 g", Kind::mass);
  const auto amount = b.figure("0.100 mol", Kind::amount);
  const auto before = b.figure("20.0 Cel", Kind::temperature);
  const auto after = b.figure("", Kind::temperature);
  const auto id =
      b.relation(RelationType::heat,
                 {{"mass", mass}, {"amount", amount}, {"temperature_before", before}, {"temperature_after", after}},
                 {{"enthalpy", "-55.8 kJ/mol"}});
  const auto plot = plotted(b, id);
  ASSERT_TRUE(plot);
  EXPECT_EQ(plot->x.title(), "amount / mol");
  EXPECT_EQ(plot->y.title(), "final temperature / °C");
  ASSERT_EQ(plot->series.size(), 2U);
  EXPECT_NEAR(at(plot->series[0], 0), 20, 1e-6);
  EXPECT_NEAR(at(plot->series[0], 0.1), 33.34, 0.02);
  EXPECT_NEAR(at(plot->series[0], 0.2), 46.67, 0.04);
  // Twice as much to warm: half the warming.
  EXPECT_NEAR(at(plot->series[1], 0.1), 26.67, 0.02);
  ASSERT_FALSE(plot->marks.empty());
  EXPECT_NEAR(plot->marks[0].x, 0.1, 1e-9);
  EXPECT_THAT(plot->reading, HasSubstr("0.1 mol warms it by 13.3 K, to 33.3 °C"));
}

// From 60 °C, 0.40 mol more would carry it past 100 °C: at (100 - 60) / 133.4 = 0.30 mol.
TEST(RelationPlot, MarksWhereItWouldBoil) {
  RecordBuilder b;
  const auto id = b.relation(RelationType::heat,
                             {{"mass", b.figure("100.0 g", Kind::mass)},
                              {"amount", b.figure("0.200 mol", Kind::amount)},
                              {"temperature_before", b.figure("60.0 Cel", Kind::temperature)},
                              {"temperature_after", b.figure("", Kind::temperature)}},
                             {{"enthalpy", "-55.8 kJ/mol"}});
  const auto plot = plotted(b, id);
  ASSERT_TRUE(plot);
  ASSERT_EQ(plot->marks.size(), 2U);
  EXPECT_EQ(plot->marks[1].text, "water boils");
  EXPECT_NEAR(plot->marks[1].x, 0.30, 0.002);
  EXPECT_THAT(plot->reading, HasSubstr("it would boil"));
}

TEST(RelationPlot, SpreadsOneHeatOverMoreMass) {
  RecordBuilder b;
  const auto id = b.relation(RelationType::heat, {{"mass", b.figure("200 g", Kind::mass)},
                                                  {"temperature_before", b.figure("20.0 Cel", Kind::temperature)},
                                                  {"temperature_after", b.figure("50.0 Cel", Kind::temperature)},
                                                  {"heat", b.figure("", Kind::energy)}});
  const auto plot = plotted(b, id);
  ASSERT_TRUE(plot);
  EXPECT_EQ(plot->x.title(), "mass warmed / g");
  EXPECT_NEAR(plot->series[0].points.back().y, 30, 1e-6) << "three times the mass: a third of the warming";
}

// 0.0100 mol at 25 °C and 101.325 kPa: 0.2446 L, by the ideal gas (CODATA 2018).
TEST(RelationPlot, DrawsGasAgainstAmount) {
  RecordBuilder b;
  const auto id = b.relation(RelationType::gas_given_off, {{"amount", b.figure("0.0100 mol", Kind::amount)},
                                                           {"volume", b.figure("", Kind::gas_volume)},
                                                           {"temperature", b.figure("25 Cel", Kind::temperature)},
                                                           {"pressure", b.figure("101.325 kPa", Kind::pressure)}});
  const auto plot = plotted(b, id);
  ASSERT_TRUE(plot);
  ASSERT_EQ(plot->series.size(), 2U);
  const double litres = plot->y.unit == "mL" ? 244.65 : 0.24465;
  EXPECT_NEAR(at(plot->series[0], 0.01), litres, litres * 1e-3);
  EXPECT_NEAR(at(plot->series[1], 0.01) / at(plot->series[0], 0.01), (298.15 + 50) / 298.15, 1e-9);
  EXPECT_NE(plot->series[0].shape, plot->series[1].shape);
}

// OpenStax Chemistry 2e, Example 4.12: 2.00 g of silicon and 1.50 g of nitrogen; silicon limits and gives 3.33 g. All
// of the nitrogen needs 1.50 / 28.014 / 2 x 3 x 28.085 = 2.256 g of silicon, by hand.
TEST(RelationPlot, ShowsFromWhereOnAnotherReactantLimits) {
  RecordBuilder b;
  const auto id = b.relation(RelationType::reaction,
                             {{"reactant", b.figure("2.00 g", Kind::mass), "Si"},
                              {"reactant", b.figure("1.50 g", Kind::mass), "N2"},
                              {"product", b.figure("", Kind::mass), "Si3N4"}},
                             {{"equation", "3 Si + 2 N2 -> Si3N4"}});
  const auto plot = plotted(b, id);
  ASSERT_TRUE(plot);
  ASSERT_EQ(plot->marks.size(), 2U);
  EXPECT_NEAR(plot->marks[0].y, 3.33, 0.005);
  EXPECT_NEAR(plot->marks[1].x, 2.256, 0.002);
  EXPECT_EQ(plot->marks[1].text, "N₂ used up");
  ASSERT_EQ(plot->series.size(), 2U);
  EXPECT_NEAR(plot->series[0].points.back().y, plot->marks[1].y, 1e-9) << "flat behind the kink";
  EXPECT_THAT(plot->reading, HasSubstr("Beyond 2.26 g N₂ limits"));
}

TEST(RelationPlot, HasNothingToDrawWhereFiguresLack) {
  RecordBuilder b;
  const auto heat = b.relation(RelationType::heat, {{"mass", b.figure("200 g", Kind::mass)}});
  EXPECT_FALSE(plotted(b, heat));
  const auto share = b.relation(RelationType::share, {{"part", b.figure("2 g", Kind::mass)}});
  EXPECT_FALSE(plotted(b, share));
}

// Aluminium hydroxide holds three hydroxides for one aluminium and clears up in excess (Vogel's Qualitative Inorganic
// Analysis): 2.5 mmol of it want 7.5 mmol, 3.75 mL of 2 mol/L, where the record stands.
TEST(RelationPlot, RunsTheLastReagentIntoASolution) {
  RecordBuilder b;
  const auto id =
      b.relation(RelationType::equilibrium, {{"total", b.figure("25 mmol/L", Kind::molar_concentration), "AlCl3"},
                                             {"total", b.figure("75 mmol/L", Kind::molar_concentration), "NaOH"},
                                             {"volume", b.figure("100 mL", Kind::volume)},
                                             {"pH", b.figure("", Kind::pH)}});
  const auto plot = plotted(b, id);
  ASSERT_TRUE(plot);
  EXPECT_EQ(plot->x.title(), "2 mol/L NaOH added / mL");
  EXPECT_NEAR(at(plot->series[0], 3.75), 2.5, 0.1);
  EXPECT_THAT(plot->series[0].name, HasSubstr("(solid)"));
  EXPECT_THAT(plot->reading, HasSubstr("has cleared up by"));
}

TEST(RelationPlot, HasNoneForOneSubstanceAlone) {
  RecordBuilder b;
  const auto id = b.relation(
      RelationType::equilibrium,
      {{"total", b.figure("0.10 mol/L", Kind::molar_concentration), "CH3COOH"}, {"pH", b.figure("", Kind::pH)}});
  EXPECT_FALSE(plotted(b, id));
}

}  // namespace
}  // namespace sash::plot
