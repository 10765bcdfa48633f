#include "session/sole_job.h"

namespace sash::session {

SoleJob::SoleJob(std::string what, std::function<void()> wake)
    : what_(std::move(what)), wake_(std::move(wake)), inbox_(std::make_shared<Inbox<Arrival>>()) {}

SoleJob::~SoleJob() {
  if (progress_) progress_->cancel();
}

void SoleJob::begin(Work work) {
  if (progress_) progress_->cancel();
  progress_ = std::make_shared<Progress>();
  if (!pool_) pool_ = std::make_unique<Pool>(1);
  pool_->run([work = std::move(work), turn = ++turn_, progress = progress_, inbox = inbox_, wake = wake_] {
    inbox->put({turn, work(*progress)});
    if (wake) wake();
  });
}

std::optional<Outcome<std::string>> SoleJob::poll() {
  for (Arrival& arrival : inbox_->take()) {
    if (arrival.turn != turn_) continue;
    progress_.reset();
    return std::move(arrival.outcome);
  }
  return std::nullopt;
}

std::optional<Job> SoleJob::job() const {
  if (!under_way()) return std::nullopt;
  return Job{what_, progress_->share()};
}

}  // namespace sash::session
