#pragma once
// Who may write a record: the holder of an flock() on its side file "<record>.desk". The kernel lets go of it when the
// holder ends in whatever way, so a side file left by a crash locks nobody out. What the file says ("1234 lab-pc") only
// serves the sentence for the second desk.

#include <string>

#include "support/outcome.h"

namespace sash::store {

class DeskLock {
 public:
  /// Takes the lock of the record at `record_path`.
  /// Fails: Code::read_only when another desk holds it (one sentence that names it), or no side file can be made there.
  static Outcome<DeskLock> take(const std::string& record_path);

  DeskLock(DeskLock&& other) noexcept;
  DeskLock& operator=(DeskLock&&) = delete;
  ~DeskLock();  ///< lets go and removes the side file

 private:
  DeskLock(std::string side_file, int descriptor);
  std::string side_file_;
  int descriptor_;
};

}  // namespace sash::store
