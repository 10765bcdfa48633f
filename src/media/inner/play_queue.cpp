#include "media/inner/play_queue.h"

namespace sash::media::inner {

void PlayQueue::restart(Generation generation, Decoder::Direction direction, Moment now) {
  const std::lock_guard lock(mutex_);
  generation_ = generation;
  running_ = true;
  direction_ = direction;
  pictures_.clear();
  current_.reset();
  now_ = now;
  finished_ = false;
  fault_.reset();
  room_.notify_all();
}

void PlayQueue::stop() {
  const std::lock_guard lock(mutex_);
  running_ = false;
  pictures_.clear();
  current_.reset();
  room_.notify_all();
}

Decoder::Due PlayQueue::take(Moment now) {
  const std::lock_guard lock(mutex_);
  now_ = now;
  Decoder::Due due;
  int taken = 0;
  while (!pictures_.empty()) {
    const Moment at = pictures_.front()->at;
    if (direction_ == Decoder::Direction::forward) {
      if (at > now && current_) break;  // the first one is shown at once
    } else if (at <= now && current_ && now >= *current_) {
      break;  // the one on screen still is
    }
    due.picture = std::move(pictures_.front());
    pictures_.pop_front();
    ++taken;
    current_ = at;
    if (direction_ == Decoder::Direction::backward && at <= now) break;
  }
  if (taken > 1) due.skipped = taken - 1;
  if (taken > 0) room_.notify_all();
  due.ended = finished_ && pictures_.empty();
  due.fault = fault_;
  return due;
}

std::optional<Moment> PlayQueue::next_due() const {
  const std::lock_guard lock(mutex_);
  if (pictures_.empty()) return std::nullopt;
  if (direction_ == Decoder::Direction::forward || !current_) return pictures_.front()->at;
  return *current_ - Moment::ticks(1);
}

bool PlayQueue::put(Generation generation, PicturePtr picture, bool& first_ready) {
  std::unique_lock lock(mutex_);
  const auto over = [&] { return !running_ || generation != generation_; };
  room_.wait(lock, [&] { return over() || pictures_.size() < depth; });
  if (over()) return false;
  first_ready = pictures_.empty();
  pictures_.push_back(std::move(picture));
  return true;
}

void PlayQueue::finish(Generation generation, std::optional<Fault> fault) {
  const std::lock_guard lock(mutex_);
  if (generation != generation_) return;
  finished_ = true;
  fault_ = std::move(fault);
}

Moment PlayQueue::now() const {
  const std::lock_guard lock(mutex_);
  return now_;
}

}  // namespace sash::media::inner
