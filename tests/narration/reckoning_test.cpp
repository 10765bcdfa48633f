#include "narration/inner/reckoning.h"

#include <gtest/gtest.h>

#include "said.h"

namespace sash::narration {
namespace {

std::vector<std::string> ways(const Reckoning& r, std::size_t figure) {
  std::vector<std::string> all;
  for (const Reckoned& way : r.ways(figure)) all.emplace_back(way.how);
  return all;
}

bool has(const std::vector<std::string>& all, const std::string& how) {
  return std::find(all.begin(), all.end(), how) != all.end();
}

TEST(Reckoning, SeesThatAMassIsVolumeTimesDensity) {
  const auto lines = said("I take 20 mL of acetic acid, the density is 1.05 grams per mL, so that is 21.0 grams.");
  const Scene scene = read_scene(lines);
  const Reckoning r(scene);
  ASSERT_EQ(r.size(), 3U);
  EXPECT_TRUE(has(ways(r, 2), "volume times density"));
}

TEST(Reckoning, SeesThatAnAmountIsVolumeTimesStrength) {
  const auto lines = said("50 mL of 2.0 molar hydrochloric acid, that is 0.10 moles.");
  const Scene scene = read_scene(lines);
  const Reckoning r(scene);
  ASSERT_EQ(r.size(), 3U);
  EXPECT_TRUE(has(ways(r, 2), "volume times strength"));
}

TEST(Reckoning, SeesSumsAndWhatIsNone) {
  const auto lines =
      said("The first crop was 31.4 grams, the second 7.3 grams, 38.7 grams together. I lost 5.0 grams.");
  const Scene scene = read_scene(lines);
  const Reckoning r(scene);
  ASSERT_EQ(r.size(), 4U);
  EXPECT_TRUE(has(ways(r, 2), "sum"));
  EXPECT_TRUE(ways(r, 3).empty());
}

// Molar masses by IUPAC 2021 abridged weights: NaCl 58.44 g/mol, KCl 74.55 g/mol.
TEST(Reckoning, TellsOfWhichSubstanceAMassAndAnAmountAre) {
  const auto lines = said("I weigh 5.84 grams. That is 0.100 moles.");
  const Scene scene = read_scene(lines);
  const Reckoning r(scene);
  ASSERT_EQ(r.size(), 2U);
  EXPECT_EQ(r.weighs_with(0, 0.05844), std::optional<std::size_t>(1));
  EXPECT_EQ(r.weighs_with(1, 0.05844), std::optional<std::size_t>(0));
  EXPECT_FALSE(r.weighs_with(0, 0.07455));
}

}  // namespace
}  // namespace sash::narration
