#pragma once
// Session: one person at one desk (or one command): owns the open record, its media and the background work.
// Main thread only; background results come in through poll(). It knows no window: the desk and the commands sit on it.

#include <functional>
#include <memory>
#include <string>

#include "session/intent.h"
#include "session/view.h"
#include "support/outcome.h"
#include "support/progress.h"

namespace sash::session {

/// Where the session keeps what is not part of a record, and how it works.
struct Setup {
  std::string cache_folder{};    ///< frame indexes and the like, per content; empty: nothing is kept
  std::string state_folder{};    ///< list of recent records; empty: nothing is kept
  std::string demo_folder{};     ///< where the demo record is made; empty: it cannot be
  std::string own_folder{};      ///< where a record begins that comes from no file; empty: it cannot
  bool background = true;        ///< open media, make stills and waveforms; commands that only compute say false
  bool sound = true;             ///< false: playback runs on a clock
  std::function<void()> wake{};  ///< called from any thread when poll() has something; may be empty
  std::function<Outcome<std::string>(const std::string& folder, Progress& progress)>
      make_demo{};  ///< makes the demo record, returns its path
};

class Session {
 public:
  explicit Session(Setup setup);
  ~Session();
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;

  /// Carries an intent out. A fault leaves the record as it was and is also added to the notices.
  Done apply(const Intent& intent);

  /// Takes in what background work has finished. Returns whether anything visible changed.
  bool poll();

  /// What can be seen now; good until the next apply or poll.
  SessionView view() const;

  /// The moment by which poll() should run again while something moves; nothing when all is still.
  std::optional<double> seconds_to_next_frame() const;

 private:
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

}  // namespace sash::session
