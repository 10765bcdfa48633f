#include "session/rewording.h"

#include <gtest/gtest.h>

namespace sash::session {
namespace {

constexpr std::string_view before = "add 20 mL of acid, then 5 mL of water";

model::Words words_of(std::string_view text, std::string_view said) {
  return {{1}, static_cast<std::uint32_t>(text.find(said)), static_cast<std::uint32_t>(said.size())};
}

std::string carried(std::string_view after, std::string_view said) {
  const auto words = carried_words(before, after, words_of(before, said));
  return words ? std::string(after.substr(words->begin, words->length)) + "@" + std::to_string(words->begin) : "gone";
}

TEST(Rewording, WordsBeforeTheChangeStay) {
  EXPECT_EQ(carried("add 20 mL of base, then 5 mL of water", "20 mL"), "20 mL@4");
}

TEST(Rewording, WordsAfterTheChangeMoveWithTheText) {
  EXPECT_EQ(carried("add 20 mL of nitric acid, then 5 mL of water", "5 mL"), "5 mL@31");
}

TEST(Rewording, WordsInsideTheChangeAreFoundAgainNearBy) {
  EXPECT_EQ(carried("first 5 mL of water, then add 20 mL of acid", "20 mL"), "20 mL@30");
}

TEST(Rewording, WordsThatAreGoneLetTheirFigureStandAlone) {
  EXPECT_EQ(carried("add 25 mL of acid, then 5 mL of water", "20 mL"), "gone");
  EXPECT_EQ(carried("", "20 mL"), "gone");
}

TEST(Rewording, OneStepRewordsTheLineAndTakesItsFiguresAlong) {
  model::Record r;
  r.footages = {{{1}, "a.mp4", "", "A", Moment::seconds(100), 0}};
  model::NarrationLine line;
  line.id = {1};
  line.footage = {1};
  line.text = before;
  line.words = {{0, 3, Moment()}};
  r.lines = {line};
  model::Figure figure;
  figure.id = {1};
  figure.place.footage = {1};
  figure.words = words_of(before, "5 mL");
  r.figures = {figure};

  line.text = "slowly " + std::string(before);
  ASSERT_TRUE(model::apply(reword_line(r, line, "Edit narration").edit, r).ok());
  EXPECT_TRUE(r.lines[0].words.empty()) << "word times no longer fit";
  EXPECT_EQ(r.lines[0].text.substr(r.figures[0].words->begin, r.figures[0].words->length), "5 mL");
}

}  // namespace
}  // namespace sash::session
