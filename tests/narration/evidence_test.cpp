// The scales on which answers are weighed: what is added up, and that the fitted table says what anybody would expect.

#include "narration/inner/evidence.h"

#include <gtest/gtest.h>

#include "narration/figures.h"

namespace sash::narration {
namespace {

TEST(Evidence, AddsUpTheCuesThatHaveAWeight) {
  Weights weights;
  weights.set("subject/named before/4", 1.5);
  weights.set("subject/product", -0.5);
  Scale scale(weights, nullptr);
  scale.add({"subject", "named before", "4"});
  scale.add({"subject", "product"});
  scale.add({"subject", "nobody weighed this"});
  EXPECT_DOUBLE_EQ(scale.sum(), 1.0);
}

TEST(Evidence, KeepsEveryWeightOfALargeTable) {
  std::string table = "cue\tweight\tsource\n";
  for (int i = 0; i < 5000; ++i) table += "role/cue " + std::to_string(i) + "\t" + std::to_string(i) + "\tnone\n";
  const Weights weights(table);
  for (int i = 0; i < 5000; ++i) {
    const std::string cue = "cue " + std::to_string(i);
    EXPECT_EQ(weights.of({"role", cue}), i);
  }
  EXPECT_EQ(weights.of({"role", "cue 5000"}), 0);
  EXPECT_EQ(weights.of({"role/cue 1", "more"}), 0);
}

TEST(Evidence, TellsPartsApart) {
  Weights weights;
  weights.set("a/bc", 1);
  EXPECT_EQ(weights.of({"a", "bc"}), 1);
  EXPECT_EQ(weights.of({"ab", "c"}), 0);
  EXPECT_EQ(weights.of({"bc", "a"}), 0);
}

TEST(Evidence, RecordsTheCuesOfAnAnswerForFitting) {
  const Weights weights;
  std::vector<std::string> cues;
  Scale scale(weights, &cues);
  scale.add({"same", "before", "1"});
  scale.add({"same", "between", "and/or"});  // cannot be told from two parts
  EXPECT_EQ(cues, std::vector<std::string>{"same/before/1"});
}

// Chemistry decides against what stands nearer: 24 g of sodium hydroxide (40.0 g/mol by the standard atomic weights)
// are 0.6 mol, whatever they were dissolved in.
TEST(Evidence, GivesMolesToTheSoluteAndNotToTheWater) {
  NarrationText text;
  model::NarrationLine line;
  line.text =
      "Then the lye. Twenty-four grams of sodium hydroxide in a hundred mils of water, so that's 0.6 moles, and stir.";
  text.lines.push_back(line);
  const Reading reading = read_figures(text);
  ASSERT_EQ(reading.figures.size(), 3u);
  EXPECT_EQ(reading.figures[2].subject, "sodium hydroxide");
}

TEST(Evidence, TakesTheNameOfAMetalForItsSaltWhenOnlyThatWasSpokenOf) {
  NarrationText text;
  model::NarrationLine line;
  line.text =
      "This is cobalt two chloride, the hexahydrate. I put 0.6 grams of that in 25 mils of water. Then I add 5 mils of "
      "the cobalt to the bleach.";
  text.lines.push_back(line);
  const Reading reading = read_figures(text);
  ASSERT_EQ(reading.figures.size(), 3u);
  EXPECT_TRUE(reading.figures[2].subject.starts_with("cobalt(II) chloride")) << reading.figures[2].subject;
}

}  // namespace
}  // namespace sash::narration
