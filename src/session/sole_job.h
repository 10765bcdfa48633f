#pragma once
// SoleJob: a kind of background work of which one at a time makes sense: it writes something and gives its path.
// Beginning anew stops what was under way and forgets its outcome. Main thread only; the work runs on a thread of its
// own.

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "session/pool.h"
#include "session/view.h"
#include "support/inbox.h"
#include "support/outcome.h"
#include "support/progress.h"

namespace sash::session {

class SoleJob {
 public:
  /// Runs away from the main thread, so it must hold copies of what it needs; it watches `progress` for cancelling.
  using Work = std::function<Outcome<std::string>(Progress& progress)>;

  /// `what` is what a person is told while it lasts; `wake` is called from the work's thread when poll() has something.
  SoleJob(std::string what, std::function<void()> wake);
  ~SoleJob();
  SoleJob(const SoleJob&) = delete;
  SoleJob& operator=(const SoleJob&) = delete;

  bool under_way() const { return progress_ != nullptr; }
  void begin(Work work);
  std::optional<Outcome<std::string>> poll();  ///< the path, or why not, once
  std::optional<Job> job() const;

 private:
  struct Arrival {
    std::uint64_t turn;
    Outcome<std::string> outcome;
  };

  std::string what_;
  std::function<void()> wake_;
  std::shared_ptr<Inbox<Arrival>> inbox_;
  std::shared_ptr<Progress> progress_;  // of the work under way
  std::uint64_t turn_ = 0;              // of the work begun last
  std::unique_ptr<Pool> pool_;          // made when first needed; joined before what its work uses goes
};

}  // namespace sash::session
