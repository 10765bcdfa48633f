// Footage that a bad card, a broken copy or malice made: tiny clips of every container are spoiled at random (always
// the same way). Whatever comes of it, looking, indexing, drawing and decoding end, with frames in order or a sentence.
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <mutex>

#include "fuzz/mangler.h"
#include "media/clips.h"
#include "media/decoder.h"
#include "media/index_builder.h"
#include "media/probe.h"
#include "media/stills.h"
#include "media/waveform.h"

namespace sash::media {
namespace {

using sash::test::Mangler;
using std::chrono::seconds;

/// What structure is made of: sizes and counts at their extremes, names of boxes, marks that begin a packet.
const std::vector<std::string> pieces{std::string(4, '\0'),
                                      std::string(4, '\xff'),
                                      std::string("\x7f\xff\xff\xff", 4),
                                      std::string("\x80\x00\x00\x00", 4),
                                      std::string("\x00\x00\x00\x01", 4),
                                      std::string("\x00\x00\x01\xba", 4),
                                      std::string("\x00\x00\x01\xb3", 4),
                                      std::string("\x1a\x45\xdf\xa3", 4),
                                      std::string("\x01\xff\xff\xff\xff\xff\xff\xff", 8),
                                      std::string(16, '\xff'),
                                      std::string(188, '\x47'),
                                      "moov",
                                      "trak",
                                      "elst",
                                      "stts",
                                      "ctts",
                                      "moof",
                                      "mdat",
                                      "RIFF",
                                      "idx1"};

/// A wake call that can be waited for.
class Bell {
 public:
  void ring() {
    const std::lock_guard lock(mutex_);
    rung_ = true;
    changed_.notify_one();
  }
  bool wait() {
    std::unique_lock lock(mutex_);
    const bool heard = changed_.wait_for(lock, seconds(30), [&] { return rung_; });
    rung_ = false;
    return heard;
  }

 private:
  std::mutex mutex_;
  std::condition_variable changed_;
  bool rung_ = false;
};

void expect_sentence(const Fault& fault) { EXPECT_TRUE(fault.sentence.ends_with('.')) << fault.sentence; }

/// Asks for one picture and waits until the decoder answers, with it or with a sentence.
void expect_answer(Decoder& decoder, Bell& bell) {
  for (;;) {
    ASSERT_TRUE(bell.wait()) << "the decoder does not answer";
    for (const Shown& shown : decoder.take()) {
      if (shown.fault) expect_sentence(*shown.fault);
      if (shown.fault || shown.exact) return;
    }
  }
}

void expect_decodable_or_refused(const test::fs::path& file, std::shared_ptr<const FrameIndex> index) {
  Bell bell;
  Decoder decoder(file, {.deinterlace = true, .threads = 1, .cache_bytes = 16 << 20}, [&] { bell.ring(); });
  decoder.show(Moment::millis(200), Way::quick_first);
  expect_answer(decoder, bell);
  if (index == nullptr || index->empty()) return;
  decoder.use_index(index);
  decoder.show(index->frames().back().at, Way::exact);
  expect_answer(decoder, bell);
  decoder.step(index->frames().back().at, -1);
  expect_answer(decoder, bell);
}

void check(const test::fs::path& file) {
  const auto facts = probe(file);
  if (!facts) return expect_sentence(facts.fault());
  Progress progress;
  if (const auto wave = make_waveform(file, progress); !wave) expect_sentence(wave.fault());
  const auto index = build_frame_index(file, progress);
  if (!index) return expect_sentence(index.fault());
  ASSERT_LE(index->count(), static_cast<std::size_t>(facts->bytes)) << "more frames than bytes";
  const auto again = FrameIndex::from_bytes(index->to_bytes());
  ASSERT_TRUE(again.ok());
  ASSERT_EQ(*again, *index);
  const auto shared = std::make_shared<const FrameIndex>(*index);
  const auto still = still_at(file, index->frame(index->count() / 2).at, {32, 32}, Quality::fast, &*shared, progress);
  if (!still) expect_sentence(still.fault());
  expect_decodable_or_refused(file, shared);
}

class SpoiledFootage : public testing::TestWithParam<const char*> {};

TEST_P(SpoiledFootage, IsRefusedOrPlaysAsFarAsItGoes) {
  const std::string name = GetParam();
  const std::string whole = test::bytes_of(test::clip(name));
  check(test::clip(name));
  Mangler mangler(std::hash<std::string>()(name));
  for (int round = 0; round < 24; ++round) {
    // Each head is spoiled more often than the long middle of pictures.
    const std::size_t head = std::min<std::size_t>(whole.size(), 2048);
    const std::string bytes = round % 3 == 0   ? mangler.mangle(whole.substr(0, head), pieces) + whole.substr(head)
                              : round % 3 == 1 ? whole.substr(0, mangler.below(whole.size()))
                                               : mangler.mangle(whole, pieces);
    check(test::clip_of_bytes("spoiled_" + name, bytes));
    ASSERT_FALSE(HasFatalFailure()) << "round " << round;
  }
  rusage used{};
  ASSERT_EQ(getrusage(RUSAGE_SELF, &used), 0);
  EXPECT_LT(used.ru_maxrss, 2'000'000) << "kB at the most so far";
}

INSTANTIATE_TEST_SUITE_P(Clips, SpoiledFootage,
                         testing::Values("tiny.mp4", "tiny_fragments.mp4", "tiny.mkv", "tiny.ts", "tiny.avi",
                                         "tiny.mov", "tiny.webm", "tiny_hevc.mp4", "tiny.mpg", "tiny.wav"),
                         [](const auto& named) {
                           std::string name = named.param;
                           std::replace(name.begin(), name.end(), '.', '_');
                           return name;
                         });

}  // namespace
}  // namespace sash::media
