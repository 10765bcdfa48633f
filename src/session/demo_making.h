#pragma once
// DemoMaking: has the demo record made in the background, once at a time. What making it means is given from outside.
// Main thread only.

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

class DemoMaking {
 public:
  /// Makes the record in a folder and gives its path.
  using Make = std::function<Outcome<std::string>(const std::string& folder, Progress& progress)>;

  explicit DemoMaking(std::function<void()> wake)
      : wake_(std::move(wake)), inbox_(std::make_shared<Inbox<Outcome<std::string>>>()) {}
  ~DemoMaking() {
    if (progress_) progress_->cancel();
  }
  DemoMaking(const DemoMaking&) = delete;
  DemoMaking& operator=(const DemoMaking&) = delete;

  bool under_way() const { return progress_ != nullptr; }
  /// Requires: not under way.
  void begin(const Make& make, const std::string& folder);
  std::optional<Outcome<std::string>> poll();  ///< the record made, or why not, once
  std::optional<Job> job() const;

 private:
  std::function<void()> wake_;
  std::shared_ptr<Inbox<Outcome<std::string>>> inbox_;
  std::shared_ptr<Progress> progress_;  // of the work under way
  std::unique_ptr<Pool> pool_;
};

}  // namespace sash::session
