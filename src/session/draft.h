#pragma once
// Draft: collects changes to a record into one Edit, seeing its own changes as it goes. Nothing touches the record
// until the edit is applied. Not for keeping: it borrows the record.

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "model/edit.h"
#include "session/intent.h"

namespace sash::session {

/// Hands out a number never used before for a thing of that type; the store's in the program, a counter in tests.
using NewNumber = std::function<std::int64_t(const model::Thing&)>;

class Draft {
 public:
  Draft(const model::Record& record, NewNumber new_number) : record_(record), new_number_(std::move(new_number)) {}

  /// The thing as the draft would leave it, or null.
  template <class T>
  const T* find(decltype(T::id) id) const {
    const auto it = fresh_.find(key<T>(id.number));
    if (it != fresh_.end()) return it->second ? &std::get<T>(*it->second) : nullptr;
    return model::find(record_, id);
  }

  /// Makes (id 0) or replaces a thing; returns its id.
  template <class T>
  decltype(T::id) put(T thing) {
    if (!thing.id.known()) thing.id.number = new_number_(model::Thing(T{}));
    const auto id = thing.id;
    fresh_[key<T>(id.number)] = std::move(thing);
    return id;
  }

  template <class T>
  void remove(decltype(T::id) id) {
    fresh_[key<T>(id.number)] = std::nullopt;
  }

  /// Calls `change(T&)` for every thing of type T for which it returns true, and keeps what it did.
  template <class T, class Change>
  void change_where(Change change) {
    for (const T& each : record_.template list<T>()) {
      const T* now = find<T>(each.id);
      if (now == nullptr) continue;
      T copy = *now;
      if (change(copy)) put(std::move(copy));
    }
  }

  void put_bench(model::Bench bench) { bench_ = std::move(bench); }

  const model::Record& record() const { return record_; }

  /// The edit that brings the record to the draft; empty when nothing would change.
  model::Edit done(std::string name) const;

 private:
  using Key = std::pair<std::size_t, std::int64_t>;
  template <class T>
  static Key key(std::int64_t number) {
    return {model::Thing(T{}).index(), number};
  }

  const model::Record& record_;
  NewNumber new_number_;
  std::map<Key, std::optional<model::Thing>> fresh_;
  std::optional<model::Bench> bench_;
};

}  // namespace sash::session
