#pragma once
// Checking: the findings and the cover for the record as it stands. Ordinary records are checked at once; huge ones on
// a snapshot in the background, the last outcome staying in view until the new one is there. Main thread only.

#include <functional>
#include <memory>

#include "model/record.h"
#include "safety/cover.h"
#include "session/pool.h"
#include "support/inbox.h"
#include "workings/check.h"

namespace sash::session {

class Checking {
 public:
  explicit Checking(std::function<void()> wake);

  /// The record is now at `revision`.
  void refresh(const model::Record& record, std::uint64_t revision);
  /// Whether a new outcome arrived from the background.
  bool poll();
  bool under_way() const { return wanted_ != have_; }

  const workings::Report& report() const { return outcome_->report; }
  const safety::Cover& cover() const { return outcome_->cover; }

 private:
  struct Outcome {
    std::uint64_t revision = 0;
    workings::Report report;
    safety::Cover cover;
  };

  std::function<void()> wake_;
  std::shared_ptr<const Outcome> outcome_;
  std::uint64_t wanted_ = 0;
  std::uint64_t have_ = 0;
  std::shared_ptr<Inbox<std::shared_ptr<const Outcome>>> inbox_;
  std::unique_ptr<Pool> pool_;  // made when first needed
};

}  // namespace sash::session
