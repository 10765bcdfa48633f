#pragma once
// Store: a record on disk. Holds the loaded record, carries edits out on it and on the file in one transaction with
// their inverse, and keeps the whole history for undo. Not for media, nor for anything that can be made again from
// media (cache.h keeps that).
// Single thread: the thread that opened a Store is the only one to call it; hand copies of record() to other threads.
//
// On disk: one SQLite file (WAL, synchronous FULL, foreign keys on). Every commit, undo and redo is one transaction, so
// what was acknowledged is there after kill -9.
//
// One desk writes at a time. The writer holds an flock() on a side file "<record>.desk", which the kernel lets go of
// when the process ends in whatever way, so that a crash locks nobody out; the text in it only names the holder.
// Everybody else gets a read-only Store: a snapshot of the file as it was at opening. The same happens to records of a
// newer program, to files that may not be written, and to damaged ones, of which everything readable is loaded.

#include <memory>
#include <optional>
#include <string>

#include "model/edit.h"
#include "support/outcome.h"

namespace sash::store {

class Store {
 public:
  /// Makes a new record file at `path` that holds `contents`, with an empty history, and opens it.
  /// Fails: Code::impossible when something is at `path` already (it is left alone); Code::not_found when its folder is
  /// missing; Code::unreadable when the system refuses; Code::malformed, not_finite or out_of_range when `contents`
  /// cannot be kept.
  static Outcome<Store> create(const std::string& path, const model::Record& contents = {});

  /// Opens the record at `path`; read_only() says whether it can be edited.
  /// Fails: Code::not_found; Code::unreadable; Code::unsupported when it is no record of ours; Code::damaged when
  /// nothing of it can be read. The file is never changed by a failed opening.
  static Outcome<Store> open(const std::string& path);

  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  const std::string& path() const;  ///< as it was given to open() or create()
  const model::Record& record() const;

  /// Why the record cannot be edited (Code::read_only, newer_version or damaged), or null when it can.
  const Fault* read_only() const;

  /// Carries `edit` out on the record and on disk and remembers it for undo; what had been undone can then no longer
  /// be redone. An empty edit does nothing. On failure neither record nor file has changed.
  /// Fails: as model::apply; Code::not_finite, malformed (text that is not UTF-8) or out_of_range when it holds what a
  /// record cannot keep; Code::read_only; Code::unreadable when the disk refuses.
  Done commit(const model::Edit& edit);

  /// Takes back the latest edit still in force; gives its name.
  /// Fails: Code::impossible when there is none; otherwise as commit.
  Outcome<std::string> undo();
  /// Carries out again what undo() took back last; gives its name. Fails: as undo.
  Outcome<std::string> redo();
  const std::optional<std::string>& undo_name() const;  ///< what undo() would take back
  const std::optional<std::string>& redo_name() const;  ///< what redo() would carry out

  /// A fresh id for a new model::Figure, model::Hazard, ...: one that no thing of this record has or ever had.
  template <class T>
  decltype(T::id) next_id();

  /// Writes a whole copy, history included, to `path`: aside first, then moved there.
  /// Fails: Code::impossible when something is at `path` already; Code::damaged; Code::unreadable; Code::not_found.
  Done save_copy(const std::string& path) const;

 private:
  struct Open;
  explicit Store(std::unique_ptr<Open> open);
  std::unique_ptr<Open> open_;
};

}  // namespace sash::store
