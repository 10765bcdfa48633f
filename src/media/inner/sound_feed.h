#pragma once
// SoundFeed: a footage's sound on its way to the device, and the clock that goes with it. One thread decodes ahead into
// a short store; the device's thread pulls from it and so moves the clock. Gaps in the sound are silence, so that the
// clock is straight. Private to media. start/stop/now: main thread.

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <deque>
#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

#include "media/inner/sound_device.h"
#include "media/inner/sound_reader.h"

namespace sash::media::inner {

class SoundFeed {
 public:
  enum class State { idle, filling, ready, running, no_device };

  SoundFeed(std::filesystem::path path, std::function<void()> wake);
  ~SoundFeed();
  SoundFeed(const SoundFeed&) = delete;
  SoundFeed& operator=(const SoundFeed&) = delete;

  /// From the next start on; sound behind joins is found by it.
  void use_index(std::shared_ptr<const FrameIndex> index);

  /// Begins to fill from `from`; silent until release(). Requires: 0.5 <= speed <= 2.
  void start(Moment from, double speed);
  void release();  ///< the picture is there too: be heard
  void stop();
  void volume(float share) { volume_.store(share, std::memory_order_relaxed); }

  State state() const;
  Moment now();                       ///< what is heard; never runs backwards
  std::optional<Moment> end() const;  ///< where the sound ends, once that was reached by decoding

 private:
  struct Job {
    std::shared_ptr<const FrameIndex> index;
    std::uint64_t number = 0;
    Moment from;
    double speed = 1;
  };

  void run(const std::stop_token& stop);
  void fill(const std::stop_token& stop, const Job& job);
  bool store(const std::stop_token& stop, const Job& job, std::span<const float> samples);
  void pull(std::span<float> out);

  const std::filesystem::path path_;
  const std::function<void()> wake_;
  std::atomic<float> volume_{1.0F};

  mutable std::mutex mutex_;
  std::condition_variable_any changed_;
  // All guarded by mutex_.
  State state_ = State::idle;
  Job job_;
  bool job_waits_ = false;
  bool released_ = false;
  std::deque<float> stored_;
  std::int64_t pulled_ = 0;     // frames handed to the device since the job began
  std::int64_t last_pull_ = 0;  // of these, in the last pull
  std::chrono::steady_clock::time_point pulled_at_;
  std::optional<Moment> end_;
  Moment heard_;         // as told last
  bool filled_ = false;  // no more will be stored
  int buffer_frames_ = 0;

  // Only the decoding thread.
  std::optional<SoundReader> reader_;
  std::unique_ptr<SoundDevice> device_;

  std::jthread thread_;  // last: it uses all of the above
};

}  // namespace sash::media::inner
