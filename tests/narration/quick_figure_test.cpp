#include "narration/quick_figure.h"

#include <gtest/gtest.h>

namespace sash::narration {
namespace {

using quantity::Kind;

std::vector<QuickFigure> read(std::string_view typed) {
  auto figures = read_quick_figure(typed);
  EXPECT_TRUE(figures.ok()) << (figures.ok() ? "" : figures.fault().sentence);
  return figures.ok() ? *figures : std::vector<QuickFigure>(1);
}

TEST(QuickFigure, FillsVolumeStrengthAndSubstance) {
  const auto figures = read("20 mL 6 M nitric acid");
  ASSERT_EQ(figures.size(), 2u);
  EXPECT_EQ(figures[0].kind, Kind::volume);
  EXPECT_EQ(figures[0].reading.value, 20);
  EXPECT_EQ(figures[0].reading.unit, "mL");
  EXPECT_EQ(figures[0].subject, "nitric acid");
  EXPECT_EQ(figures[1].kind, Kind::molar_concentration);
  EXPECT_EQ(figures[1].reading.value, 6);
  EXPECT_EQ(figures[1].attached_to, 0u);
}

TEST(QuickFigure, KeepsDigitsAndHedge) {
  const auto figures = read("about 4.0 g of copper");
  EXPECT_EQ(figures[0].reading.digits, "4.0");
  EXPECT_EQ(figures[0].reading.hedge, model::Hedge::about);
  EXPECT_EQ(figures[0].subject, "copper");
}

TEST(QuickFigure, ReadsWhatBreaksOffBehindOf) {
  const auto figures = read("gas 20 mL of");
  ASSERT_EQ(figures.size(), 1u);
  EXPECT_EQ(figures[0].reading.value, 20);
}

TEST(QuickFigure, KnowsAYield) {
  EXPECT_EQ(read("yield 82 %")[0].kind, Kind::percent_yield);
  EXPECT_EQ(read("82% yield")[0].kind, Kind::percent_yield);
}

TEST(QuickFigure, ReadsTemperatures) {
  for (const char* typed : {"25 degC", "25 °C", "25 C", "25 degrees celsius"}) {
    const auto figures = read(typed);
    EXPECT_EQ(figures[0].kind, Kind::temperature) << typed;
    EXPECT_EQ(figures[0].reading.unit, "Cel") << typed;
  }
}

TEST(QuickFigure, ReadsARange) {
  const auto figures = read("3-5 drops");
  EXPECT_EQ(figures[0].reading.value, 3);
  EXPECT_EQ(figures[0].reading.upper, 5);
  EXPECT_EQ(figures[0].reading.hedge, model::Hedge::range);
  EXPECT_EQ(figures[0].reading.unit, "[drp]");
}

TEST(QuickFigure, ReadsAStatedUncertainty) {
  for (const char* typed : {"1.52 g ± 0.01", "1.52 ± 0.01 g", "1.52 g +/- 0.01 g", "1.52 grams plus or minus 0.01"}) {
    const auto figures = read(typed);
    ASSERT_EQ(figures.size(), 1u) << typed;
    EXPECT_EQ(figures[0].reading.value, 1.52) << typed;
    EXPECT_EQ(figures[0].doubt.from, model::Doubt::From::stated) << typed;
    EXPECT_EQ(figures[0].doubt.half_width, 0.01) << typed;
  }
}

TEST(QuickFigure, SaysWhenThereIsNoQuantity) {
  const auto none = read_quick_figure("some copper");
  ASSERT_FALSE(none.ok());
  EXPECT_EQ(none.fault().sentence,
            "\"some copper\" holds no quantity; type a number with its unit, such as \"20 mL\" or \"4.0 g copper\".");
}

}  // namespace
}  // namespace sash::narration
