#include "desk/shown/measure.h"

#include <gtest/gtest.h>

namespace sash::desk {
namespace {

const EvenMeasure even(10, 20);

std::vector<std::string> rows(std::string_view text, float width) {
  std::vector<std::string> out;
  for (const TextRow r : wrap(text, width, even)) out.emplace_back(text.substr(r.begin, r.end - r.begin));
  return out;
}

TEST(Wrap, BreaksAtWhiteSpace) {
  EXPECT_EQ(rows("four grams of copper", 100), (std::vector<std::string>{"four grams", "of copper"}));
  EXPECT_EQ(rows("four grams of copper", 99), (std::vector<std::string>{"four", "grams of", "copper"}));
}

TEST(Wrap, KeepsLineBreaksAndEmptyRows) {
  EXPECT_EQ(rows("a\n\nb", 100), (std::vector<std::string>{"a", "", "b"}));
  EXPECT_EQ(rows("", 100), (std::vector<std::string>{""}));
}

TEST(Wrap, BreaksALongWordBetweenLetters) {
  EXPECT_EQ(rows("in hexaamminecobalt", 60), (std::vector<std::string>{"in", "hexaam", "mineco", "balt"}));
  EXPECT_EQ(rows("µµµµ", 20), (std::vector<std::string>{"µµ", "µµ"}));  // never inside a letter of two bytes
}

TEST(Wrap, GivesALetterARowWhereNothingFits) { EXPECT_EQ(rows("ab", 5), (std::vector<std::string>{"a", "b"})); }

TEST(Wrap, EveryRowFitsAndNothingButBlanksIsLost) {
  const std::string text = "now twenty millilitres of six molar nitric acid   go onto the copper, slowly, in the hood";
  for (float width = 60; width < 500; width += 7) {
    std::string joined;
    for (const std::string& row : rows(text, width)) {
      EXPECT_LE(even.width(row), width);
      for (const char c : row) {
        if (c != ' ') joined += c;
      }
    }
    std::string letters;
    for (const char c : text) {
      if (c != ' ') letters += c;
    }
    EXPECT_EQ(joined, letters);
  }
}

TEST(Fitted, CutsOnlyWhatDoesNotFit) {
  EXPECT_EQ(fitted("nitric acid", 110, even), "nitric acid");
  EXPECT_EQ(fitted("nitric acid", 90, even), "nitric a…");
  EXPECT_EQ(fitted("nitric acid", 80, even), "nitric…");
}

}  // namespace
}  // namespace sash::desk
