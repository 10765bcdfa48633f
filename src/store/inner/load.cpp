#include "store/inner/load.h"

#include <algorithm>

#include "store/inner/columns.h"
#include "store/inner/mend.h"
#include "store/inner/sound.h"

namespace sash::store {
namespace {

class Loader {
 public:
  explicit Loader(Connection& db) : db_(db) {}

  Loaded load() {
    load_bench();
    each_list(loaded_.record, [&](auto& list) { load_list(list); });
    if (loaded_.record.footages.size() > most_footages) {
      loaded_.record.footages.resize(most_footages);
      say("there are more than 1000 footages");
    }
    for (auto& problem : mend_references(loaded_.record)) say(std::move(problem));
    return std::move(loaded_);
  }

 private:
  void say(std::string problem) { loaded_.problems.push_back(std::move(problem)); }
  void say_trouble(const std::string& table) {
    if (const auto trouble = db_.take_trouble()) say("the table " + table + " is unreadable: " + trouble->message);
  }

  void load_bench() {
    Statement rows(db_, "SELECT " + quoted_list(column_names<model::Bench>()) + " FROM \"bench\"");
    if (rows.step()) {
      model::Bench bench;
      Puller puller(rows);
      puller.take(bench);
      if (puller.good() && !unsound(bench, "")) {
        loaded_.record.bench = bench;
      } else {
        say("the bench is unreadable");
      }
    } else if (!db_.trouble()) {
      say("the bench is missing");
    }
    say_trouble("bench");
  }

  // Takes rows in the given direction until the end, trouble, or `stop`, an id taken before.
  template <class T>
  void take_rows(std::vector<T>& list, const char* direction, std::int64_t stop) {
    const std::string table = naming_of<T>().one;
    Statement rows(db_,
                   "SELECT " + quoted_list(column_names<T>()) + " FROM \"" + table + "\" ORDER BY \"id\" " + direction);
    while (rows.step()) {
      T thing;
      Puller puller(rows);
      puller.take(thing);
      if (thing.id.number == stop) break;
      if (puller.good()) {
        list.push_back(std::move(thing));
      } else {
        say(table + " " + std::to_string(thing.id.number) + " is unreadable");
      }
    }
  }

  template <class T>
  void load_list(std::vector<T>& list) {
    take_rows(list, "ASC", 0);
    if (db_.trouble()) {  // a bad page: come at it from the other end, too
      say_trouble(naming_of<T>().one);
      take_rows(list, "DESC", list.empty() ? 0 : list.back().id.number);
      static_cast<void>(db_.take_trouble());
    }
    const auto by_id = [](const T& a, const T& b) { return a.id < b.id; };
    const auto same_id = [](const T& a, const T& b) { return a.id == b.id; };
    if (!std::is_sorted(list.begin(), list.end(), by_id)) std::sort(list.begin(), list.end(), by_id);
    list.erase(std::unique(list.begin(), list.end(), same_id), list.end());

    T example;
    each_list_field(example, [&]<class L>(const char* name, L& like) { load_inner(list, name, like); });
    std::erase_if(list, [&](const T& thing) {
      const auto fault =
          unsound(thing, std::string("the ") + naming_of<T>().one + " " + std::to_string(thing.id.number));
      if (fault) say(fault->sentence.substr(0, fault->sentence.size() - 1));
      return fault.has_value();
    });
  }

  // Hands the rows of one list table out to their owners; both come sorted by the owner's id. `like` is the list of a
  // thing that stands for all.
  template <class T, class L>
  void load_inner(std::vector<T>& owners, const char* name, L&) {
    const std::string table = std::string(naming_of<T>().one) + "_" + name;
    Statement rows(db_, "SELECT \"owner\", " + quoted_list(inner_columns(static_cast<const L*>(nullptr))) + " FROM \"" +
                            table + "\" ORDER BY \"owner\", \"position\"");
    auto owner = owners.begin();
    while (rows.step()) {
      const std::int64_t id = rows.integer(0);
      if (owner != owners.end() && owner->id.number > id) owner = owners.begin();  // a damaged order
      while (owner != owners.end() && owner->id.number < id) ++owner;
      const bool known = owner != owners.end() && owner->id.number == id;
      if (!known || !take_inner<L>(rows, *owner, name)) {
        say("a row of " + table + " for " + naming_of<T>().one + " " + std::to_string(id) + " is unreadable");
      }
    }
    say_trouble(table);
  }

  template <class E>
  static std::vector<std::string> inner_columns(const std::vector<E>*) {
    return column_names<E>();
  }
  static std::vector<std::string> inner_columns(const std::map<std::string, std::string>*) { return {"name", "item"}; }

  template <class L, class T>
  static bool take_inner(const Statement& rows, T& owner, std::string_view name) {
    bool good = false;
    each_list_field(owner, [&]<class M>(const char* field, M& list) {
      if constexpr (std::is_same_v<L, M>) {
        if (name == field) good = append(rows, list);
      }
    });
    return good;
  }

  template <class E>
  static bool append(const Statement& rows, std::vector<E>& list) {
    E element{};
    Puller puller(rows, 1);
    puller.take(element);
    if (puller.good()) list.push_back(std::move(element));
    return puller.good();
  }
  static bool append(const Statement& rows, std::map<std::string, std::string>& list) {
    std::string name;
    std::string item;
    Puller puller(rows, 1);
    puller.take(name);
    puller.take(item);
    return puller.good() && list.emplace(std::move(name), std::move(item)).second;
  }

  Connection& db_;
  Loaded loaded_;
};

}  // namespace

Loaded load_record(Connection& db) { return Loader(db).load(); }

}  // namespace sash::store
