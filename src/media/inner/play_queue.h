#pragma once
// PlayQueue: the few pictures decoded ahead while playing. The decoder's thread fills it and waits when it is full; the
// main thread takes what is due. Pictures of an earlier play never get in. Private to media; safe from both threads.

#include <condition_variable>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>

#include "media/decoder.h"

namespace sash::media::inner {

class PlayQueue {
 public:
  // Main thread.
  void restart(Generation generation, Decoder::Direction direction, Moment now);
  void stop();  ///< empty; whoever waits to put gives up
  Decoder::Due take(Moment now);
  std::optional<Moment> next_due() const;

  // Decoder's thread.
  /// Waits for room. False when this play is over. True, and first_ready when the queue was empty before.
  bool put(Generation generation, PicturePtr picture, bool& first_ready);
  void finish(Generation generation, std::optional<Fault> fault);
  Moment now() const;  ///< as last asked for

 private:
  static constexpr std::size_t depth = 8;

  mutable std::mutex mutex_;
  std::condition_variable room_;
  // All guarded by mutex_.
  Generation generation_ = 0;
  bool running_ = false;
  Decoder::Direction direction_ = Decoder::Direction::forward;
  std::deque<PicturePtr> pictures_;  // in playing order
  std::optional<Moment> current_;    // when the picture taken last begins
  Moment now_;
  bool finished_ = false;
  std::optional<Fault> fault_;
};

}  // namespace sash::media::inner
