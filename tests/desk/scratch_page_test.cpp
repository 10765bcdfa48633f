#include "desk/shown/scratch_page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace sash::desk {
namespace {

using ::testing::HasSubstr;

std::string all_of(const std::vector<ScratchLine>& lines) {
  std::string text;
  for (const auto& line : lines) text += line.words + ": " + line.value + "\n";
  return text;
}

// Source: IUPAC abridged standard atomic weights 2021, added up: 63.546 + 32.06 + 9 × 15.999 + 10 × 1.008 = 249.677
// g/mol.
TEST(Scratch, WeighsAFormulaAndAName) {
  for (const std::string_view typed : {"CuSO4·5H2O", "copper(II) sulfate pentahydrate"}) {
    const auto lines = scratch(typed);
    const auto mass = std::find_if(lines.begin(), lines.end(), [](const auto& l) { return l.words == "molar mass"; });
    ASSERT_NE(mass, lines.end()) << typed;
    EXPECT_THAT(mass->value, HasSubstr("249.677")) << typed;
  }
}

TEST(Scratch, SaysWhyNothingComesOfNonsense) {
  EXPECT_TRUE(scratch("  ").empty());
  const auto lines = scratch("Xq7(");
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_TRUE(lines[0].bad);
  EXPECT_FALSE(lines[0].value.empty());
}

// What a chemist in a hurry types, and what must be in the answer. Atomic weights: IUPAC abridged 2021. Worked out by
// hand from the definitions in the IUPAC Green Book, 3rd ed., 2.10, where no other source is named.
struct Quick {
  const char* typed;
  const char* answer;
};

const Quick quick[] = {
    {"5.0 g copper(II) sulfate pentahydrate", "(20.03 "},           // 5.0 / 249.677
    {"0.050 mol NaCl", "2.92"},                                     // 0.050 x 58.44
    {"25 mL 6.0 M nitric acid", "(150.0 "},                         // 0.025 x 6.0
    {"250 mL 0.10 M sodium chloride", "1.46"},                      // 0.025 x 58.44
    {"250 mL 2.0 M hydrochloric acid from 12 M", "41.7"},           // 2.0 x 250 / 12
    {"70 °F in °C", "21.1"},                                        // (70 - 32) / 1.8
    {"25 degrees Celsius in K", "298.15"},                          // SI Brochure, 9th ed., 2.3.1
    {"2 atm in kPa", "202.65"},                                     // 101.325 kPa in 1 atm: SI Brochure, Table 8
    {"3 ounces in grams", "85.0"},                                  // 28.349523125 g: NIST SP 811, Appendix B.8
    {"9.2 g of 12.56 g", "73"},                                     // 73.2 %
    {"0.0100 mol hydrogen", "(20.16 "},                             // 0.0100 x 2.016
    {"Cu + HNO3 -> Cu(NO3)2 + NO + H2O", "3 Cu + 8 HNO3"},          // 3, 8, 3, 2, 4: any general textbook
    {"4.0 g copper(II) oxide; CuO + H2SO4 -> CuSO4 + H2O", "8.0"},  // 4.0 / 79.545 x 159.602 = 8.03
    {"4.0 g NaOH", "(100.0 "},                                      // 4.0 / 39.997
    {"concentrated hydrochloric acid", "% w/w"},
    {"Fe", "55.845"},
    {"caffeine", "194.19"},                  // 8 x 12.011 + 10 x 1.008 + 4 x 14.007 + 2 x 15.999
    {"10 % w/w sodium hydroxide", "1.109"},  // g/mL at 20 °C: CRC Handbook, 95th ed., 5-123
    {"100 mL 0.20 M sulfuric acid", "(20.00 "},
    {"2.0 mol water", "36.0"},  // 2.0 x 18.015
};

TEST(Scratch, AnswersTwentyQuickQuestions) {
  for (const Quick& each : quick) {
    const auto lines = scratch(each.typed);
    ASSERT_FALSE(lines.empty()) << each.typed;
    EXPECT_FALSE(lines.front().bad) << each.typed << ": " << lines.front().value;
    EXPECT_THAT(all_of(lines), HasSubstr(each.answer)) << each.typed;
  }
}

TEST(Scratch, WritesTheComputationOut) {
  EXPECT_THAT(all_of(scratch("5.0 g copper(II) sulfate pentahydrate")), HasSubstr("M(CuSO₄·5H₂O)"));
}

TEST(Scratch, SaysWhatAStrongestAcidIsTakenAs) {
  EXPECT_THAT(all_of(scratch("concentrated hydrochloric acid")), HasSubstr("labels give"));
}

TEST(Scratch, WhatIsNotInTheEquationIsNamed) {
  EXPECT_THAT(all_of(scratch("4.0 g zinc; CuO + H2SO4 -> CuSO4 + H2O")), HasSubstr("no substance of this equation"));
}

}  // namespace
}  // namespace sash::desk
