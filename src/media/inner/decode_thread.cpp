#include "media/inner/decode_thread.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace sash::media::inner {
namespace {

// Frames kept decoded before the one shown, so that stepping back does not begin at the keyframe again.
constexpr std::size_t frames_behind = 8;
// Without an index frames are not counted; about as much at 30 frames a second.
constexpr Moment time_behind = Moment::millis(270);
// A picture this near stands in while scrubbing.
constexpr Moment stand_in = Moment::millis(500);
constexpr Moment far_stand_in = Moment::seconds(5);
// How late playing may be before frames are left out, and before it jumps to a keyframe.
constexpr Moment late = Moment::millis(400);
constexpr Moment very_late = Moment::millis(1500);
// Backward playing decodes this much at a time, forward, and plays it from the end.
constexpr Moment backward_piece = Moment::millis(500);

}  // namespace

DecodeThread::DecodeThread(std::filesystem::path path, Decoder::Options options, std::function<void()> wake)
    : path_(std::move(path)), options_(options), wake_(std::move(wake)), cache_(options.cache_bytes) {
  thread_ = std::jthread([this](const std::stop_token& stop) { run(stop); });
}

DecodeThread::~DecodeThread() {
  thread_.request_stop();
  latest_.fetch_add(1, std::memory_order_acq_rel);  // whatever is being decoded is stale
  queue_.stop();
}

Generation DecodeThread::ask(Request request) {
  const std::lock_guard lock(mutex_);
  request.generation = latest_.load(std::memory_order_relaxed) + 1;
  latest_.store(request.generation, std::memory_order_release);
  if (request.kind == Request::Kind::play) {
    queue_.restart(request.generation, request.direction, request.at);
  } else {
    queue_.stop();
  }
  waiting_ = request;
  came_.notify_one();
  return request.generation;
}

void DecodeThread::use_index(std::shared_ptr<const FrameIndex> index) {
  const std::lock_guard lock(mutex_);
  new_index_ = std::move(index);
}

std::vector<Shown> DecodeThread::take() {
  std::vector<Shown> shown = out_.take();
  std::erase_if(shown, [this](const Shown& s) { return s.generation != latest_.load(std::memory_order_relaxed); });
  return shown;
}

std::optional<Request> DecodeThread::wait_for_request(const std::stop_token& stop) {
  std::unique_lock lock(mutex_);
  if (!came_.wait(lock, stop, [this] { return waiting_.has_value(); })) return std::nullopt;
  std::optional<Request> request = std::exchange(waiting_, std::nullopt);
  if (new_index_ != nullptr && reader_) reader_->use_index(std::exchange(new_index_, nullptr));
  return request;
}

void DecodeThread::run(const std::stop_token& stop) {
  auto opened = VideoReader::open(path_, {.threads = options_.threads, .deinterlace = options_.deinterlace},
                                  [stop] { return stop.stop_requested(); });
  if (opened) {
    reader_.emplace(std::move(*opened));
  } else {
    broken_ = opened.fault();
  }
  while (const auto request = wait_for_request(stop)) {
    if (broken_) {
      queue_.finish(request->generation, broken_);
      answer(*request, *broken_);
      continue;
    }
    switch (request->kind) {
      case Request::Kind::show:
        show(*request);
        break;
      case Request::Kind::step:
        step(*request);
        break;
      case Request::Kind::play:
        request->direction == Decoder::Direction::forward ? play_forward(*request) : play_backward(*request);
        break;
      case Request::Kind::rest:
        break;
    }
  }
}

void DecodeThread::answer(const Request& r, PicturePtr picture, bool exact) {
  if (stale(r)) return;
  out_.put({r.generation, exact, std::move(picture), std::nullopt});
  if (wake_) wake_();
}

void DecodeThread::answer(const Request& r, Fault fault) {
  if (stale(r)) return;
  out_.put({r.generation, false, nullptr, std::move(fault)});
  if (wake_) wake_();
}

PicturePtr DecodeThread::kept(Moment at) const {
  const FrameIndex* index = reader_->index();
  if (index == nullptr) return cache_.on_screen(at);
  const auto i = index->frame_at(at);
  return i ? cache_.at(index->frame(*i).at) : nullptr;
}

Moment DecodeThread::lead_before(Moment at) const {
  const FrameIndex* index = reader_->index();
  const auto i = index != nullptr ? index->frame_at(at) : std::nullopt;
  if (!i) return time_behind;
  return index->frame(*i).at - index->frame(*i - std::min(*i, frames_behind)).at;
}

void DecodeThread::keep(const PicturePtr& picture, Moment playhead, PicturePtr& before) {
  cache_.add(picture, playhead);
  if (before != nullptr && before->at < picture->at) cache_.follows(before->at, picture->at);
  before = picture;
}

Outcome<PicturePtr> DecodeThread::exact(const Request& r, Moment at) {
  if (PicturePtr have = kept(at)) return have;
  PicturePtr before;
  return find_picture(*reader_, at, lead_before(at), [&](const PicturePtr& passed) {
    keep(passed, at, before);
    return !stale(r);
  });
}

PicturePtr DecodeThread::quick(Moment at) {
  // Seeking for a stand-in would throw away a place from which the exact one is near.
  const bool near_already = reader_->reading_on_is_nearer(at, at - lead_before(at));
  if (PicturePtr near = cache_.nearest(at, near_already ? far_stand_in : stand_in)) return near;
  if (near_already || !reader_->seek(at, at)) return nullptr;
  PicturePtr key = reader_->key_picture();
  if (key != nullptr && !key->interlaced) cache_.add(key, at);
  return key;
}

/// The picture after one just found: already read when there is no index to say where to stop.
Outcome<PicturePtr> DecodeThread::following(const Picture& picture) {
  const PicturePtr& last = reader_->last();
  return last != nullptr && last->at > picture.at ? Outcome<PicturePtr>(last) : reader_->next();
}

void DecodeThread::show(const Request& r) {
  if (r.way == Way::quick_first && kept(r.at) == nullptr) {
    if (const PicturePtr near = quick(r.at)) answer(r, near, false);
    if (stale(r)) return;
  }
  const auto found = exact(r, r.at);
  if (!found) return answer(r, found.fault());
  if (*found == nullptr) return;
  answer(r, *found, true);
  stay_near(r, (*found)->at);
}

void DecodeThread::step(const Request& r) {
  const FrameIndex* index = reader_->index();
  Moment at = r.at;
  if (index != nullptr && !index->empty()) {
    const auto last = static_cast<std::int64_t>(index->count()) - 1;
    const auto here = static_cast<std::int64_t>(index->frame_at(at).value_or(0));
    at = index->frame(static_cast<std::size_t>(std::clamp<std::int64_t>(here + r.by, 0, last))).at;
  } else {
    for (int left = std::abs(r.by); left > 0; --left) {
      const auto here = exact(r, at);
      if (!here) return answer(r, here.fault());
      if (*here == nullptr) return;
      const auto next = cache_.after((*here)->at);
      if (r.by > 0 && !next) break;  // the last one
      at = r.by > 0 ? *next : (*here)->at - Moment::ticks(1);
    }
  }
  const auto found = exact(r, at);
  if (!found) return answer(r, found.fault());
  if (*found == nullptr) return;
  answer(r, *found, true);
  stay_near(r, (*found)->at);
}

/// With nothing else to do: has the frame before ready, where the next step back would begin at an earlier keyframe,
/// and leaves the reader where it was.
void DecodeThread::stay_near(const Request& r, Moment shown) {
  const FrameIndex* index = reader_->index();
  if (index == nullptr) return;
  const auto before = index->previous(shown);
  if (!before || cache_.at(index->frame(*before).at) != nullptr) return;
  const Moment at = index->frame(*before).at;
  PicturePtr link;
  auto next = find_picture(*reader_, at, lead_before(at), [&](const PicturePtr& passed) {
    keep(passed, shown, link);
    return !stale(r);
  });
  while (next && *next != nullptr && (*next)->at < shown && !stale(r)) {
    next = reader_->next();
    if (next && *next != nullptr) keep(*next, shown, link);
  }
}

/// When pictures come late: leave out what nothing depends on, then jump to the key at or before the present.
bool DecodeThread::catch_up(const Request& r, const Picture& last) {
  const Moment now = queue_.now();
  const Moment behind = now - last.at;
  reader_->leave_out_unreferenced(r.speed > 2 || behind > late);
  if (behind <= very_late) return true;
  const FrameIndex* index = reader_->index();
  const auto key = index != nullptr ? index->key_for(now) : std::nullopt;
  if (!key || index->keys()[*key].at <= last.at) return true;
  return reader_->seek(index->keys()[*key].at, index->keys()[*key].at).ok();
}

void DecodeThread::play_forward(const Request& r) {
  const PicturePtr have = kept(r.at);
  const bool in_place = have != nullptr && reader_->last() != nullptr && reader_->last()->at == have->at;
  auto next = in_place ? Outcome<PicturePtr>(have)
                       : find_picture(*reader_, r.at, Moment(), [&](const PicturePtr&) { return !stale(r); });
  PicturePtr before;
  for (;;) {
    if (!next) return queue_.finish(r.generation, next.fault());
    if (*next == nullptr) break;
    const PicturePtr picture = *next;
    if (reader_->has_gaps()) before = nullptr;
    keep(picture, picture->at, before);
    bool first_ready = false;
    if (!queue_.put(r.generation, picture, first_ready)) break;
    if (first_ready && wake_) wake_();
    if (!catch_up(r, *picture)) break;
    next = following(*picture);
  }
  if (!stale(r)) queue_.finish(r.generation, std::nullopt);
}

void DecodeThread::play_backward(const Request& r) {
  Moment until = r.at;  // the frame on screen then is the first one
  const Moment piece = Moment::seconds(backward_piece.in_seconds() * std::max(1.0, r.speed));
  const int every = std::max(1, static_cast<int>(std::lround(r.speed)));
  for (;;) {
    // What is already past is not worth decoding.
    until = std::min(until, queue_.now());
    const Moment from = std::max(Moment(), until - piece);
    std::vector<PicturePtr> run;
    std::size_t weight = 0;
    auto next = find_picture(*reader_, from, Moment(), [&](const PicturePtr&) { return !stale(r); });
    while (next && *next != nullptr && (*next)->at <= until && !stale(r)) {
      weight += (*next)->weight;
      run.push_back(*next);
      if (weight > options_.cache_bytes) {  // the later half is played first
        run.erase(run.begin(), run.begin() + static_cast<std::ptrdiff_t>(run.size() / 2));
        weight /= 2;
      }
      next = following(*run.back());
    }
    if (stale(r)) return;
    if (!next) return queue_.finish(r.generation, next.fault());
    if (run.empty()) return queue_.finish(r.generation, std::nullopt);
    for (std::size_t n = 0; n < run.size(); n += static_cast<std::size_t>(every)) {
      bool first_ready = false;
      if (!queue_.put(r.generation, run[run.size() - 1 - n], first_ready)) return;
      if (first_ready && wake_) wake_();
    }
    until = run.front()->at - Moment::ticks(1);
    const FrameIndex* index = reader_->index();
    const bool at_start =
        index != nullptr ? run.front()->at <= index->extent().from : until < Moment() || from == Moment();
    if (at_start) return queue_.finish(r.generation, std::nullopt);
  }
}

}  // namespace sash::media::inner
