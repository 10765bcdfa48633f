#pragma once
// DecodeThread: what runs on a footage's decoding thread. Owns the reader and the cache; takes requests from a mailbox
// of one (the latest wins) and answers through an inbox and the play queue. Private to media; see decoder.h for the
// outside.

#include <atomic>
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

#include "media/decoder.h"
#include "media/inner/exact.h"
#include "media/inner/picture_cache.h"
#include "media/inner/play_queue.h"
#include "media/inner/video_reader.h"
#include "support/inbox.h"

namespace sash::media::inner {

struct Request {
  enum class Kind { show, step, play, rest };
  Kind kind = Kind::rest;
  Generation generation = 0;
  Moment at;
  Way way = Way::exact;
  int by = 0;
  Decoder::Direction direction = Decoder::Direction::forward;
  double speed = 1;
};

class DecodeThread {
 public:
  DecodeThread(std::filesystem::path path, Decoder::Options options, std::function<void()> wake);
  ~DecodeThread();
  DecodeThread(const DecodeThread&) = delete;
  DecodeThread& operator=(const DecodeThread&) = delete;

  // Main thread.
  Generation ask(Request request);
  void use_index(std::shared_ptr<const FrameIndex> index);
  std::vector<Shown> take();
  PlayQueue& queue() { return queue_; }

 private:
  void run(const std::stop_token& stop);
  std::optional<Request> wait_for_request(const std::stop_token& stop);
  bool stale(const Request& r) const { return latest_.load(std::memory_order_acquire) != r.generation; }
  void answer(const Request& r, PicturePtr picture, bool exact);
  void answer(const Request& r, Fault fault);

  void show(const Request& r);
  void step(const Request& r);
  void stay_near(const Request& r, Moment shown);
  void play_forward(const Request& r);
  void play_backward(const Request& r);
  bool catch_up(const Request& r, const Picture& last);

  /// The exact picture, from the cache or decoded; null when a newer request came.
  Outcome<PicturePtr> exact(const Request& r, Moment at);
  PicturePtr kept(Moment at) const;
  PicturePtr quick(Moment at);
  Outcome<PicturePtr> following(const Picture& picture);
  Moment lead_before(Moment at) const;
  void keep(const PicturePtr& picture, Moment playhead, PicturePtr& before);

  const std::filesystem::path path_;
  const Decoder::Options options_;
  const std::function<void()> wake_;

  std::mutex mutex_;
  std::condition_variable_any came_;
  std::optional<Request> waiting_;               // guarded by mutex_
  std::shared_ptr<const FrameIndex> new_index_;  // guarded by mutex_
  std::atomic<Generation> latest_{0};
  Inbox<Shown> out_;
  PlayQueue queue_;

  // Only the decoding thread.
  std::optional<VideoReader> reader_;
  std::optional<Fault> broken_;
  PictureCache cache_;

  std::jthread thread_;  // last: it uses all of the above
};

}  // namespace sash::media::inner
