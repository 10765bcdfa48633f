// Sound of recordings put end to end in one MPEG stream: beside its picture again behind every join. Each recording has
// two clicks; where they stand beside its first picture, ffmpeg and ffprobe say of the recording alone.
#include <gtest/gtest.h>

#include <cmath>
#include <cstring>

#include "clips.h"
#include "media/index_builder.h"
#include "media/inner/sound_reader.h"
#include "media/waveform.h"
#include "support/text.h"

namespace sash::media {
namespace {

using test::clip;

/// When clicks begin, as the time of the first sample that is loud after 100 ms without one.
class Clicks {
 public:
  void take(Moment from, std::span<const float> samples, int rate) {
    for (std::size_t i = 0; i < samples.size(); ++i) {
      if (std::abs(samples[i]) < 0.1F) continue;
      const Moment at = from + Moment::rational(static_cast<std::int64_t>(i), 1, rate);
      if (!loud_ || at - *loud_ > Moment::millis(100)) found.push_back(at);
      loud_ = at;
    }
  }
  std::vector<Moment> found;

 private:
  std::optional<Moment> loud_;
};

std::int64_t first_stamp(const test::fs::path& file, const std::string& kind) {
  const std::string said =
      test::output_of("ffprobe -v error -select_streams " + kind +
                      " -show_entries stream=start_pts -of default=nw=1:nk=1 '" + file.string() + "'");
  return *read_integer(trim(split_lines(said).front()));
}

/// From the first picture of a recording, by ffmpeg's decoding of it alone.
std::vector<Moment> clicks_beside_picture(const test::fs::path& file) {
  const std::string bytes =
      test::output_of("ffmpeg -nostdin -v error -i '" + file.string() + "' -map 0:a -ac 1 -ar 48000 -f f32le - ");
  std::vector<float> samples(bytes.size() / sizeof(float));
  std::memcpy(samples.data(), bytes.data(), samples.size() * sizeof(float));
  Clicks clicks;
  clicks.take(Moment::rational(first_stamp(file, "a") - first_stamp(file, "v"), 1, 90000), samples, 48000);
  return clicks.found;
}

std::vector<Moment> clicks_read(inner::SoundReader& reader) {
  Clicks clicks;
  for (;;) {
    const auto block = reader.next();
    if (!block || !*block) return clicks.found;
    clicks.take((*block)->at, (*block)->samples, reader.rate());
  }
}

struct Joined {
  test::fs::path file;
  std::shared_ptr<const FrameIndex> index;
  std::vector<Moment> clicks;  ///< as they should be heard
};

Joined joined(const std::string& name, const std::vector<std::string>& parts) {
  Joined all;
  std::string bytes;
  for (const std::string& part : parts) bytes += test::bytes_of(clip(part));
  all.file = test::clip_of_bytes(name, bytes);
  Progress progress;
  auto index = build_frame_index(all.file, progress);
  if (!index) throw std::runtime_error(index.fault().sentence);
  all.index = std::make_shared<const FrameIndex>(std::move(*index));
  // A run begins where the picture does: at the key behind each join.
  std::vector<Moment> begins{all.index->frame(0).at};
  for (const Join& join : all.index->joins()) {
    for (const KeyPlace& key : all.index->keys()) {
      if (key.position < join.position) continue;
      begins.push_back(key.at);
      break;
    }
  }
  if (begins.size() != parts.size()) throw std::runtime_error("not every join was found");
  for (std::size_t i = 0; i < parts.size(); ++i) {
    for (const Moment click : clicks_beside_picture(clip(parts[i]))) all.clicks.push_back(begins[i] + click);
  }
  return all;
}

inner::SoundReader reader_of(const Joined& all) {
  auto reader = inner::SoundReader::open(all.file, 48000, 1, {});
  if (!reader) throw std::runtime_error(reader.fault().sentence);
  reader->use_index(all.index);
  return std::move(*reader);
}

// A sample is 0.02 ms; time stamps of 1/90000 s round by half of that.
constexpr double sample = 0.0001;

void expect_same(const std::vector<Moment>& heard, std::span<const Moment> expected) {
  ASSERT_EQ(heard.size(), expected.size());
  for (std::size_t i = 0; i < heard.size(); ++i)
    EXPECT_NEAR(heard[i].in_seconds(), expected[i].in_seconds(), sample) << i;
}

const std::vector<std::vector<std::string>> recordings{
    {"clicks_ac3.ts", "clicks_ac3.ts", "clicks_ac3.ts"},
    {"clicks_short_sound.ts", "clicks_late_sound.ts", "clicks_ac3.ts"},
    {"clicks_late_sound.ts", "clicks_long_sound.ts", "clicks_short_sound.ts", "clicks_late_sound.ts"},
    {"clicks_mp2.mpg", "clicks_mp2.mpg"},
};

TEST(JoinedSound, StaysBesideItsPictureThroughEveryJoin) {
  for (const auto& parts : recordings) {
    const Joined all = joined("joined_sound." + std::string(parts[0].ends_with("mpg") ? "mpg" : "ts"), parts);
    auto reader = reader_of(all);
    SCOPED_TRACE(parts[0] + " first of " + std::to_string(parts.size()));
    expect_same(clicks_read(reader), all.clicks);
  }
}

TEST(JoinedSound, IsFoundAgainByJumpingAnywhere) {
  for (const auto& parts : recordings) {
    const Joined all = joined("jumped_sound." + std::string(parts[0].ends_with("mpg") ? "mpg" : "ts"), parts);
    auto reader = reader_of(all);
    SCOPED_TRACE(parts[0] + " first of " + std::to_string(parts.size()));
    for (const std::size_t i :
         {all.clicks.size() - 1, std::size_t{0}, all.clicks.size() / 2, std::size_t{1}, all.clicks.size() - 2}) {
      reader.seek(all.clicks[i] - Moment::millis(150));
      const auto first = reader.next();
      ASSERT_TRUE(first.ok() && *first);
      EXPECT_NEAR((*first)->at.in_seconds(), all.clicks[i].in_seconds() - 0.15, 0.04);
      reader.seek(all.clicks[i] - Moment::millis(150));
      expect_same(clicks_read(reader), std::span(all.clicks).subspan(i));
    }
  }
}

TEST(JoinedSound, IsDrawnWhereItIsHeard) {
  const Joined all = joined("drawn_sound.ts", recordings[1]);
  Progress progress;
  const auto wave = make_waveform(all.file, progress, all.index);
  ASSERT_TRUE(wave.ok());
  for (const Moment click : all.clicks) {
    EXPECT_GT(wave->over({click, click + Moment::millis(4)}).high, 3000);
    EXPECT_LT(wave->over({click - Moment::millis(60), click - Moment::millis(20)}).high, 1000);
  }
}

}  // namespace
}  // namespace sash::media
