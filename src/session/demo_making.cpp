#include "session/demo_making.h"

#include "support/check.h"

namespace sash::session {

void DemoMaking::begin(const Make& make, const std::string& folder) {
  promise(!under_way(), "the demo is made once at a time");
  progress_ = std::make_shared<Progress>();
  if (!pool_) pool_ = std::make_unique<Pool>(1);
  pool_->run([make, folder, inbox = inbox_, progress = progress_, wake = wake_] {
    inbox->put(make(folder, *progress));
    if (wake) wake();
  });
}

std::optional<Outcome<std::string>> DemoMaking::poll() {
  auto made = inbox_->take();
  if (made.empty()) return std::nullopt;
  progress_.reset();
  return std::move(made.back());
}

std::optional<Job> DemoMaking::job() const {
  if (!under_way()) return std::nullopt;
  return Job{"Drawing the demo's footage", progress_->share()};
}

}  // namespace sash::session
