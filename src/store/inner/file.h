#pragma once
// Looking at a file before SQLite does, and putting a finished file into its place. No SQLite here.

#include <string>

#include "support/outcome.h"

namespace sash::store {

/// What was found at a path that is, by its header, a record of ours.
struct RecordFile {
  std::string real_path;  ///< symbolic links followed, so that one record has one side file
  bool writable = false;  ///< the file and its folder may be written
};

/// Looks at the first bytes only; writes nothing.
/// Fails: Code::not_found, unreadable, unsupported (not ours), damaged (empty or shorter than a header).
Outcome<RecordFile> look_at(const std::string& path);

/// A name in the folder of `path` for a file that will become it, not in use.
std::string aside_of(const std::string& path);

/// Fails: Code::impossible when something is at `path`; Code::not_found when its folder is missing.
Done check_free(const std::string& path);

/// Moves `aside` to `path` and sees that it is on disk; `aside` is gone afterwards either way.
/// Fails: Code::impossible when something has come to be at `path`, which is left alone; Code::unreadable.
Done move_into_place(const std::string& aside, const std::string& path);

}  // namespace sash::store
