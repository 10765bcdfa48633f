#include "store/inner/rows.h"

#include <tuple>

#include "store/inner/columns.h"

namespace sash::store {
namespace {

std::string parameters(std::size_t from, std::size_t count) {
  std::string out;
  for (std::size_t i = 0; i < count; ++i) out += (i == 0 ? "?" : ", ?") + std::to_string(from + i);
  return out;
}

std::string insert_sql(const std::string& table, const std::vector<std::string>& columns) {
  return "INSERT INTO \"" + table + "\" (" + quoted_list(columns) + ") VALUES (" + parameters(1, columns.size()) + ")";
}

// The first column is the id, the first parameter likewise.
std::string update_sql(const std::string& table, const std::vector<std::string>& columns) {
  const std::vector<std::string> rest(columns.begin() + 1, columns.end());
  return "UPDATE \"" + table + "\" SET (" + quoted_list(rest) + ") = (" + parameters(2, rest.size()) +
         ") WHERE \"id\" = ?1";
}

// The table of one list of a thing.
struct ListTable {
  Statement insert;
  Statement clear;

  ListTable(Connection& db, const std::string& table, std::vector<std::string> columns)
      : insert(db, insert_sql(table, with_place(std::move(columns)))),
        clear(db, "DELETE FROM \"" + table + "\" WHERE \"owner\" = ?1") {}

  template <class T>
  void put(std::int64_t owner, const std::vector<T>& list) {
    std::int64_t position = 0;
    for (const T& each : list) {
      Binder binder(insert);
      binder.put(owner);
      binder.put(position++);
      binder.put(each);
      insert.run();
    }
  }
  void put(std::int64_t owner, const std::map<std::string, std::string>& list) {
    std::int64_t position = 0;
    for (const auto& [name, item] : list) {
      Binder binder(insert);
      binder.put(owner);
      binder.put(position++);
      binder.put(name);
      binder.put(item);
      insert.run();
    }
  }

 private:
  static std::vector<std::string> with_place(std::vector<std::string> columns) {
    columns.insert(columns.begin(), {"owner", "position"});
    return columns;
  }
};

template <class T>
std::vector<std::string> list_columns(const std::vector<T>&) {
  return column_names<T>();
}
std::vector<std::string> list_columns(const std::map<std::string, std::string>&) { return {"name", "item"}; }

// The table of one type of thing, with those of its lists in the order of the fields.
template <class T>
class Table {
 public:
  explicit Table(Connection& db)
      : db_(db),
        insert_(db, insert_sql(naming_of<T>().one, column_names<T>())),
        update_(db, update_sql(naming_of<T>().one, column_names<T>())),
        remove_(db, std::string("DELETE FROM \"") + naming_of<T>().one + "\" WHERE \"id\" = ?1") {
    const T example{};
    each_list_field(example, [&](const char* name, const auto& list) {
      lists_.emplace_back(db, std::string(naming_of<T>().one) + "_" + name, list_columns(list));
    });
  }

  void insert(const T& thing) {
    run(insert_, thing);
    put_lists(thing);
  }
  void update(const T& thing) {
    run(update_, thing);
    for (ListTable& list : lists_) {
      list.clear.bind(1, thing.id.number);
      list.clear.run();
    }
    put_lists(thing);
  }
  void remove(const T& thing) {
    remove_.bind(1, thing.id.number);
    remove_.run();
    expect_one_row();
  }

 private:
  void run(Statement& statement, const T& thing) {
    Binder(statement).put(thing);
    statement.run();
    expect_one_row();
  }
  void put_lists(const T& thing) {
    std::size_t at = 0;
    each_list_field(thing, [&](const char*, const auto& list) { lists_[at++].put(thing.id.number, list); });
  }
  void expect_one_row() {
    if (db_.changed_rows() != 1) db_.set_trouble(0, "the tables are not in the state they were left in");
  }

  Connection& db_;
  Statement insert_;
  Statement update_;
  Statement remove_;
  std::vector<ListTable> lists_;
};

}  // namespace

struct RowWriter::Tables {
  template <class T>
  Table<T>& of() {
    return std::get<Table<T>>(all);
  }
  explicit Tables(Connection& db)
      : all(db, db, db, db, db, db, db, db, db), bench(db, [] {
          auto columns = column_names<model::Bench>();
          columns.emplace_back("only");
          return "INSERT OR REPLACE INTO \"bench\" (" + quoted_list(columns) + ") VALUES (" +
                 parameters(1, columns.size() - 1) + ", 1)";
        }()) {}

  std::tuple<Table<model::Footage>, Table<model::NarrationLine>, Table<model::Portion>, Table<model::Figure>,
             Table<model::Hazard>, Table<model::Callout>, Table<model::Note>, Table<model::Chapter>,
             Table<model::Relation>>
      all;
  Statement bench;
};

RowWriter::RowWriter(Connection& db) : db_(db), tables_(std::make_unique<Tables>(db)) {}
RowWriter::~RowWriter() = default;

void RowWriter::put(const model::Change& change) {
  if (db_.trouble()) return;
  const auto carry = [&]<class T>(const T& thing) {
    Table<T>& table = tables_->of<T>();
    if (!change.after) {
      table.remove(thing);
    } else if (!change.before) {
      table.insert(thing);
    } else {
      table.update(thing);
    }
  };
  std::visit(carry, change.after ? *change.after : *change.before);
}

void RowWriter::put(const model::Bench& bench) {
  Binder(tables_->bench).put(bench);
  tables_->bench.run();
}

void RowWriter::put_all(const model::Record& record) {
  put(record.bench);
  each_list(record, [&]<class T>(const std::vector<T>& list) {
    for (const T& thing : list) tables_->of<T>().insert(thing);
  });
}

}  // namespace sash::store
