#pragma once
// SoleJob<Result>: a kind of background work of which one at a time makes sense. Beginning anew, or stopping, forgets
// the outcome of what was under way. Main thread only; the work runs on a thread of its own.

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>

#include "session/pool.h"
#include "session/view.h"
#include "support/inbox.h"
#include "support/outcome.h"
#include "support/progress.h"

namespace sash::session {

template <class Result>
class SoleJob {
 public:
  /// Runs away from the main thread, so it must hold copies of what it needs; it watches `progress` for cancelling.
  using Work = std::function<Outcome<Result>(Progress& progress)>;

  /// `what` is what a person is told while it lasts; `wake` is called from the work's thread when poll() has something.
  SoleJob(std::string what, std::function<void()> wake)
      : what_(std::move(what)), wake_(std::move(wake)), inbox_(std::make_shared<Inbox<Arrival>>()) {}
  ~SoleJob() { stop(); }
  SoleJob(const SoleJob&) = delete;
  SoleJob& operator=(const SoleJob&) = delete;

  bool under_way() const { return progress_ != nullptr; }

  void begin(Work work) {
    stop();
    progress_ = std::make_shared<Progress>();
    if (!pool_) pool_ = std::make_unique<Pool>(1);
    pool_->run([work = std::move(work), turn = turn_, progress = progress_, inbox = inbox_, wake = wake_] {
      inbox->put({turn, work(*progress)});
      if (wake) wake();
    });
  }

  void stop() {
    if (progress_) progress_->cancel();
    progress_.reset();
    ++turn_;
  }

  /// What came of it, once.
  std::optional<Outcome<Result>> poll() {
    for (Arrival& arrival : inbox_->take()) {
      if (arrival.turn != turn_) continue;
      progress_.reset();
      return std::move(arrival.outcome);
    }
    return std::nullopt;
  }

  const std::string& what() const { return what_; }
  std::optional<Job> job() const {
    if (!under_way()) return std::nullopt;
    return Job{what_, progress_->share(), true};
  }

 private:
  struct Arrival {
    std::uint64_t turn;
    Outcome<Result> outcome;
  };

  std::string what_;
  std::function<void()> wake_;
  std::shared_ptr<Inbox<Arrival>> inbox_;
  std::shared_ptr<Progress> progress_;  // of the work under way
  std::uint64_t turn_ = 0;              // of the work begun last
  std::unique_ptr<Pool> pool_;          // made when first needed; joined before what its work uses goes
};

}  // namespace sash::session
