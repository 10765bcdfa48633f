#pragma once
// HandingOver: writes the script and what goes with it into a folder, in the background, from a snapshot of the record.
// Each file is written aside and renamed when whole, so that a folder never holds half a script. Main thread only.

#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "model/record.h"
#include "session/pool.h"
#include "session/view.h"
#include "support/inbox.h"
#include "support/outcome.h"
#include "support/progress.h"

namespace sash::session {

/// Writes everything that can be handed over for `record` into `folder` (made when missing); the same record gives the
/// same bytes. `record_path` is where footage paths are relative to. Returns the folder. Fails: unreadable, when the
/// folder or a file cannot be written; cancelled.
Outcome<std::string> write_script(const model::Record& record, const std::string& record_path,
                                  const std::string& folder, Progress& progress);

class HandingOver {
 public:
  explicit HandingOver(std::function<void()> wake)
      : wake_(std::move(wake)), inbox_(std::make_shared<Inbox<Outcome<std::string>>>()) {}
  ~HandingOver() {
    if (progress_) progress_->cancel();
  }
  HandingOver(const HandingOver&) = delete;
  HandingOver& operator=(const HandingOver&) = delete;

  void begin(const model::Record& record, const std::string& record_path, const std::string& folder);
  std::optional<Outcome<std::string>> poll();  ///< the folder written, or why not, once
  std::optional<Job> job() const;

 private:
  std::function<void()> wake_;
  std::shared_ptr<Inbox<Outcome<std::string>>> inbox_;
  std::shared_ptr<Progress> progress_;  // of the work under way
  std::unique_ptr<Pool> pool_;
};

}  // namespace sash::session
