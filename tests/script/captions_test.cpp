#include "script/captions.h"

#include <gtest/gtest.h>

#include "script/sample.h"

namespace sash::script {
namespace {

TEST(Captions, RunInTheTimeOfTheWholeFilm) {
  const auto cues = narration_cues(sample());
  ASSERT_EQ(cues.size(), 1U);
  EXPECT_EQ(cues[0].from, Moment::seconds(65));
  EXPECT_EQ(cues[0].until, Moment::seconds(68));
}

TEST(Captions, NoiseAndRefusedCalloutsAreLeftOut) {
  auto record = sample();
  record.lines[0].noise = true;
  EXPECT_TRUE(narration_cues(record).empty());
  EXPECT_EQ(callout_cues(record).size(), 1U);
  record.callouts[0].origin.standing = model::Standing::refused;
  EXPECT_TRUE(callout_cues(record).empty());
}

}  // namespace
}  // namespace sash::script
