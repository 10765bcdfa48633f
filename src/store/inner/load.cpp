#include "store/inner/load.h"

#include <algorithm>
#include <numeric>

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
  void say(std::string problem) {
    constexpr std::size_t enough = 100;
    if (loaded_.problems.size() < enough) loaded_.problems.push_back(std::move(problem));
  }
  bool say_trouble(const std::string& table) {
    const auto trouble = db_.take_trouble();
    if (trouble) say("the table " + table + " is unreadable: " + trouble->message);
    return trouble.has_value();
  }

  // Calls take(rows) for every row of a table. When a bad page ends that early, starts over and asks for the rows of
  // each of keys() by itself: then only what lies on bad pages is lost.
  template <class Take, class StartOver, class Keys>
  void read_rows(const std::string& table, const std::string& columns, const std::string& key, const char* order,
                 Take take, StartOver start_over, Keys keys) {
    const std::string select = "SELECT " + columns + " FROM \"" + table + "\"";
    {
      Statement rows(db_, select + " ORDER BY " + order);
      if (say_trouble(table)) return;
      loaded_.anything = true;
      while (rows.step()) take(rows);
    }
    if (!say_trouble(table)) return;
    start_over();
    Statement rows(db_, select + " WHERE \"" + key + "\" = ?1");
    int failures_in_a_row = 0;
    for (const std::int64_t wanted : keys()) {
      rows.bind(1, wanted);
      while (rows.step()) take(rows);
      failures_in_a_row = db_.take_trouble() ? failures_in_a_row + 1 : 0;
      rows.reset();
      if (failures_in_a_row > 2000) return;  // more than a page of rows or of pages: nothing is left here
    }
  }

  void load_bench() {
    bool found = false;
    const auto take = [&](const Statement& rows) {
      model::Bench bench;
      Puller puller(rows);
      puller.take(bench);
      found = puller.good() && !unsound(bench, "");
      if (found) loaded_.record.bench = bench;
    };
    read_rows(
        "bench", quoted_list(column_names<model::Bench>()), "only", "\"only\"", take, [] {},
        [] { return std::vector<std::int64_t>{1}; });
    if (!found) say("the bench is unreadable");
  }

  // Every id a thing of that type can have had, as far as that is known and not senselessly many.
  std::vector<std::int64_t> possible_ids(const std::string& type) {
    constexpr std::int64_t most = 100'000;
    const auto last = db_.integer("SELECT \"number\" FROM \"last_id\" WHERE \"thing\" = '" + type + "'");
    static_cast<void>(db_.take_trouble());
    std::vector<std::int64_t> out(static_cast<std::size_t>(std::clamp<std::int64_t>(last.value_or(most), 0, most)));
    std::iota(out.begin(), out.end(), 1);
    return out;
  }

  template <class T>
  void load_list(std::vector<T>& list) {
    const std::string type = naming_of<T>().one;
    const auto take = [&](const Statement& rows) {
      T thing;
      Puller puller(rows);
      puller.take(thing);
      if (puller.good()) {
        list.push_back(std::move(thing));
      } else {
        say(type + " " + std::to_string(thing.id.number) + " is unreadable");
      }
    };
    read_rows(
        type, quoted_list(column_names<T>()), "id", "\"id\"", take, [&] { list.clear(); },
        [&] { return possible_ids(type); });

    const auto by_id = [](const T& a, const T& b) { return a.id < b.id; };
    const auto same_id = [](const T& a, const T& b) { return a.id == b.id; };
    if (!std::is_sorted(list.begin(), list.end(), by_id)) std::sort(list.begin(), list.end(), by_id);
    list.erase(std::unique(list.begin(), list.end(), same_id), list.end());

    T example;
    each_list_field(example, [&]<class L>(const char* name, L&) { load_inner<L>(list, name); });
    std::erase_if(list, [&](const T& thing) {
      const auto fault = unsound(thing, "the " + type + " " + std::to_string(thing.id.number));
      if (fault) say(fault->sentence.substr(0, fault->sentence.size() - 1));
      return fault.has_value();
    });
  }

  // Hands the rows of one list table out to their owners.
  template <class L, class T>
  void load_inner(std::vector<T>& owners, const char* name) {
    const std::string type = naming_of<T>().one;
    const std::string table = type + "_" + name;
    const auto take = [&](const Statement& rows) {
      const decltype(T::id) id{rows.integer(0)};
      const auto owner =
          std::lower_bound(owners.begin(), owners.end(), id, [](const T& t, auto wanted) { return t.id < wanted; });
      const bool known = owner != owners.end() && owner->id == id;
      if (known && with_list<L>(*owner, name, [&](L& list) { return append(rows, list); })) return;
      say("a row of " + table + " for " + type + " " + std::to_string(id.number) + " is unreadable");
    };
    const auto start_over = [&] {
      for (T& owner : owners) {
        with_list<L>(owner, name, [](L& list) {
          list.clear();
          return true;
        });
      }
    };
    const auto keys = [&] {
      std::vector<std::int64_t> ids;
      for (const T& owner : owners) ids.push_back(owner.id.number);
      return ids;
    };
    read_rows(table, "\"owner\", " + quoted_list(inner_columns(static_cast<const L*>(nullptr))), "owner",
              "\"owner\", \"position\"", take, start_over, keys);
  }

  template <class E>
  static std::vector<std::string> inner_columns(const std::vector<E>*) {
    return column_names<E>();
  }
  static std::vector<std::string> inner_columns(const std::map<std::string, std::string>*) { return {"name", "item"}; }

  // What f makes of the owner's list of that type and name.
  template <class L, class T, class F>
  static bool with_list(T& owner, std::string_view name, F f) {
    bool good = false;
    each_list_field(owner, [&]<class M>(const char* field, M& list) {
      if constexpr (std::is_same_v<L, M>) {
        if (name == field) good = f(list);
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
