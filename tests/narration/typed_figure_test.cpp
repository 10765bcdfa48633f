#include "narration/typed_figure.h"

#include <gtest/gtest.h>

namespace sash::narration {
namespace {

using model::Hedge;
using quantity::Kind;

TypedFigure read(std::string_view text) {
  auto out = read_typed_figure(text);
  EXPECT_TRUE(out.ok()) << text << ": " << (out ? "" : out.fault().sentence);
  return out ? std::move(out).value() : TypedFigure{{TypedQuantity{}}, {}, {}};
}

TEST(TypedFigure, FillsVolumeStrengthAndSubstanceAtOnce) {
  const auto f = read("20 mL 6 M nitric acid");
  ASSERT_EQ(f.quantities.size(), 2U);
  EXPECT_EQ(f.quantities[0].kind, Kind::volume);
  EXPECT_EQ(f.quantities[0].reading.value, 20);
  EXPECT_EQ(f.quantities[0].reading.unit, "mL");
  EXPECT_EQ(f.quantities[1].kind, Kind::molar_concentration);
  EXPECT_EQ(f.quantities[1].reading.value, 6);
  EXPECT_EQ(f.subject, "nitric acid");
}

TEST(TypedFigure, KeepsTheDigitsAndTheHedge) {
  const auto f = read("about 4.00 g of copper");
  EXPECT_EQ(f.quantities[0].reading.digits, "4.00");
  EXPECT_EQ(f.quantities[0].reading.hedge, Hedge::about);
  EXPECT_EQ(f.subject, "copper");
  EXPECT_EQ(read("just under 250 mL water").quantities[0].reading.hedge, Hedge::under);
}

TEST(TypedFigure, ReadsRangesPlusMinusAndDecimalCommas) {
  const auto drops = read("3-5 drops");
  EXPECT_EQ(drops.quantities[0].reading.value, 3);
  EXPECT_EQ(drops.quantities[0].reading.upper, 5.0);
  EXPECT_EQ(drops.quantities[0].reading.hedge, Hedge::range);
  EXPECT_EQ(read("1.52 \u00B1 0.01 g").quantities[0].plus_minus, 0.01);
  EXPECT_EQ(read("1.52 g +/- 0.01").quantities[0].plus_minus, 0.01);
  EXPECT_EQ(read("0,25 L").quantities[0].reading.value, 0.25);
  EXPECT_EQ(read("1,250 mL").quantities[0].reading.value, 1250);
}

TEST(TypedFigure, TellsAYieldFromAStrength) {
  EXPECT_EQ(read("yield 82 %").quantities[0].kind, Kind::percent_yield);
  EXPECT_EQ(read("82% yield of copper").quantities[0].kind, Kind::percent_yield);
  EXPECT_EQ(read("37% hydrochloric acid").quantities[0].kind, Kind::mass_percent);
}

TEST(TypedFigure, ReadsPhTemperaturesAndAmounts) {
  EXPECT_EQ(read("pH 9").quantities[0].kind, Kind::pH);
  EXPECT_EQ(read("-10 \u00B0C").quantities[0].reading.value, -10);
  EXPECT_EQ(read("-10 \u00B0C").quantities[0].kind, Kind::temperature);
  EXPECT_EQ(read("7.87 mmol copper").quantities[0].kind, Kind::amount);
  EXPECT_EQ(read("1.5e-3 mol").quantities[0].reading.value, 0.0015);
}

TEST(TypedFigure, NormalisesNamesThatAreKnownAndKeepsOthers) {
  EXPECT_EQ(read("2 g copper sulphate pentahydrate").subject, "copper(II) sulfate pentahydrate");
  EXPECT_EQ(read("5 g blue sludge").subject, "blue sludge");
}

TEST(TypedFigure, WithoutAQuantityIsRefusedWithTheMend) {
  const auto none = read_typed_figure("nitric acid");
  ASSERT_FALSE(none.ok());
  EXPECT_EQ(none.fault().sentence,
            "There is no quantity in 'nitric acid'; type a number and its unit, for example '20 mL 6 M nitric acid'.");
  EXPECT_FALSE(read_typed_figure("").ok());
}

}  // namespace
}  // namespace sash::narration
