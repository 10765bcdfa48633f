#include "media/inner/sound_feed.h"

#include <algorithm>
#include <utility>

#include "media/inner/time_stretch.h"

namespace sash::media::inner {
namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t frame_floats = SoundDevice::channels;
constexpr std::size_t room = SoundDevice::rate / 2 * frame_floats;     // half a second decoded ahead
constexpr std::size_t enough = SoundDevice::rate / 10 * frame_floats;  // to begin with
// A gap this short is rounding in the file, not silence.
constexpr Moment least_gap = Moment::millis(20);

std::int64_t frames_in(Moment length) {
  return static_cast<std::int64_t>(static_cast<WideInteger>(length.count()) * SoundDevice::rate / Moment::per_second);
}

}  // namespace

SoundFeed::SoundFeed(std::filesystem::path path, std::function<void()> wake)
    : path_(std::move(path)), wake_(std::move(wake)) {
  thread_ = std::jthread([this](const std::stop_token& stop) { run(stop); });
}

SoundFeed::~SoundFeed() {
  thread_.request_stop();
  stop();
}

void SoundFeed::use_index(std::shared_ptr<const FrameIndex> index) {
  const std::lock_guard lock(mutex_);
  job_.index = std::move(index);
}

void SoundFeed::start(Moment from, double speed) {
  const std::lock_guard lock(mutex_);
  job_ = {job_.index, job_.number + 1, from, speed};
  job_waits_ = true;
  heard_ = from;
  released_ = false;
  stored_.clear();
  pulled_ = 0;
  last_pull_ = 0;
  end_.reset();
  filled_ = false;
  if (state_ != State::no_device) state_ = State::filling;
  changed_.notify_all();
}

void SoundFeed::release() {
  const std::lock_guard lock(mutex_);
  released_ = true;
  pulled_at_ = Clock::now();
  if (state_ == State::ready) state_ = State::running;
}

void SoundFeed::stop() {
  const std::lock_guard lock(mutex_);
  ++job_.number;
  job_waits_ = false;
  released_ = false;
  stored_.clear();
  if (state_ != State::no_device) state_ = State::idle;
  changed_.notify_all();
}

SoundFeed::State SoundFeed::state() const {
  const std::lock_guard lock(mutex_);
  return state_;
}

std::optional<Moment> SoundFeed::end() const {
  const std::lock_guard lock(mutex_);
  return end_;
}

Moment SoundFeed::now() {
  const std::lock_guard lock(mutex_);
  if (state_ != State::running) return job_.from;
  // The device plays the buffer pulled before while it pulls the next.
  const auto since = std::chrono::duration<double>(Clock::now() - pulled_at_).count() * SoundDevice::rate;
  const double begun = static_cast<double>(pulled_ - last_pull_ - buffer_frames_);
  const double heard =
      std::clamp(begun + since, 0.0, static_cast<double>(std::max<std::int64_t>(pulled_ - last_pull_, 0)));
  heard_ = std::max(heard_, job_.from + Moment::seconds(heard * job_.speed / SoundDevice::rate));
  return heard_;
}

void SoundFeed::pull(std::span<float> out) {
  const float gain = volume_.load(std::memory_order_relaxed);
  const std::lock_guard lock(mutex_);
  std::size_t n = 0;
  if (released_ && state_ == State::running) {
    n = std::min(out.size(), stored_.size());
    std::transform(stored_.begin(), stored_.begin() + static_cast<std::ptrdiff_t>(n), out.begin(),
                   [gain](float v) { return v * gain; });
    stored_.erase(stored_.begin(), stored_.begin() + static_cast<std::ptrdiff_t>(n));
    // Past the end silence moves the clock on; a store run dry holds it, and the picture waits.
    const std::size_t moved = filled_ ? out.size() : n;
    last_pull_ = static_cast<std::int64_t>(moved / frame_floats);
    pulled_ += last_pull_;
    pulled_at_ = Clock::now();
  }
  std::fill(out.begin() + static_cast<std::ptrdiff_t>(n), out.end(), 0.0F);
  changed_.notify_all();
}

void SoundFeed::run(const std::stop_token& stop) {
  for (;;) {
    Job job;
    {
      std::unique_lock lock(mutex_);
      if (!changed_.wait(lock, stop, [this] { return job_waits_; })) break;
      job_waits_ = false;
      job = job_;
    }
    if (device_ == nullptr) {
      device_ = SoundDevice::open([this](std::span<float> out) { pull(out); });
      if (device_ != nullptr) device_->run(true);
    }
    if (!reader_ && device_ != nullptr) {
      auto opened =
          SoundReader::open(path_, SoundDevice::rate, SoundDevice::channels, [stop] { return stop.stop_requested(); });
      if (opened) reader_.emplace(std::move(*opened));
    }
    if (device_ == nullptr || !reader_) {
      const std::lock_guard lock(mutex_);
      state_ = State::no_device;
    } else {
      {
        const std::lock_guard lock(mutex_);
        buffer_frames_ = device_->buffer_frames();
      }
      fill(stop, job);
    }
    if (wake_) wake_();
  }
  device_.reset();
  SoundDevice::leave_thread();
}

bool SoundFeed::store(const std::stop_token& stop, const Job& job, std::span<const float> samples) {
  std::unique_lock lock(mutex_);
  const auto over = [&] { return job.number != job_.number; };
  while (!samples.empty()) {
    if (!changed_.wait(lock, stop, [&] { return over() || stored_.size() < room; }) || over()) return false;
    const std::size_t n = std::min(samples.size(), room - stored_.size());
    stored_.insert(stored_.end(), samples.begin(), samples.begin() + static_cast<std::ptrdiff_t>(n));
    samples = samples.subspan(n);
    if (state_ == State::filling && stored_.size() >= enough) {
      state_ = released_ ? State::running : State::ready;
      lock.unlock();
      if (wake_) wake_();
      lock.lock();
    }
  }
  return !over();
}

void SoundFeed::fill(const std::stop_token& stop, const Job& job) {
  reader_->use_index(job.index);
  reader_->seek(job.from);
  TimeStretch stretch(SoundDevice::rate, job.speed);
  Moment at = job.from;  // up to where sound was stored
  for (;;) {
    const auto next = reader_->next();
    if (!next || !*next) break;
    const SoundBlock& block = **next;
    if (block.at - at > least_gap) {
      const std::vector<float> silence(static_cast<std::size_t>(frames_in(block.at - at)) * frame_floats);
      if (!store(stop, job, stretch.push(silence))) return;
      at = at + Moment::rational(frames_in(block.at - at), 1, SoundDevice::rate);
    }
    if (!store(stop, job, stretch.push(block.samples))) return;
    at = at + Moment::rational(static_cast<std::int64_t>(block.samples.size() / frame_floats), 1, SoundDevice::rate);
  }
  if (!store(stop, job, stretch.finish())) return;
  const std::lock_guard lock(mutex_);
  if (job.number != job_.number) return;
  filled_ = true;
  end_ = at;
  if (state_ == State::filling) state_ = released_ ? State::running : State::ready;
}

}  // namespace sash::media::inner
