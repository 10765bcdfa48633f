#include <gtest/gtest.h>

#include <cmath>

#include "desk/draw/kit/text_block.h"
#include "desk/draw/kit/typeset.h"
#include "draw/kit/harness.h"

namespace sash::desk {
namespace {

using testing::Harness;

std::vector<std::string> lines_of(const TextBlock& block) {
  std::vector<std::string> out;
  for (const auto& line : block.lines()) out.push_back(block.text().substr(line.from, line.until - line.from));
  return out;
}

TEST(TextBlock, BreaksAtSpacesAndFeedsAndFitsItsWidth) {
  Harness h;
  ImFont* font = h.kit().fonts().body;
  const float width = text_size(font, "twenty millilitres").x + 1;
  const TextBlock block(font, "twenty millilitres of nitric acid\ninto the beaker", width);
  EXPECT_EQ(lines_of(block), (std::vector<std::string>{"twenty millilitres", "of nitric acid", "into the beaker"}));
  EXPECT_LE(block.widest(), width);
}

TEST(TextBlock, BreaksAWordOnlyWhenItAloneIsTooWide) {
  Harness h;
  ImFont* font = h.kit().fonts().body;
  const TextBlock block(font, "hexaaquacopper", text_size(font, "hexaaqu").x + 1);
  EXPECT_EQ(lines_of(block), (std::vector<std::string>{"hexaaqu", "acopper"}));
}

TEST(TextBlock, NeverSplitsACharacter) {
  Harness h;
  const TextBlock block(h.kit().fonts().body, "ΔΔΔΔ", 1);  // narrower than any letter
  EXPECT_EQ(lines_of(block), (std::vector<std::string>{"Δ", "Δ", "Δ", "Δ"}));
}

TEST(TextBlock, PlacesAndBytesAreConverse) {
  Harness h;
  const TextBlock block(h.kit().fonts().body, "add 20 mL of 6 M acid slowly, with stirring", 120);
  ASSERT_GT(block.lines().size(), 2U);
  for (std::size_t at = 0; at < block.text().size(); ++at) {
    const ImVec2 p = block.place_of(at);
    const bool hidden_space = block.text()[at] == ' ';  // a space at a line's end has no place of its own
    if (hidden_space) continue;
    EXPECT_EQ(block.byte_at({p.x + 0.5F, p.y + 2}), at) << at;
  }
}

TEST(TextBlock, KeepsToTheMostLinesAllowed) {
  Harness h;
  const TextBlock block(h.kit().fonts().body, "one two three four five six seven eight", 60, 2);
  EXPECT_EQ(block.lines().size(), 2U);
}

TEST(Fonts, DigitsOfAFaceAreEquallyWide) {
  Harness h;
  const Fonts& fonts = h.kit().fonts();
  for (ImFont* font : {fonts.body, fonts.strong, fonts.small, fonts.title, fonts.digits}) {
    const float width = text_size(font, "0").x;
    for (const char* digit : {"1", "2", "3", "4", "5", "6", "7", "8", "9"}) EXPECT_EQ(text_size(font, digit).x, width);
  }
}

TEST(Fonts, HaveEverySignOfTheTrade) {
  Harness h;
  const Fonts& fonts = h.kit().fonts();
  for (ImFont* font : {fonts.body, fonts.strong, fonts.small, fonts.small_strong, fonts.title}) {
    for (const char32_t c : std::u32string_view(U"₀₉₊₋⁰⁹⁺⁻→⇌≈≤≥±×·−°ΔΩµλ℃½¼•…–—“”‘’✓⚠§‰∞√∫∑∂ÄÖÜßéñ")) {
      EXPECT_NE(font->FindGlyphNoFallback(static_cast<ImWchar>(c)), nullptr) << std::hex << static_cast<unsigned>(c);
    }
  }
}

TEST(Typeset, ASubscriptHangsBelowAndASuperscriptStandsAbove) {
  Harness h;
  const Fonts& fonts = h.kit().fonts();
  const auto plain = Typeset::text("H").measure(fonts);
  const auto low = Typeset::from_markup("H_{2}").measure(fonts);
  const auto high = Typeset::from_markup("cm^{3}").measure(fonts);
  EXPECT_GT(low.below, plain.below);
  EXPECT_EQ(low.above, plain.above);
  EXPECT_GT(high.above, plain.above);
  EXPECT_EQ(high.below, plain.below);
}

TEST(Typeset, AFractionIsAsWideAsItsWiderPart) {
  Harness h;
  const Fonts& fonts = h.kit().fonts();
  const auto wide = Typeset::text("63.546 g·mol⁻¹");
  const auto fraction = Typeset::over(Typeset::text("1"), wide).measure(fonts);
  EXPECT_GT(fraction.width, wide.measure(fonts).width);
  EXPECT_GT(fraction.above, Typeset::text("1").measure(fonts).above);
}

TEST(Typeset, AFormulaSetsLowOnlyTheDigitsThatCountAtoms) {
  Harness h;
  const Fonts& fonts = h.kit().fonts();
  const auto same = [&](const Typeset& one, const Typeset& other) {
    return one.measure(fonts).width == other.measure(fonts).width &&
           one.measure(fonts).below == other.measure(fonts).below &&
           one.measure(fonts).above == other.measure(fonts).above;
  };
  EXPECT_TRUE(same(Typeset::formula("2 H2O"), Typeset::from_markup("2 H_{2}O")));
  EXPECT_TRUE(same(Typeset::formula("CuSO4·5H2O"), Typeset::from_markup("CuSO_{4}·5H_{2}O")));
  EXPECT_TRUE(same(Typeset::formula("Cu(NO3)2"), Typeset::from_markup("Cu(NO_{3})_{2}")));
  EXPECT_TRUE(same(Typeset::formula("SO4^2-"), Typeset::from_markup("SO_{4}^{2−}")));
}

TEST(Typeset, MarkupCanSayItsOwnCharacters) {
  Harness h;
  const Fonts& fonts = h.kit().fonts();
  EXPECT_EQ(Typeset::from_markup("a\\_{b}").measure(fonts).width, Typeset::text("a_{b}").measure(fonts).width);
  EXPECT_EQ(Typeset::from_markup("2 * 3").measure(fonts).width, Typeset::text("2 * 3").measure(fonts).width);
}

TEST(Metrics, GrowWithTheScale) {
  const Metrics one = Metrics::at(1);
  const Metrics more = Metrics::at(1.5F);
  EXPECT_EQ(more.row, std::round(one.row * 1.5F));
  EXPECT_GT(more.body, one.body);
  EXPECT_GE(Metrics::at(Metrics::least).hair, 1);
}

}  // namespace
}  // namespace sash::desk
