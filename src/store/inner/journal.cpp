#include "store/inner/journal.h"

#include "store/inner/json_text.h"

namespace sash::store {
namespace {

constexpr std::string_view bench_word = "bench";

Fault unreadable_step(std::int64_t position, const std::string& why) {
  return Fault::of(Code::damaged, "Step " + std::to_string(position) +
                                      " of the record's history is unreadable and cannot be undone or redone: " + why);
}

}  // namespace

Journal::Journal(Connection& db)
    : db_(db),
      forget_(db, R"(DELETE FROM "edit" WHERE "position" > ?1)"),
      add_edit_(db, R"(INSERT INTO "edit" ("position", "name") VALUES (?1, ?2))"),
      add_change_(db, R"(INSERT INTO "edit_change" ("edit", "position", "thing", "before", "after")
                         VALUES (?1, ?2, ?3, ?4, ?5))"),
      set_cursor_(db, R"(UPDATE "undo_cursor" SET "position" = ?1)"),
      get_cursor_(db, R"(SELECT "position" FROM "undo_cursor")"),
      get_name_(db, R"(SELECT "name" FROM "edit" WHERE "position" = ?1)") {
  refresh();
}

void Journal::append(const model::Edit& edit) {
  forget_.bind(1, cursor_);
  forget_.run();
  move_cursor(1);
  add_edit_.bind(1, cursor_);
  add_edit_.bind(2, std::string_view(edit.name));
  add_edit_.run();

  std::int64_t position = 0;
  const auto add = [&](std::string_view word, const auto* before, const auto* after) {
    add_change_.bind(1, cursor_);
    add_change_.bind(2, ++position);
    add_change_.bind(3, word);
    if (before != nullptr) add_change_.bind(4, std::string_view(json_text(*before)));
    if (after != nullptr) add_change_.bind(5, std::string_view(json_text(*after)));
    add_change_.run();
  };
  for (const model::Change& change : edit.changes) {
    const model::Thing* before = change.before ? &*change.before : nullptr;
    const model::Thing* after = change.after ? &*change.after : nullptr;
    add(type_word(after != nullptr ? *after : *before), before, after);
  }
  if (edit.bench) add(bench_word, &edit.bench->before, &edit.bench->after);
}

void Journal::move_cursor(std::int64_t by) {
  cursor_ += by;
  set_cursor_.bind(1, cursor_);
  set_cursor_.run();
}

Outcome<model::Edit> Journal::at(std::int64_t position) {
  model::Edit edit;
  edit.name = name_at(position).value_or("");
  Statement changes(db_,
                    R"(SELECT "thing", "before", "after" FROM "edit_change" WHERE "edit" = ?1 ORDER BY "position")");
  changes.bind(1, position);
  const auto there = [&](int column) { return changes.type(column) != Statement::Type::nothing; };
  while (changes.step()) {
    const std::string word = changes.text(0);
    if (word == bench_word) {
      const auto before = bench_from_json(changes.text(1));
      if (!before) return unreadable_step(position, before.fault().sentence);
      const auto after = bench_from_json(changes.text(2));
      if (!after) return unreadable_step(position, after.fault().sentence);
      edit.bench = model::BenchChange{*before, *after};
      continue;
    }
    model::Change& change = edit.changes.emplace_back();
    for (const int column : {1, 2}) {
      if (!there(column)) continue;
      auto thing = thing_from_json(word, changes.text(column));
      if (!thing) return unreadable_step(position, thing.fault().sentence);
      (column == 1 ? change.before : change.after) = std::move(thing).value();
    }
    if (!change.before && !change.after) return unreadable_step(position, "it has an empty change.");
  }
  if (const auto trouble = db_.take_trouble()) return unreadable_step(position, trouble->message + ".");
  return edit;
}

void Journal::refresh() {
  if (get_cursor_.step()) cursor_ = get_cursor_.integer(0);
  get_cursor_.reset();
  before_ = name_at(cursor_);
  after_ = name_at(cursor_ + 1);
}

std::optional<std::string> Journal::name_at(std::int64_t position) {
  std::optional<std::string> name;
  get_name_.bind(1, position);
  if (get_name_.step()) name = get_name_.text(0);
  get_name_.reset();
  return name;
}

}  // namespace sash::store
