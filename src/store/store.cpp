#include "store/store.h"

#include <unistd.h>

#include <algorithm>
#include <map>
#include <utility>

#include "store/inner/fields.h"
#include "store/inner/file.h"
#include "store/inner/journal.h"
#include "store/inner/mend.h"
#include "store/inner/opening.h"
#include "store/inner/rows.h"
#include "store/inner/schema.h"
#include "store/inner/sound.h"

namespace sash::store {
namespace {

using LastIds = std::map<std::string, std::int64_t, std::less<>>;

LastIds last_ids_of(const model::Record& record) {
  LastIds out;
  each_list(record, [&]<class T>(const std::vector<T>& list) {
    out[naming_of<T>().one] = list.empty() ? 0 : list.back().id.number;
  });
  return out;
}

LastIds last_ids_in(const model::Edit& edit) {
  LastIds out;
  for (const model::Change& change : edit.changes) {
    if (change.before || !change.after) continue;
    std::visit(
        [&]<class T>(const T& thing) {
          std::int64_t& last = out[naming_of<T>().one];
          last = std::max(last, thing.id.number);
        },
        *change.after);
  }
  return out;
}

void write_last_ids(Connection& db, const LastIds& ids) {
  Statement put(db, R"(INSERT INTO "last_id" ("thing", "number") VALUES (?1, ?2)
                       ON CONFLICT ("thing") DO UPDATE SET "number" = max("number", "excluded"."number"))");
  for (const auto& [thing, number] : ids) {
    put.bind(1, std::string_view(thing));
    put.bind(2, number);
    put.run();
  }
}

std::string with_stop(const std::string& message) { return message + (message.ends_with('.') ? "" : "."); }

Fault not_written(const std::string& path, const Trouble& trouble) {
  return Fault::of(
      Code::unreadable,
      "The file '" + path + "' could not be written, and nothing was changed: " + with_stop(trouble.message), path);
}

// Fills the fresh file `aside`. Trouble when it cannot be written.
std::optional<Trouble> write_fresh(const std::string& aside, const model::Record& contents) {
  Connection db(aside, Connection::Mode::fresh);
  db.run("PRAGMA application_id = " + std::to_string(application_id) + "; PRAGMA foreign_keys = ON");
  migrate(db, schema_steps());
  db.run("BEGIN");
  RowWriter(db).put_all(contents);
  write_last_ids(db, last_ids_of(contents));
  db.run("COMMIT");
  return db.take_trouble();
}

std::optional<Fault> cannot_be_kept(const model::Record& record) {
  if (auto fault = unsound(record)) return fault;
  model::Record mended = record;
  const auto lost = mend_references(mended);
  if (lost.empty()) return std::nullopt;
  return Fault::of(Code::malformed, "The record to be written is not whole: " + lost.front() + ".");
}

}  // namespace

// What an open record consists of. The order matters: statements go before the connection, that before the lock.
struct Store::Open {
  std::string path;
  OpenedRecord opened;
  LastIds last_ids;

  Open(std::string path_given, OpenedRecord opened_record)
      : path(std::move(path_given)), opened(std::move(opened_record)), last_ids(last_ids_of(opened.record)) {
    if (!opened.why_read_only) start_writing();
  }

  // Only for a record that can be edited.
  std::optional<RowWriter> rows;
  std::optional<Journal> journal;
  std::optional<std::int64_t> data_version;  // changes when another connection has written to the file

  Connection& db() { return *opened.db; }
  std::optional<std::int64_t> read_data_version() { return db().integer("PRAGMA data_version"); }

  void start_writing() {
    rows.emplace(db());
    journal.emplace(db());
    Statement stored(db(), R"(SELECT "thing", "number" FROM "last_id")");
    while (stored.step()) {
      std::int64_t& last = last_ids[stored.text(0)];
      last = std::max(last, stored.integer(1));
    }
    data_version = read_data_version();
  }

  // Carries the edit out on the record, its tables and, by `remember`, the history; all or nothing.
  template <class Remember>
  Done carry_out(const model::Edit& edit, Remember remember) {
    if (Done done = apply(edit, opened.record); !done) return done;
    Done written = write(edit, remember);
    if (!written) promise(apply(inverse(edit), opened.record).ok(), "an edit that was just applied can be taken back");
    journal->refresh();
    return written;
  }

  template <class Remember>
  Done write(const model::Edit& edit, Remember remember) {
    if (opened.record.footages.size() > most_footages) return *unsound(opened.record);
    const LastIds fresh_ids = last_ids_in(edit);
    db().run("BEGIN IMMEDIATE");
    if (!db().trouble() && read_data_version() != data_version) {
      db().run("ROLLBACK");
      return Fault::of(Code::impossible,
                       "The record '" + path +
                           "' has been changed by another program since it was opened; close it and open it again.",
                       path);
    }
    for (const model::Change& change : edit.changes) rows->put(change);
    if (edit.bench) rows->put(edit.bench->after);
    remember(*journal);
    write_last_ids(db(), fresh_ids);
    db().run("COMMIT");
    if (const auto trouble = db().take_trouble()) {
      db().run("ROLLBACK");  // says so when SQLite has rolled back by itself already
      static_cast<void>(db().take_trouble());
      data_version = read_data_version();  // our own rolling back may count as a change
      return not_written(path, *trouble);
    }
    for (const auto& [thing, number] : fresh_ids) last_ids[thing] = std::max(last_ids[thing], number);
    return {};
  }
};

Store::Store(std::unique_ptr<Open> open) : open_(std::move(open)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Outcome<Store> Store::create(const std::string& path, const model::Record& contents) {
  if (const Done free = check_free(path); !free) return free.fault();
  if (const auto fault = cannot_be_kept(contents)) return *fault;
  const std::string aside = aside_of(path);
  if (const auto trouble = write_fresh(aside, contents)) {
    unlink(aside.c_str());
    return not_written(path, *trouble);
  }
  if (const Done moved = move_into_place(aside, path); !moved) return moved.fault();
  return open(path);
}

Outcome<Store> Store::open(const std::string& path) {
  auto opened = open_record(path);
  if (!opened) return opened.fault();
  auto open = std::make_unique<Open>(path, std::move(opened).value());
  if (const auto trouble = open->db().take_trouble()) return not_written(path, *trouble);
  return Store(std::move(open));
}

const std::string& Store::path() const { return open_->path; }
const model::Record& Store::record() const { return open_->opened.record; }
const Fault* Store::read_only() const { return open_->opened.why_read_only ? &*open_->opened.why_read_only : nullptr; }

Done Store::commit(const model::Edit& edit) {
  if (const Fault* why = read_only()) return *why;
  if (edit.empty()) return {};
  if (const auto fault = unsound(edit)) return *fault;
  return open_->carry_out(edit, [&](Journal& journal) { journal.append(edit); });
}

Outcome<std::string> Store::undo() {
  if (const Fault* why = read_only()) return *why;
  const auto name = open_->journal->name_before();
  if (!name) return Fault::of(Code::impossible, "There is nothing to undo.");
  const auto edit = open_->journal->at(open_->journal->cursor());
  if (!edit) return edit.fault();
  const Done done = open_->carry_out(inverse(*edit), [](Journal& journal) { journal.move_cursor(-1); });
  if (!done) return done.fault();
  return *name;
}

Outcome<std::string> Store::redo() {
  if (const Fault* why = read_only()) return *why;
  const auto name = open_->journal->name_after();
  if (!name) return Fault::of(Code::impossible, "There is nothing to redo.");
  const auto edit = open_->journal->at(open_->journal->cursor() + 1);
  if (!edit) return edit.fault();
  const Done done = open_->carry_out(*edit, [](Journal& journal) { journal.move_cursor(1); });
  if (!done) return done.fault();
  return *name;
}

const std::optional<std::string>& Store::undo_name() const {
  static const std::optional<std::string> none;
  return open_->journal ? open_->journal->name_before() : none;
}

const std::optional<std::string>& Store::redo_name() const {
  static const std::optional<std::string> none;
  return open_->journal ? open_->journal->name_after() : none;
}

template <class T>
decltype(T::id) Store::next_id() {
  return {++open_->last_ids[naming_of<T>().one]};
}

template model::FootageId Store::next_id<model::Footage>();
template model::LineId Store::next_id<model::NarrationLine>();
template model::PortionId Store::next_id<model::Portion>();
template model::FigureId Store::next_id<model::Figure>();
template model::HazardId Store::next_id<model::Hazard>();
template model::CalloutId Store::next_id<model::Callout>();
template model::NoteId Store::next_id<model::Note>();
template model::ChapterId Store::next_id<model::Chapter>();
template model::RelationId Store::next_id<model::Relation>();

Done Store::save_copy(const std::string& path) const {
  if (const Fault* why = read_only(); why != nullptr && why->code == Code::damaged) return *why;
  if (Done free = check_free(path); !free) return free;
  const std::string aside = aside_of(path);
  std::optional<Trouble> trouble;
  {
    Connection copy(aside, Connection::Mode::fresh);
    copy_database(open_->db(), copy);
    trouble = copy.take_trouble();
  }
  if (trouble) {
    unlink(aside.c_str());
    return not_written(path, *trouble);
  }
  return move_into_place(aside, path);
}

}  // namespace sash::store
