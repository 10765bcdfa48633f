#include "desk/draw/kit/colour.h"

#include <gtest/gtest.h>

#include <string>

#include "desk/draw/kit/theme.h"

namespace sash::desk {
namespace {

// WCAG 2.1: black on white is 21:1; #767676 on white is the widely published edge of 4.5:1.
TEST(Colour, ContrastFollowsWcag) {
  EXPECT_NEAR(contrast(Colour::hex(0x000000), Colour::hex(0xFFFFFF)), 21.0, 0.001);
  EXPECT_NEAR(contrast(Colour::hex(0x767676), Colour::hex(0xFFFFFF)), 4.54, 0.005);
  EXPECT_NEAR(contrast(Colour::hex(0x0000FF), Colour::hex(0xFF0000)), 2.15, 0.005);
}

class EachTheme : public ::testing::TestWithParam<ThemeName> {};
INSTANTIATE_TEST_SUITE_P(Both, EachTheme, ::testing::Values(ThemeName::dim, ThemeName::paper),
                         [](const auto& p) { return std::string(name_of(p.param)); });

// WCAG 2.1, 1.4.3: text 4.5:1.
TEST_P(EachTheme, TextReadsOnEverythingItStandsOn) {
  const Theme& t = theme(GetParam());
  for (const Colour ground : {t.panel, t.raised, t.raised_over, t.sunken, t.selection}) {
    EXPECT_GE(contrast(t.text, ground), 4.5);
  }
  for (const Colour ground : {t.panel, t.sunken}) EXPECT_GE(contrast(t.muted, ground), 4.5);
  EXPECT_GE(contrast(t.on_accent, t.accent), 4.5);
  for (const Colour ink : {t.good, t.bad, t.open, t.accent}) EXPECT_GE(contrast(ink, t.panel), 4.5);
  for (const SafetyColours& s : t.safety) {
    EXPECT_GE(contrast(s.on, s.fill), 4.5);
    EXPECT_GE(contrast(s.ink, t.panel), 4.5);
  }
  for (const Colour tint : t.family) EXPECT_GE(contrast(tint, t.panel), 4.5);
}

// WCAG 2.1, 1.4.11: parts of controls 3:1.
TEST_P(EachTheme, FocusRingAndFaintTextStandOut) {
  const Theme& t = theme(GetParam());
  EXPECT_GE(contrast(t.focus, t.panel), 3.0);
  EXPECT_GE(contrast(t.faint, t.panel), 3.0);
}

TEST(Theme, NamesGoBothWays) {
  EXPECT_EQ(theme_from_name("paper"), ThemeName::paper);
  EXPECT_EQ(theme_from_name(name_of(ThemeName::dim)), ThemeName::dim);
  EXPECT_EQ(theme_from_name("Dim"), std::nullopt);
}

}  // namespace
}  // namespace sash::desk
