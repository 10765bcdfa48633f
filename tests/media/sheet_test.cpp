// What the running sheet is drawn from: stills and waveforms; and the bytes they and the index are kept as.
#include <gtest/gtest.h>

#include <set>

#include "clips.h"
#include "media/index_builder.h"
#include "media/stills.h"
#include "media/waveform.h"

namespace sash::media {
namespace {

using test::clip;

FrameIndex index_of(const std::string& name) {
  Progress progress;
  auto index = build_frame_index(clip(name), progress);
  if (!index) throw std::runtime_error(index.fault().sentence);
  return std::move(*index);
}

TEST(Stills, WithoutSlackEachIsTheFrameOnScreen) {
  for (const char* name : {"h264_open_gop.mp4", "vp9.webm", "h264.ts"}) {
    const FrameIndex index = index_of(name);
    const std::vector<Moment> moments{Moment::millis(2900), Moment(), Moment::millis(1333), Moment::millis(1340)};
    std::set<std::size_t> made;
    Progress progress;
    const Done done =
        make_stills(clip(name), moments, Moment(), {160, 90}, &index, progress, [&](std::size_t i, Still still) {
          made.insert(i);
          EXPECT_EQ(still.at, index.frame(*index.frame_at(moments[i])).at) << name << ' ' << i;
          EXPECT_EQ(still.image.size, (Size{160, 90}));
        });
    ASSERT_TRUE(done.ok());
    EXPECT_EQ(made.size(), moments.size());
    EXPECT_EQ(progress.share(), 1);
  }
}

TEST(Stills, WithSlackANearKeyStandsIn) {
  // Keys every 20 frames of 30 a second.
  const FrameIndex index = index_of("h264_open_gop.mp4");
  const std::vector<Moment> moments{Moment::millis(100), Moment::millis(600), Moment::millis(700)};
  std::vector<Moment> at(3);
  Progress progress;
  ASSERT_TRUE(make_stills(clip("h264_open_gop.mp4"), moments, Moment::millis(300), {160, 90}, &index, progress,
                          [&](std::size_t i, Still still) { at[i] = still.at; })
                  .ok());
  EXPECT_EQ(at[0], Moment());             // the key at 0 is 100 ms back
  EXPECT_EQ(at[1], Moment::millis(600));  // 600 ms from its key: exact
  EXPECT_EQ(at[2], index.frame(20).at);   // the key at 667 ms
}

TEST(Stills, AStillIsTheSamePictureWithAndWithoutTheIndex) {
  for (const char* name : {"hevc10.mkv", "vfr.mp4", "edited.mp4", "rotated.mp4"}) {
    const FrameIndex index = index_of(name);
    Progress progress;
    const auto with = still_at(clip(name), Moment::millis(1234), {}, Quality::accurate, &index, progress);
    const auto without = still_at(clip(name), Moment::millis(1234), {}, Quality::accurate, nullptr, progress);
    ASSERT_TRUE(with.ok() && without.ok());
    EXPECT_EQ(with->at, without->at) << name;
    EXPECT_EQ(with->image, without->image) << name;
  }
}

// clips.cpp: full-scale 0.5 upward for 5 ms at 1 s, 0.25 downward at 2.5 s, silence elsewhere; 48 kHz, 16 bits.
TEST(Waveform, PutsEachClickInItsTenMilliseconds) {
  Progress progress;
  const auto w = make_waveform(clip("clicks.wav"), progress);
  ASSERT_TRUE(w.ok()) << w.fault().sentence;
  ASSERT_EQ(w->steps.size(), 300U);
  for (std::size_t i = 0; i < w->steps.size(); ++i) {
    EXPECT_NEAR(w->steps[i].high, i == 100 ? 16384 : 0, 2) << i;
    EXPECT_NEAR(w->steps[i].low, i == 250 ? -8192 : 0, 2) << i;
  }
  EXPECT_EQ(w->over({Moment::millis(900), Moment::millis(1100)}).high, w->steps[100].high);
  EXPECT_EQ(w->over({Moment::seconds(50), Moment::seconds(51)}), Waveform::Extent{});
}

// sine has an amplitude of 1/8 (ffmpeg-filters, sine).
TEST(Waveform, EveryCodecShowsTheSameTone) {
  for (const char* name :
       {"sound.m4a", "sound.mp3", "sound.wav", "sound.opus", "sound.ac3", "h264_2997.mp4", "mjpeg.avi", "h264.ts"}) {
    Progress progress;
    const auto w = make_waveform(clip(name), progress);
    ASSERT_TRUE(w.ok()) << name;
    EXPECT_NEAR(static_cast<double>(w->steps.size()), 300, 8) << name;
    for (std::size_t i = 20; i < 280; ++i) {
      EXPECT_NEAR(w->steps[i].high, 32767 / 8, 350) << name << ' ' << i;
      EXPECT_NEAR(w->steps[i].low, -32767 / 8, 350) << name << ' ' << i;
    }
  }
}

TEST(Waveform, LateSoundStartsLate) {
  Progress progress;
  const auto w = make_waveform(clip("delayed_sound.mp4"), progress);
  ASSERT_TRUE(w.ok());
  for (std::size_t i = 0; i < 45; ++i) EXPECT_EQ(w->steps[i], Waveform::Extent{}) << i;
  EXPECT_GT(w->steps[60].high, 3000);
}

TEST(KeptBytes, ComeBackTheSame) {
  Progress progress;
  const auto w = make_waveform(clip("clicks.wav"), progress);
  EXPECT_EQ(*Waveform::from_bytes(w->to_bytes()), *w);
  const FrameIndex index = index_of("vfr.mkv");
  EXPECT_EQ(*FrameIndex::from_bytes(index.to_bytes()), index);
}

TEST(KeptBytes, AnyChangeOrCutIsRefused) {
  const auto bytes = index_of("h264_open_gop.ts").to_bytes();
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    auto changed = bytes;
    changed[i] = static_cast<std::uint8_t>(changed[i] ^ 0x41);
    ASSERT_FALSE(FrameIndex::from_bytes(changed).ok()) << i;
    ASSERT_FALSE(FrameIndex::from_bytes(std::span(bytes).first(i)).ok()) << i;
  }
  EXPECT_EQ(FrameIndex::from_bytes({}).fault().sentence, "The kept frame index is damaged; it will be made again.");
  EXPECT_EQ(Waveform::from_bytes({}).fault().sentence, "The kept waveform is damaged; it will be made again.");
}

TEST(FrameIndex, AnswersBeforeBetweenAndAfterItsFrames) {
  const FrameIndex index({{Moment::millis(10), {}, 0, true},
                          {Moment::millis(20), {}, 1, false},
                          {Moment::millis(50), Moment::millis(5), 2, true}},
                         {{Moment::millis(10), {}, 0}, {Moment::millis(50), {}, 2}}, false, false);
  EXPECT_EQ(index.frame_at(Moment()), 0U);
  EXPECT_EQ(index.frame_at(Moment::millis(19)), 0U);
  EXPECT_EQ(index.frame_at(Moment::millis(20)), 1U);
  EXPECT_EQ(index.frame_at(Moment::millis(900)), 2U);
  EXPECT_EQ(index.next(Moment::millis(20)), 2U);
  EXPECT_EQ(index.next(Moment::millis(60)), std::nullopt);
  EXPECT_EQ(index.previous(Moment::millis(15)), std::nullopt);
  EXPECT_EQ(index.previous(Moment::millis(60)), 1U);
  EXPECT_EQ(index.key_for(Moment::millis(49)), 0U);
  EXPECT_EQ(index.key_for(Moment::millis(50)), 1U);
  EXPECT_EQ(index.key_for(Moment()), std::nullopt);
  EXPECT_EQ(index.extent(), (Stretch{Moment::millis(10), Moment::millis(55)}));
  EXPECT_EQ(index.frame(1).lasts, Moment::millis(30));
  EXPECT_EQ(FrameIndex({}, {}, false, false).frame_at(Moment()), std::nullopt);
}

TEST(FrameIndex, TellsAVariableRateFromRoundedMilliseconds) {
  EXPECT_TRUE(index_of("vfr.mkv").variable_rate());
  EXPECT_FALSE(index_of("h264_open_gop.mkv").variable_rate());  // 33 and 34 ms
  EXPECT_FALSE(index_of("h264_2997.mp4").variable_rate());
}

}  // namespace
}  // namespace sash::media
