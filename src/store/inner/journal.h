#pragma once
// The history of a record: every edit ever made and how far it has been undone. Kept on disk only; just the two names
// that a menu shows are held here.

#include <optional>
#include <string>

#include "model/edit.h"
#include "store/inner/sql.h"
#include "support/outcome.h"

namespace sash::store {

class Journal {
 public:
  explicit Journal(Connection& db);

  /// Writes the edit after the cursor, forgets what lay beyond it, and moves the cursor past it.
  void append(const model::Edit& edit);
  void move_cursor(std::int64_t by);

  std::int64_t cursor() const { return cursor_; }
  const std::optional<std::string>& name_before() const { return before_; }  ///< of the edit that undo takes back
  const std::optional<std::string>& name_after() const { return after_; }    ///< of the edit that redo carries out

  /// The edit at a position, from 1. Fails: Code::damaged.
  Outcome<model::Edit> at(std::int64_t position);

  /// Reads the cursor and the names anew; to be called when a transaction has ended either way.
  void refresh();

 private:
  std::optional<std::string> name_at(std::int64_t position);

  Connection& db_;
  Statement forget_;
  Statement add_edit_;
  Statement add_change_;
  Statement set_cursor_;
  Statement get_cursor_;
  Statement get_name_;
  std::int64_t cursor_ = 0;
  std::optional<std::string> before_;
  std::optional<std::string> after_;
};

}  // namespace sash::store
