#include "store/inner/opening.h"

#include <utility>

#include "store/inner/file.h"
#include "store/inner/load.h"
#include "store/inner/schema.h"
#include "store/inner/snapshot.h"

namespace sash::store {
namespace {

Fault not_writable(const std::string& path) {
  return Fault::of(Code::read_only,
                   "The record '" + path +
                       "' can be read but not edited, because the system does not allow writing to it or its folder; "
                       "allow it or save a copy elsewhere.",
                   path);
}

Fault newer(const std::string& path, std::int64_t version) {
  return Fault::of(Code::newer_version,
                   "The record '" + path + "' was written by a newer Sashline (its version is " +
                       std::to_string(version) + ", this program writes " + std::to_string(schema_steps().size()) +
                       "), so it can be read but not edited; use the newer program to edit it.",
                   path);
}

Fault damaged(const std::string& path, std::vector<std::string> problems) {
  Fault fault =
      Fault::of(Code::damaged,
                "The record '" + path +
                    "' is damaged, so it cannot be edited; what could be read is shown: export it as JSON "
                    "(sashline record RECORD --to FILE.json) and make a new record from that (sashline record "
                    "NEW.sash --from FILE.json).",
                path);
  fault.others = std::move(problems);
  return fault;
}

Fault lost(const std::string& path, std::vector<std::string> problems) {
  Fault fault = Fault::of(
      Code::damaged, "The record '" + path + "' is damaged so badly that nothing of it can be read; use a copy of it.",
      path);
  fault.others = std::move(problems);
  return fault;
}

Fault refused(const std::string& path, const Trouble& trouble) {
  return Fault::of(Code::unreadable, "The record '" + path + "' cannot be opened: " + trouble.message + ".", path);
}

// What SQLite finds wrong with the file as a whole. Leaves no trouble.
std::vector<std::string> broken_structure(Connection& db) {
  std::vector<std::string> out;
  Statement check(db, "PRAGMA quick_check(20)");
  while (check.step()) {
    if (std::string line = check.text(0); line != "ok") out.push_back(std::move(line));
  }
  if (const auto trouble = db.take_trouble()) out.push_back(trouble->message);
  return out;
}

std::int64_t version_of(Connection& db) { return db.integer("PRAGMA user_version").value_or(0); }
std::int64_t our_version() { return static_cast<std::int64_t>(schema_steps().size()); }

// A connection that writes with all safeties on, or nothing when the file is not sound enough to be written to. Before
// that is certain, nothing is written.
std::unique_ptr<Connection> open_to_write(const std::string& file) {
  auto db = std::make_unique<Connection>(file, Connection::Mode::write);
  if (db->trouble()) return nullptr;
  db->fold_log_on_closing(false);
  const std::int64_t version = version_of(*db);
  if (db->trouble() || version < 1 || version > our_version() || !broken_structure(*db).empty()) return nullptr;
  db->run("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON");
  migrate(*db, schema_steps());
  if (db->trouble()) return nullptr;
  return db;
}

Outcome<OpenedRecord> open_snapshot(const std::string& path, const std::string& file, std::optional<Fault> reason) {
  OpenedRecord out;
  out.db = snapshot_of(file);
  if (const auto trouble = out.db->take_trouble()) {
    return trouble->damage() ? lost(path, {trouble->message}) : refused(path, *trouble);
  }
  const std::int64_t version = version_of(*out.db);
  if (const auto trouble = out.db->take_trouble()) return lost(path, {trouble->message});
  auto problems = broken_structure(*out.db);
  if (version >= 1 && version < our_version() && problems.empty()) migrate(*out.db, schema_steps());
  if (const auto trouble = out.db->take_trouble()) problems.push_back(trouble->message);
  Loaded loaded = load_record(*out.db);
  problems.insert(problems.end(), loaded.problems.begin(), loaded.problems.end());
  if (!loaded.anything) return lost(path, std::move(problems));
  out.record = std::move(loaded.record);
  if (version > our_version()) {
    reason = newer(path, version);
  } else if (!problems.empty() || version < 1) {
    reason = damaged(path, std::move(problems));
  }
  out.why_read_only = reason ? std::move(reason) : not_writable(path);
  return out;
}

}  // namespace

Outcome<OpenedRecord> open_record(const std::string& path) {
  const auto file = look_at(path);
  if (!file) return file.fault();
  if (!file->writable) return open_snapshot(path, file->real_path, not_writable(path));

  auto lock = DeskLock::take(file->real_path);
  if (!lock) return open_snapshot(path, file->real_path, lock.fault());
  auto db = open_to_write(file->real_path);
  if (db == nullptr) return open_snapshot(path, file->real_path, std::nullopt);
  Loaded loaded = load_record(*db);
  if (!loaded.problems.empty()) {
    db.reset();
    return open_snapshot(path, file->real_path, std::nullopt);
  }
  db->fold_log_on_closing(true);
  OpenedRecord out;
  out.lock.emplace(std::move(lock).value());
  out.db = std::move(db);
  out.record = std::move(loaded.record);
  return out;
}

}  // namespace sash::store
