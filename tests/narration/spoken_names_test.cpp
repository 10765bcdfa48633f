// Names of the teaching laboratory and the show bench, said as presenters and recognisers put them, against the names
// they stand for (tests/known/narration/spoken_names.csv, with sources).

#include <gtest/gtest.h>

#include <fmt/format.h>

#include "narration/figures.h"
#include "tools/table.h"

namespace sash::narration {
namespace {

std::string subject_of(const std::string& spoken) {
  model::NarrationLine line;
  line.text = fmt::format("Next thing. I weigh out 5.20 grams of {}, just here.", spoken);
  const std::vector<model::NarrationLine> lines{line};
  const Reading reading = read_figures(std::span(lines));
  return reading.figures.size() == 1 ? reading.figures.front().subject
                                     : fmt::format("{} figures", reading.figures.size());
}

TEST(SpokenNames, StandForWhatTheyName) {
  for (const test::Row& row : test::read_table("known/narration/spoken_names.csv")) {
    EXPECT_EQ(subject_of(row.at("spoken")), row.at("subject")) << row.at("spoken");
  }
}

TEST(SpokenNames, AreRecognisedBySoundWhereANameIsExpected) {
  EXPECT_EQ(subject_of("acid tone"), "acetone");
  EXPECT_EQ(subject_of("potassium per man ganate"), "potassium permanganate");
  EXPECT_EQ(subject_of("cold ethan all"), "ethanol");
  EXPECT_EQ(subject_of("sulfuric asset"), "sulfuric acid");
}

}  // namespace
}  // namespace sash::narration
