#pragma once
// Decoder: the one thread that owns a footage's codec. In goes one request, the latest wins; out come pictures, through
// an inbox with a wake call. Holds the pictures round the playhead so that stepping back is quick. Works before the
// frame index exists, exactly though slower. Does not know about sound or the clock: player.h does. Threads: all
// members from the owning (main) thread; `wake` is called on the decoder's thread and must only wake.

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "media/frame_index.h"
#include "media/picture.h"
#include "support/moment.h"
#include "support/outcome.h"

namespace sash::media {
namespace inner {
class DecodeThread;
}

/// Counts requests; a picture for an older one than the last is stale and is never delivered.
using Generation = std::uint64_t;

/// exact: only the frame on screen at the moment. quick_first: at once a near one (kept, or the keyframe), then the
/// exact one.
enum class Way { exact, quick_first };

/// What the decoder hands back for a request: a picture, or why there is none.
struct Shown {
  Generation generation = 0;
  bool exact = false;  ///< the frame asked for; otherwise a stand-in to be refined
  PicturePtr picture;  ///< null only with a fault
  std::optional<Fault> fault;
};

class Decoder {
 public:
  struct Options {
    bool deinterlace = true;
    int threads = 0;                              ///< codec threads; 0 chooses
    std::size_t cache_bytes = 192 * 1024 * 1024;  ///< pictures kept round the playhead
  };

  /// Begins at once: the file is opened on the thread; a file that cannot be opened shows as a fault for each request.
  Decoder(std::filesystem::path path, Options options, std::function<void()> wake);
  ~Decoder();  ///< stops and joins; interrupts reading
  Decoder(const Decoder&) = delete;
  Decoder& operator=(const Decoder&) = delete;

  /// From now on seeks use the index.
  void use_index(std::shared_ptr<const FrameIndex> index);

  /// Asks for the frame on screen at `at`; replaces any request before.
  Generation show(Moment at, Way way);
  /// Asks for the frame `by` frames after (before, when negative) the one on screen at `from`; stays inside the
  /// footage.
  Generation step(Moment from, int by);
  /// Everything delivered for the latest request since the last call, oldest first.
  std::vector<Shown> take();

  enum class Direction { forward, backward };
  /// Keeps a few pictures ready from `from` on, in playing order. `speed` > 1 lets it leave out frames that would not
  /// be seen.
  Generation play(Moment from, Direction direction, double speed);
  /// While playing: the picture due at `now`, or null when none newer is. `skipped` counts those passed over.
  struct Due {
    PicturePtr picture;
    int skipped = 0;
    bool ended = false;  ///< nothing more comes: the end (or, backward, the start) was reached
    std::optional<Fault> fault;
  };
  Due take_due(Moment now);
  /// The moment of the next picture ready after the one last taken; for sleeping until then.
  std::optional<Moment> next_due() const;
  /// Ends playing; what is kept stays kept.
  void rest();

 private:
  std::unique_ptr<inner::DecodeThread> thread_;
};

}  // namespace sash::media
