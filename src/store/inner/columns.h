#pragma once
// How the fields of a thing lie in the columns of its table: inner values are flattened ("place_from"), an optional one
// that is absent is NULL in all its columns, and each list has a table of its own ("line_words": owner, position, ...).

#include <concepts>
#include <string>
#include <utility>
#include <vector>

#include "store/inner/fields.h"
#include "store/inner/sql.h"
#include "store/inner/words.h"

namespace sash::store {

/// Collects the names of columns.
class ColumnNames {
 public:
  std::vector<std::string> names;

  template <class F>
  void need(const char* name, const F& field) {
    add(prefix_ + name, field);
  }
  template <class F>
  void may(const char* name, const F& field) {
    add(prefix_ + name, field);
  }

  template <Scalar T>
  void add(const std::string& name, const T&) {
    names.push_back(name);
  }
  template <class T>
  void add(const std::string& name, const std::optional<T>&) {
    add(name, T{});
  }
  template <Fielded T>
  void add(const std::string& name, const T& v) {
    const std::string outer = prefix_;
    prefix_ = name.empty() ? "" : name + "_";
    fields(*this, v);
    prefix_ = outer;
  }
  template <class T>
  void add(const std::string&, const std::vector<T>&) {}
  void add(const std::string&, const std::map<std::string, std::string>&) {}

 private:
  std::string prefix_;
};

/// The columns of a thing, or of what a list holds.
template <class T>
std::vector<std::string> column_names() {
  ColumnNames out;
  out.add(Scalar<T> ? "item" : "", T{});
  return std::move(out.names);
}

template <class T>
int column_count() {
  static const int count = static_cast<int>(column_names<T>().size());
  return count;
}

/// Calls f(name, list) for every list among the fields of a thing.
template <class F>
struct ListFields {
  F f;
  template <class T>
  void need(const char*, T&) {}
  template <class T>
  void may(const char*, T&) {}
  template <class T>
  void may(const char* name, std::vector<T>& list) {
    f(name, list);
  }
  template <class T>
  void may(const char* name, const std::vector<T>& list) {
    f(name, list);
  }
  void may(const char* name, std::map<std::string, std::string>& list) { f(name, list); }
  void may(const char* name, const std::map<std::string, std::string>& list) { f(name, list); }
};

template <class T, class F>
void each_list_field(T& thing, F f) {
  ListFields<F> visitor{f};
  fields(visitor, thing);
}

/// Binds the columns of values one after the other.
class Binder {
 public:
  explicit Binder(Statement& statement) : statement_(statement) {}

  template <class F>
  void need(const char*, const F& field) {
    put(field);
  }
  template <class F>
  void may(const char*, const F& field) {
    put(field);
  }

  void put(const std::string& v) { statement_.bind(++at_, std::string_view(v)); }
  void put(double v) { statement_.bind(++at_, v); }
  void put(Moment v) { statement_.bind(++at_, v.count()); }
  template <std::integral T>
  void put(T v) {
    statement_.bind(++at_, static_cast<std::int64_t>(v));
  }
  template <class Tag>
  void put(Id<Tag> v) {
    statement_.bind(++at_, v.number);
  }
  template <AnEnum T>
  void put(T v) {
    statement_.bind(++at_, word_of(v));
  }
  template <class T>
  void put(const std::optional<T>& v) {
    if (v) return put(*v);
    at_ += column_count<T>();  // parameters start out as nothing
  }
  template <Fielded T>
  void put(const T& v) {
    fields(*this, v);
  }
  template <class T>
  void put(const std::vector<T>&) {}
  void put(const std::map<std::string, std::string>&) {}

 private:
  Statement& statement_;
  int at_ = 0;
};

/// Reads the columns of values one after the other; remembers when one does not hold what it should.
class Puller {
 public:
  explicit Puller(const Statement& statement, int at = 0) : statement_(statement), at_(at) {}

  bool good() const { return good_; }

  template <class F>
  void need(const char*, F& field) {
    take(field);
  }
  template <class F>
  void may(const char*, F& field) {
    take(field);
  }

  void take(std::string& v) {
    if (next_is(Statement::Type::text)) v = statement_.text(at_ - 1);
  }
  void take(double& v) {
    if (next_is(Statement::Type::real)) v = statement_.real(at_ - 1);
  }
  void take(bool& v) {
    if (next_is(Statement::Type::integer)) v = statement_.integer(at_ - 1) != 0;
  }
  void take(Moment& v) {
    if (next_is(Statement::Type::integer)) v = Moment::ticks(statement_.integer(at_ - 1));
  }
  template <WholeNumber T>
  void take(T& v) {
    if (!next_is(Statement::Type::integer)) return;
    const std::int64_t n = statement_.integer(at_ - 1);
    if (std::in_range<T>(n)) {
      v = static_cast<T>(n);
    } else {
      good_ = false;
    }
  }
  template <class Tag>
  void take(Id<Tag>& v) {
    if (next_is(Statement::Type::integer)) v = {statement_.integer(at_ - 1)};
  }
  template <AnEnum T>
  void take(T& v) {
    if (!next_is(Statement::Type::text)) return;
    if (const auto meaning = meaning_of<T>(statement_.text(at_ - 1))) {
      v = *meaning;
    } else {
      good_ = false;
    }
  }
  template <class T>
  void take(std::optional<T>& v) {
    if (statement_.type(at_) != Statement::Type::nothing) return take(v.emplace());
    at_ += column_count<T>();
  }
  template <Fielded T>
  void take(T& v) {
    fields(*this, v);
  }
  template <class T>
  void take(std::vector<T>&) {}
  void take(std::map<std::string, std::string>&) {}

 private:
  bool next_is(Statement::Type type) {
    const bool right = statement_.type(at_++) == type;
    good_ = good_ && right;
    return right;
  }

  const Statement& statement_;
  int at_;
  bool good_ = true;
};

/// "a", "b", "c"
inline std::string quoted_list(const std::vector<std::string>& names) {
  std::string out;
  for (const auto& name : names) out += (out.empty() ? "\"" : ", \"") + name + "\"";
  return out;
}

}  // namespace sash::store
