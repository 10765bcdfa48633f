// Every clip, frame by frame: the index against ffprobe's listing, pictures against ffmpeg's hashes, random seeks
// against both.
#include <gtest/gtest.h>

#include <map>
#include <random>
#include <stdexcept>

#include "clips.h"
#include "media/index_builder.h"
#include "media/inner/exact.h"
#include "media/waveform.h"
#include "support/text.h"

namespace sash::media {
namespace {

using inner::VideoReader;
using test::clip;

/// What ffmpeg and our index say of a clip; asked once, used by all its tests.
struct Listing {
  std::vector<Moment> times;
  std::vector<std::string> hashes;
  std::shared_ptr<const FrameIndex> index;
};

const Listing& listing_of(const std::string& name) {
  static std::map<std::string, Listing> kept;
  const auto [entry, fresh] = kept.try_emplace(name);
  if (!fresh) return entry->second;
  const auto file = clip(name);
  Progress progress;
  auto built = build_frame_index(file, progress);
  if (!built) throw std::runtime_error(built.fault().sentence);
  entry->second = {test::listed_times(file), test::listed_hashes(file),
                   std::make_shared<const FrameIndex>(std::move(*built))};
  return entry->second;
}

class ExactFrames : public testing::TestWithParam<const char*> {
 protected:
  void SetUp() override {
    file_ = clip(GetParam());
    const Listing& listing = listing_of(GetParam());
    times_ = listing.times;
    hashes_ = listing.hashes;
    index_ = listing.index;
    ASSERT_FALSE(times_.empty());
    ASSERT_EQ(times_.size(), hashes_.size());
  }

  VideoReader open(bool with_index) {
    auto reader = VideoReader::open(file_, {.threads = 2, .deinterlace = false}, {});
    if (!reader) throw std::runtime_error(reader.fault().sentence);
    if (with_index) reader->use_index(index_);
    return std::move(*reader);
  }

  /// Which frame of the listing a picture is; the listing's size when none.
  std::size_t number_of(const Picture& p) const {
    const std::string md5 = test::md5_of(p);
    const auto near = index_->frame_at(p.at);
    if (near && *near < hashes_.size() && hashes_[*near] == md5) return *near;
    return static_cast<std::size_t>(std::find(hashes_.begin(), hashes_.end(), md5) - hashes_.begin());
  }

  void seek_at_random(bool with_index, int rounds) {
    VideoReader reader = open(with_index);
    std::mt19937 dice(20240611);
    for (int round = 0; round < rounds; ++round) {
      const std::size_t i = dice() % times_.size();
      const Moment end = i + 1 < times_.size() ? times_[i + 1] : times_[i] + Moment::millis(10);
      const Moment inside = Moment::ticks(static_cast<std::int64_t>(dice() % 1000) * (end - times_[i]).count() / 1000);
      const Moment target = round % 3 == 0 ? times_[i] : times_[i] + inside;
      const auto found = inner::find_picture(reader, target, Moment::millis(200), {});
      ASSERT_TRUE(found.ok()) << found.fault().sentence;
      ASSERT_NE(*found, nullptr);
      EXPECT_EQ((*found)->at, times_[i]) << "frame " << i;
      EXPECT_EQ(number_of(**found), i) << "round " << round << ", target " << target.in_seconds();
    }
  }

  test::fs::path file_;
  std::vector<Moment> times_;
  std::vector<std::string> hashes_;
  std::shared_ptr<const FrameIndex> index_;
};

TEST(FieldPictures, AreKnownByTheIndex) {
  for (const char* name : {"fields.ts", "fields.mp4", "fields.mkv"}) {
    EXPECT_TRUE(listing_of(name).index->field_pictures()) << name;
    EXPECT_EQ(listing_of(name).index->count(), 50U) << name;
  }
  EXPECT_FALSE(listing_of("interlaced.mp4").index->field_pictures());
}

// AVI files no presentation times: with reordered frames, packets tell only the order of decoding. Such files are meant
// to show frame n at n / rate; ffmpeg's hashes say which picture that is.
TEST(FramesWithoutTimes, AreShownInOrderAtTheSteadyRate) {
  const auto file = clip("h264_b.avi");
  const auto hashes = test::listed_hashes(file);
  Progress progress;
  const auto index = build_frame_index(file, progress);
  ASSERT_TRUE(index.ok()) << index.fault().sentence;
  EXPECT_TRUE(index->by_position());
  ASSERT_EQ(index->count(), hashes.size());
  auto reader = VideoReader::open(file, {.threads = 2, .deinterlace = false}, {});
  ASSERT_TRUE(reader.ok());
  reader->use_index(std::make_shared<const FrameIndex>(*index));
  std::mt19937 dice(3);
  for (int round = 0; round < 40; ++round) {
    const std::size_t i = dice() % hashes.size();
    EXPECT_EQ(index->frame(i).at - index->frame(0).at, Moment::rational(static_cast<std::int64_t>(i), 1, 25));
    const auto found = inner::find_picture(*reader, index->frame(i).at, Moment::millis(200), {});
    ASSERT_TRUE(found.ok() && *found != nullptr);
    EXPECT_EQ((*found)->at, index->frame(i).at);
    EXPECT_EQ(test::md5_of(**found), hashes[i]) << i;
  }
}

// A recording in two files put end to end, as a camera's chapters are: the times begin anew at the join. The frame
// right before it may be given up: the container cannot tell whether it is whole.
TEST(JoinedStreams, GoOnBehindTheJoin) {
  const std::string once = test::bytes_of(clip("h264.ts"));
  const auto times = test::listed_times(clip("h264.ts"));
  const auto hashes = test::listed_hashes(clip("h264.ts"));
  const auto file = test::clip_of_bytes("joined.ts", once + once);
  Progress progress;
  const auto index = build_frame_index(file, progress);
  ASSERT_TRUE(index.ok()) << index.fault().sentence;
  const std::size_t join = index->count() - hashes.size();
  ASSERT_GE(join + 1, hashes.size());
  auto reader = VideoReader::open(file, {.threads = 1, .deinterlace = false}, {});
  ASSERT_TRUE(reader.ok());
  reader->use_index(std::make_shared<const FrameIndex>(*index));
  for (const std::size_t i : {join + 23, std::size_t{2}, index->count() - 1, join, std::size_t{0}, join + 1}) {
    const std::size_t run = i < join ? 0 : join;
    EXPECT_EQ(index->frame(i).at - index->frame(run).at, times[i - run] - times[0]) << i;
    const auto found = inner::find_picture(*reader, index->frame(i).at, Moment(), {});
    ASSERT_TRUE(found.ok() && *found != nullptr);
    EXPECT_EQ((*found)->at, index->frame(i).at);
    EXPECT_EQ(test::md5_of(**found), hashes[i - run]) << i;
  }
  const auto sound = make_waveform(file, progress);
  ASSERT_TRUE(sound.ok());
  // The tone lasts as long as the picture, up to the frames of its codec (AC-3: 32 ms).
  EXPECT_NEAR(static_cast<double>(sound->steps.size()) * 0.01, index->extent().until.in_seconds(), 0.1);
}

/// The program's index of a file and its reader with it.
struct Opened {
  std::shared_ptr<const FrameIndex> index;
  VideoReader reader;
};

Opened opened(const test::fs::path& file) {
  Progress progress;
  auto index = build_frame_index(file, progress);
  if (!index) throw std::runtime_error(index.fault().sentence);
  auto reader = VideoReader::open(file, {.threads = 2, .deinterlace = false}, {});
  if (!reader) throw std::runtime_error(reader.fault().sentence);
  Opened both{std::make_shared<const FrameIndex>(std::move(*index)), std::move(*reader)};
  both.reader.use_index(both.index);
  return both;
}

/// Every frame by itself, from the last to the first, so that each is entered anew.
void expect_each_found(Opened& clip, const std::vector<std::string>& hashes) {
  ASSERT_EQ(clip.index->count(), hashes.size());
  for (std::size_t i = hashes.size(); i-- > 0;) {
    const auto found = inner::find_picture(clip.reader, clip.index->frame(i).at, Moment(), {});
    ASSERT_TRUE(found.ok() && *found != nullptr) << i;
    EXPECT_EQ((*found)->at, clip.index->frame(i).at) << i;
    EXPECT_EQ(test::md5_of(**found), hashes[i]) << i;
  }
}

// With an open group at the end the last frame shown is stored right behind the last key: H.264's decoder loses it when
// entered there.
TEST(LastFrame, IsFoundWhenStoredRightBehindItsKey) {
  Opened pyramid = opened(clip("h264_pyramid.mkv"));
  EXPECT_LT(pyramid.index->keys().back().at, pyramid.index->frames().back().at);
  expect_each_found(pyramid, test::listed_hashes(clip("h264_pyramid.mkv")));
}

// Program streams end with a packet that has no time: ffmpeg shows its frame, ffprobe knows no time for it. At a steady
// rate it can only be one step behind the frame before.
TEST(LastFrame, WithoutATimeFollowsTheOneBefore) {
  const auto file = clip("mpeg2.vob");
  const auto times = test::listed_times(file);
  Opened stream = opened(file);
  expect_each_found(stream, test::listed_hashes(file));
  ASSERT_EQ(stream.index->count(), times.size() + 1);
  EXPECT_EQ(stream.index->frames().back().at, times.back() + Moment::rational(1001, 1, 30000));
}

// The tables by which MXF is entered stand at its end; without them libav goes by an estimate.
TEST(CutMxf, ShowsTheFrameThatIsAtTheTime) {
  const std::string whole = test::bytes_of(clip("mpeg2.mxf"));
  const auto file = test::clip_of_bytes("cut.mxf", whole.substr(0, whole.size() * 2 / 3));
  Opened cut = opened(file);
  auto hashes = test::listed_hashes(file);
  EXPECT_GE(cut.index->count() + 1, hashes.size()) << "all but the one that was cut";
  hashes.resize(cut.index->count());
  expect_each_found(cut, hashes);
}

TEST(OneFrame, IsOnScreenAtAnyTime) {
  for (const std::string kind : {"mp4", "mkv", "ts", "webm", "mov", "avi"}) {
    const std::string codec = kind == "webm" ? "libvpx" : kind == "avi" ? "mjpeg" : "libx264";
    const auto file = test::clip_folder() / ("one." + kind);
    test::output_of("ffmpeg -y -nostdin -v error -f lavfi -i testsrc2=size=64x48 -frames:v 1 -pix_fmt " +
                    std::string(codec == "mjpeg" ? "yuvj420p" : "yuv420p") + " -c:v " + codec + " '" + file.string() +
                    "' 2>&1");
    Opened one = opened(file);
    ASSERT_EQ(one.index->count(), 1U) << kind;
    for (const Moment at : {Moment(), one.index->frame(0).at, Moment::seconds(5)}) {
      const auto found = inner::find_picture(one.reader, at, Moment(), {});
      ASSERT_TRUE(found.ok() && *found != nullptr) << kind;
      EXPECT_EQ(test::md5_of(**found), test::listed_hashes(file).at(0)) << kind;
    }
  }
}

// In program streams several pictures share a packet and a time. Put end to end, all of them are there still.
TEST(JoinedStreams, KeepPicturesThatShareAPacket) {
  const auto hashes = test::listed_hashes(clip("clicks_mp2.mpg"));
  const std::string once = test::bytes_of(clip("clicks_mp2.mpg"));
  Opened twice = opened(test::clip_of_bytes("joined.mpg", once + once));
  ASSERT_EQ(twice.index->joins().size(), 1U);
  const std::size_t count = twice.index->count();
  ASSERT_GE(count + 1, 2 * hashes.size()) << "all but the one right before the join";
  for (std::size_t i = 1; i < count; ++i) {
    const Moment step = twice.index->frame(i).at - twice.index->frame(i - 1).at;
    EXPECT_NEAR(step.in_seconds(), 1.0 / 30, 0.0001) << i;
  }
  for (std::size_t i = count; i-- > 0;) {
    const auto found = inner::find_picture(twice.reader, twice.index->frame(i).at, Moment(), {});
    ASSERT_TRUE(found.ok() && *found != nullptr) << i;
    EXPECT_EQ((*found)->at, twice.index->frame(i).at) << i;
    const std::size_t behind = count - hashes.size();
    EXPECT_EQ(test::md5_of(**found), i < behind ? hashes[i] : hashes[i - behind]) << i;
  }
}

TEST(PlanarRgb, ArrivesAsTheSamePixelsPacked) {
  const auto file = clip("h264_rgb.mkv");
  auto reader = VideoReader::open(file, {.threads = 1, .deinterlace = false}, {});
  ASSERT_TRUE(reader.ok());
  const auto first = reader->next();
  ASSERT_TRUE(first.ok() && *first != nullptr);
  EXPECT_EQ((*first)->kind, PlaneKind::rgba);
  const std::string raw = test::output_of("ffmpeg -nostdin -v error -i '" + file.string() +
                                          "' -frames:v 1 -pix_fmt rgba -f rawvideo - | md5sum | cut -c1-32");
  EXPECT_EQ(test::md5_of(**first), std::string(trim(raw)));
}

TEST_P(ExactFrames, IndexHasExactlyTheFramesFfprobeLists) {
  ASSERT_EQ(index_->count(), times_.size());
  for (std::size_t i = 0; i < times_.size(); ++i) ASSERT_EQ(index_->frame(i).at, times_[i]) << "frame " << i;
  const auto again = FrameIndex::from_bytes(index_->to_bytes());
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(*again, *index_);
}

TEST_P(ExactFrames, ReadingThroughGivesEveryFrameOnce) {
  for (const bool with_index : {true, false}) {
    VideoReader reader = open(with_index);
    for (std::size_t i = 0; i < times_.size(); ++i) {
      const auto next = reader.next();
      ASSERT_TRUE(next.ok() && *next != nullptr) << "frame " << i;
      ASSERT_EQ((*next)->at, times_[i]) << "frame " << i;
      ASSERT_EQ(test::md5_of(**next), hashes_[i]) << "frame " << i;
    }
    const auto end = reader.next();
    ASSERT_TRUE(end.ok());
    EXPECT_EQ(*end, nullptr);
  }
}

TEST_P(ExactFrames, SeekingShowsTheFrameOnScreen) { seek_at_random(true, 40); }
TEST_P(ExactFrames, SeekingBeforeTheIndexExistsIsExactToo) { seek_at_random(false, 20); }

TEST_P(ExactFrames, SteppingBackAndForthLandsOnNeighbours) {
  VideoReader reader = open(true);
  std::size_t at = times_.size() / 2;
  for (const int by : {-1, -1, 1, 1, 1, -1, 1, -1, -1, -1}) {
    at = static_cast<std::size_t>(static_cast<std::ptrdiff_t>(at) + by);
    const auto found = inner::find_picture(reader, times_[at], Moment(), {});
    ASSERT_TRUE(found.ok() && *found != nullptr);
    EXPECT_EQ((*found)->at, times_[at]);
    EXPECT_EQ(test::md5_of(**found), hashes_[at]);
  }
}

INSTANTIATE_TEST_SUITE_P(Clips, ExactFrames,
                         testing::Values("h264_open_gop.mp4", "h264_open_gop.mkv", "h264_long_gop.mp4", "h264_2997.mp4",
                                         "h264_444.mp4", "h264_422.mp4", "hevc8.mp4", "hevc10.mp4", "hevc10.mkv",
                                         "hevc10.ts", "vp9.webm", "vp8.webm", "av1.mp4", "prores.mov", "mjpeg.avi",
                                         "mpeg2.mpg", "telecine.mpg", "h264.ts", "h264_open_gop.ts", "fragmented.mp4",
                                         "vfr.mkv", "vfr.mp4", "rotated.mp4", "anamorphic.mp4", "interlaced.mp4",
                                         "edited.mp4", "delayed_sound.mp4", "delayed_picture.mp4", "silent.mp4",
                                         "moov_first.mp4", "h264_refresh.mp4", "h264_refresh.ts", "hevc_pyramid.mov",
                                         "h264.m2ts", "wrapping.ts", "late.mkv", "early.mov", "mpeg2.mxf", "hidden.mp4",
                                         "av1.webm", "dv.avi", "dnxhr.mov", "odd.webm", "jitter.mp4", "slow.mkv",
                                         "fast.mp4", "below_zero.mp4", "each_frame_a_fragment.mp4", "two_sounds.mkv",
                                         "pq.mp4", "fields.ts", "fields.mp4", "fields.mkv"),
                         [](const auto& named) {
                           std::string name = named.param;
                           std::replace(name.begin(), name.end(), '.', '_');
                           return name;
                         });

}  // namespace
}  // namespace sash::media
