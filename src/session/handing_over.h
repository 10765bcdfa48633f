#pragma once
// Handing over: writes the script and what goes with it into a folder, from a snapshot of the record. Each file is
// written aside and renamed when whole, so that a folder never holds half a script. Any thread.

#include <string>

#include "model/record.h"
#include "support/outcome.h"
#include "support/progress.h"

namespace sash::session {

/// Writes everything that can be handed over for `record` into `folder` (made when missing); the same record gives the
/// same bytes. `record_path` is where footage paths are relative to. Returns the folder. Fails: unreadable, when the
/// folder or a file cannot be written; cancelled.
Outcome<std::string> write_script(const model::Record& record, const std::string& record_path,
                                  const std::string& folder, Progress& progress);

}  // namespace sash::session
