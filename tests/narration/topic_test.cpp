// What is followed through a narration: names no table has, the titrant, the product.

#include <gtest/gtest.h>

#include "narration/inner/product_weigher.h"
#include "narration/inner/scene.h"
#include "narration/inner/titration.h"
#include "said.h"

namespace sash::narration {
namespace {

std::vector<std::string> names(const Scene& scene) {
  std::vector<std::string> all;
  for (const Mention& m : scene.mentions) all.push_back(m.name);
  return all;
}

TEST(LearnedNames, AreTakenFromWhatIsMeasuredOut) {
  const auto lines = said("That is fifty grams of frobnium. The frobnium goes into water, and more frobnium follows.");
  const auto all = names(open_scene(lines));
  EXPECT_EQ(std::count(all.begin(), all.end(), "frobnium"), 3);
}

TEST(LearnedNames, NeedToBeSaidTwice) {
  const auto lines = said("That is fifty grams of frobnium. Then it goes into water.");
  const auto all = names(open_scene(lines));
  EXPECT_EQ(std::count(all.begin(), all.end(), "frobnium"), 0);
}

TEST(LearnedNames, JoinAWordThatMakesAMaterialAnotherOne) {
  const auto lines = said("Ten mils of medlar juice. The medlar juice is sour. I take some of the juice.");
  const auto all = names(open_scene(lines));
  EXPECT_EQ(std::count(all.begin(), all.end(), "medlar juice"), 3);
}

TEST(Titration, KnowsWhatIsInTheBurette) {
  const auto lines =
      said("In the burette is sodium hydroxide. I titrate the vinegar, with phenolphthalein as indicator.");
  const Scene scene = open_scene(lines);
  const Titration titration(scene);
  EXPECT_TRUE(titration.is_titrant("sodium hydroxide"));
  EXPECT_FALSE(titration.is_titrant("vinegar"));
  EXPECT_FALSE(titration.is_titrant("phenolphthalein"));
  EXPECT_TRUE(titration.goes_on_at(10));
}

TEST(Titration, IsNoneWhereNobodyTitrates) {
  const auto lines = said("I add the sodium hydroxide to the vinegar.");
  const Scene scene = open_scene(lines);
  EXPECT_FALSE(Titration(scene).goes_on_at(3));
  EXPECT_FALSE(Titration(scene).is_titrant("sodium hydroxide"));
}

// Molar mass by IUPAC 2021 abridged weights: ZnSO4.7H2O 287.5 g/mol, so that 0.100 mol weigh 28.8 g.
TEST(Product, IsWhatHasTheElementsAndTheMassesOfWhatWasPutIn) {
  const auto lines = said(
      "Zinc sulfate heptahydrate today. 6.54 grams of zinc go into 60 mL of 2 molar sulfuric acid. It fizzes. I filter "
      "it "
      "and boil it down, and it crystallises overnight. The crystals are dried. From 0.100 moles I could have had 28.8 "
      "grams, and the crystals weigh 24.5 grams.");
  const Scene scene = read_scene(lines);
  ASSERT_FALSE(scene.products.empty());
  EXPECT_EQ(scene.products.front().what->name, "zinc sulfate heptahydrate");
}

TEST(Product, IsNothingWhereNothingIsMade) {
  const auto lines = said("I dissolve 5 grams of salt in 100 mL of water and measure the temperature, 21 degrees.");
  EXPECT_TRUE(read_scene(lines).products.empty());
}

}  // namespace
}  // namespace sash::narration
