#include "media/decoder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <condition_variable>
#include <mutex>
#include <random>

#include "clips.h"
#include "media/index_builder.h"

namespace sash::media {
namespace {

using test::clip;

/// Rung by the decoder's thread, waited for by the test.
class Bell {
 public:
  void ring() {
    const std::lock_guard lock(mutex_);
    ++rung_;
    rang_.notify_all();
  }
  void wait() {
    std::unique_lock lock(mutex_);
    rang_.wait(lock, [this] { return rung_ > 0; });
    rung_ = 0;
  }

 private:
  std::mutex mutex_;
  std::condition_variable rang_;
  int rung_ = 0;
};

std::shared_ptr<const FrameIndex> index_of(const test::fs::path& file) {
  Progress progress;
  auto index = build_frame_index(file, progress);
  if (!index) throw std::runtime_error(index.fault().sentence);
  return std::make_shared<const FrameIndex>(std::move(*index));
}

/// Waits for the exact answer (or the fault) to the latest request; `before` takes the stand-ins.
Shown exact_answer(Decoder& decoder, Bell& bell, std::vector<Shown>* before = nullptr) {
  for (;;) {
    for (Shown& s : decoder.take()) {
      if (s.exact || s.fault) return s;
      if (before != nullptr) before->push_back(s);
    }
    bell.wait();
  }
}

class DecoderOn : public testing::TestWithParam<const char*> {
 protected:
  test::fs::path file_ = clip(GetParam());
  std::vector<Moment> times_ = test::listed_times(file_);
  std::vector<std::string> hashes_ = test::listed_hashes(file_);
  Bell bell_;
  Decoder decoder_{file_, {.deinterlace = false}, [this] { bell_.ring(); }};

  void expect_frame(const Shown& s, std::size_t i) {
    ASSERT_FALSE(s.fault) << s.fault->sentence;
    ASSERT_NE(s.picture, nullptr);
    EXPECT_EQ(s.picture->at, times_[i]) << "frame " << i;
    EXPECT_EQ(test::md5_of(*s.picture), hashes_[i]) << "frame " << i;
  }
};

TEST_P(DecoderOn, ShowsAndStepsExactlyWithAndWithoutTheIndex) {
  std::mt19937 dice(7);
  for (const bool with_index : {false, true}) {
    if (with_index) decoder_.use_index(index_of(file_));
    for (int round = 0; round < 12; ++round) {
      std::size_t i = dice() % times_.size();
      decoder_.show(times_[i], round % 2 == 0 ? Way::exact : Way::quick_first);
      expect_frame(exact_answer(decoder_, bell_), i);
      for (const int by : {-1, -1, 1, 3, -2}) {
        const Moment from = times_[i];
        i = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(static_cast<std::ptrdiff_t>(i) + by, 0,
                                                                static_cast<std::ptrdiff_t>(times_.size()) - 1));
        decoder_.step(from, by);
        expect_frame(exact_answer(decoder_, bell_), i);
      }
    }
  }
}

TEST_P(DecoderOn, PlaysEveryFrameOnceInOrderBothWays) {
  decoder_.use_index(index_of(file_));
  const std::size_t first = times_.size() / 3;
  for (const auto way : {Decoder::Direction::forward, Decoder::Direction::backward}) {
    const bool forward = way == Decoder::Direction::forward;
    decoder_.play(times_[first], way, 1);
    std::size_t i = first;
    Moment now = times_[first];
    for (;;) {
      const Decoder::Due due = decoder_.take_due(now);
      ASSERT_FALSE(due.fault);
      if (due.picture != nullptr) {
        ASSERT_EQ(due.skipped, 0);
        ASSERT_EQ(due.picture->at, times_[i]) << (forward ? "forward " : "backward ") << i;
        ASSERT_EQ(test::md5_of(*due.picture), hashes_[i]) << i;
        i = forward ? i + 1 : i - 1;
      }
      if (due.ended) break;
      // The clock of this test goes to whatever comes next.
      if (const auto next = decoder_.next_due()) {
        now = *next;
      } else {
        std::this_thread::yield();
      }
    }
    EXPECT_EQ(i, forward ? times_.size() : static_cast<std::size_t>(-1));
  }
}

INSTANTIATE_TEST_SUITE_P(Clips, DecoderOn,
                         testing::Values("h264_open_gop.mp4", "hevc10.mkv", "vp9.webm", "h264.ts", "vfr.mp4",
                                         "edited.mp4", "interlaced.mp4", "prores.mov"),
                         [](const auto& named) {
                           std::string name = named.param;
                           std::replace(name.begin(), name.end(), '.', '_');
                           return name;
                         });

TEST(Decoder, OnlyTheLatestRequestIsAnswered) {
  const auto file = clip("h264_long_gop.mp4");
  Bell bell;
  Decoder decoder(file, {}, [&] { bell.ring(); });
  decoder.use_index(index_of(file));
  Generation last = 0;
  for (int i = 0; i < 60; ++i) {
    last = decoder.show(Moment::millis(40 * i), Way::quick_first);
    for (const Shown& s : decoder.take()) EXPECT_EQ(s.generation, last);
  }
  const Shown shown = exact_answer(decoder, bell);
  EXPECT_EQ(shown.generation, last);
  ASSERT_NE(shown.picture, nullptr);
  EXPECT_LE(shown.picture->at, Moment::millis(40 * 59));
  EXPECT_GT(shown.picture->at + shown.picture->lasts, Moment::millis(40 * 59));
}

TEST(Decoder, ScrubbingShowsAStandInFirst) {
  const auto file = clip("h264_long_gop.mp4");
  Bell bell;
  Decoder decoder(file, {}, [&] { bell.ring(); });
  decoder.use_index(index_of(file));
  decoder.show(Moment::millis(2500), Way::quick_first);
  std::vector<Shown> before;
  const Shown exact = exact_answer(decoder, bell, &before);
  ASSERT_EQ(before.size(), 1U);
  EXPECT_TRUE(before[0].picture->key);
  EXPECT_EQ(before[0].picture->at, Moment());
  EXPECT_EQ(exact.picture->at, Moment::millis(2500));
}

TEST(Decoder, SaysOnceForEachRequestWhyThereIsNoPicture) {
  Bell bell;
  Decoder decoder("nowhere/missing.mp4", {}, [&] { bell.ring(); });
  for (int i = 0; i < 2; ++i) {
    decoder.show(Moment(), Way::exact);
    const Shown s = exact_answer(decoder, bell);
    ASSERT_TRUE(s.fault);
    EXPECT_EQ(s.fault->sentence, "There is no file 'nowhere/missing.mp4'; check the path or find the footage again.");
  }
  decoder.play(Moment(), Decoder::Direction::forward, 1);
  while (!decoder.take_due(Moment()).fault) bell.wait();  // a ring may still be that of the request before
}

TEST(Decoder, StopsInTheMiddleOfWork) {
  for (int i = 0; i < 20; ++i) {
    Bell bell;
    Decoder decoder(clip("hevc10.mp4"), {}, [&] { bell.ring(); });
    decoder.show(Moment::millis(100 * i), Way::quick_first);
    if (i % 4 != 0) bell.wait();  // the stand-in is there, the exact one is being decoded
    if (i % 2 == 0) decoder.play(Moment::millis(50 * i), Decoder::Direction::backward, 1);
    if (i % 4 == 2) bell.wait();  // the queue fills
  }
}

// A bare stream has no times: which frame is where only its index tells, but which is the first is plain.
TEST(Decoder, ABareStreamShowsItsFirstFrameBeforeItsIndexIsThere) {
  const auto file = clip("bare.h264");
  Bell bell;
  Decoder decoder(file, {}, [&] { bell.ring(); });
  decoder.show(Moment(), Way::quick_first);
  const Shown first = exact_answer(decoder, bell);
  ASSERT_FALSE(first.fault) << first.fault->sentence;
  ASSERT_NE(first.picture, nullptr);
  EXPECT_EQ(first.picture->at, Moment());
  EXPECT_EQ(test::md5_of(*first.picture), test::listed_hashes(file).front());
}

TEST(Decoder, InterlacedFramesAreWovenForShowing) {
  const auto file = clip("interlaced.mp4");
  const auto hashes = test::listed_hashes(file);
  const auto index = index_of(file);
  Bell bell;
  Decoder decoder(file, {}, [&] { bell.ring(); });
  decoder.use_index(index);
  for (const std::size_t i : {0U, 7U, 24U, 25U, 49U}) {
    decoder.show(index->frame(i).at, Way::exact);
    const Shown s = exact_answer(decoder, bell);
    ASSERT_NE(s.picture, nullptr);
    EXPECT_EQ(s.picture->at, index->frame(i).at);
    EXPECT_FALSE(s.picture->interlaced);
    EXPECT_NE(test::md5_of(*s.picture), hashes[i]);
  }
}

}  // namespace
}  // namespace sash::media
