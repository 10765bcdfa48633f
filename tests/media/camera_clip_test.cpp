// One real camera clip: an Android phone's, variable frame rate, with a location tag. Fetched from the Debian archive.
#include <gtest/gtest.h>

#include <random>

#include "clips.h"
#include "media/index_builder.h"
#include "media/inner/exact.h"
#include "media/probe.h"
#include "tools/camera_clip.h"

namespace sash::media {
namespace {

// The facts are those ffprobe 5.1 states of the file, and its package: 1920x1080 H.264 High, AAC stereo, BT.709,
// location tag.
TEST(CameraClip, IsKnownAndExactFrameByFrame) {
  const auto file = sash::test::camera_clip();
  if (!file) {
    ASSERT_FALSE(sash::test::must_have_clip()) << sash::test::no_camera_clip;
    GTEST_SKIP() << sash::test::no_camera_clip;
  }
  const auto facts = probe(*file);
  ASSERT_TRUE(facts.ok()) << facts.fault().sentence;
  ASSERT_TRUE(facts->video && facts->audio);
  EXPECT_EQ(facts->video->codec, "h264");
  EXPECT_EQ(facts->video->coded, (Size{1920, 1080}));
  EXPECT_EQ(facts->video->colour,
            (Colour{Matrix::bt709, Primaries::bt709, Transfer::bt709, facts->video->colour.range}));
  EXPECT_EQ(facts->audio->codec, "aac");
  EXPECT_EQ(facts->audio->channels, 2);
  EXPECT_TRUE(facts->video->variable_rate);
  EXPECT_TRUE(facts->has_location);

  const auto times = test::listed_times(*file);
  const auto hashes = test::listed_hashes(*file);
  Progress progress;
  auto built = build_frame_index(*file, progress);
  ASSERT_TRUE(built.ok());
  const auto index = std::make_shared<const FrameIndex>(std::move(*built));
  EXPECT_TRUE(index->variable_rate());
  ASSERT_EQ(index->count(), times.size());
  for (std::size_t i = 0; i < times.size(); ++i) ASSERT_EQ(index->frame(i).at, times[i]);

  auto reader = inner::VideoReader::open(*file, {.threads = 2, .deinterlace = false}, {});
  ASSERT_TRUE(reader.ok());
  reader->use_index(index);
  std::mt19937 dice(11);
  for (int round = 0; round < 20; ++round) {
    const std::size_t i = dice() % times.size();
    const auto found = inner::find_picture(*reader, times[i], Moment(), {});
    ASSERT_TRUE(found.ok() && *found != nullptr);
    EXPECT_EQ((*found)->at, times[i]);
    EXPECT_EQ(test::md5_of(**found), hashes[i]) << i;
  }
}

}  // namespace
}  // namespace sash::media
