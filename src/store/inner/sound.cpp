#include "store/inner/sound.h"

#include <cmath>

#include "store/inner/fields.h"
#include "support/text.h"

namespace sash::store {
namespace {

// Remembers the first field that cannot be kept.
class Checker {
 public:
  template <class F>
  void need(const char* name, const F& field) {
    may(name, field);
  }
  template <class F>
  void may(const char* name, const F& field) {
    if (found_) return;
    const std::size_t outer = at_.size();
    if (outer != 0) at_ += '/';
    at_ += name;
    look(field);
    at_.resize(outer);
  }
  std::optional<Fault> found(const std::string& what) const {
    if (!found_) return std::nullopt;
    return Fault::of(found_->code, what + " cannot be kept: its field " + found_->where + " " + found_->trouble + ".",
                     found_->where);
  }

 private:
  struct Found {
    Code code;
    std::string where;
    std::string trouble;
  };

  void say(Code code, const char* trouble) {
    if (!found_) found_ = Found{code, at_, trouble};
  }
  void look(double v) {
    if (!std::isfinite(v)) say(Code::not_finite, "is no finite number");
  }
  void look(const std::string& v) {
    if (!is_utf8(v)) say(Code::malformed, "is not UTF-8 text");
  }
  void look(Moment v) {
    if (v.count() > largest_whole || v.count() < -largest_whole) {
      say(Code::out_of_range, "is a time of more than 18 days");
    }
  }
  template <class Tag>
  void look(Id<Tag> v) {
    if (v.number < 1 || v.number > largest_whole) say(Code::out_of_range, "is no id from 1 to 9007199254740991");
  }
  template <class T>
  requires WholeNumber<T> || AnEnum<T> || std::same_as<T, bool>
  void look(const T&) {}
  template <class T>
  void look(const std::optional<T>& v) {
    if (v) look(*v);
  }
  template <class T>
  void look(const std::vector<T>& v) {
    for (const T& each : v) look(each);
  }
  void look(const std::map<std::string, std::string>& v) {
    for (const auto& [name, value] : v) {
      look(name);
      look(value);
    }
  }
  template <Fielded T>
  void look(const T& v) {
    fields(*this, v);
  }

  std::string at_;
  std::optional<Found> found_;
};

Fault too_many_footages() {
  return Fault::of(Code::out_of_range, "A record holds at most 1000 footages; put the rest into another record.");
}

}  // namespace

template <class T>
std::optional<Fault> unsound(const T& thing, const std::string& what) {
  Checker checker;
  fields(checker, thing);
  return checker.found(what);
}

template std::optional<Fault> unsound(const model::Bench&, const std::string&);
template std::optional<Fault> unsound(const model::Footage&, const std::string&);
template std::optional<Fault> unsound(const model::NarrationLine&, const std::string&);
template std::optional<Fault> unsound(const model::Portion&, const std::string&);
template std::optional<Fault> unsound(const model::Figure&, const std::string&);
template std::optional<Fault> unsound(const model::Hazard&, const std::string&);
template std::optional<Fault> unsound(const model::Callout&, const std::string&);
template std::optional<Fault> unsound(const model::Note&, const std::string&);
template std::optional<Fault> unsound(const model::Chapter&, const std::string&);
template std::optional<Fault> unsound(const model::Relation&, const std::string&);

std::optional<Fault> unsound(const model::Edit& edit) {
  if (!is_utf8(edit.name)) return Fault::of(Code::malformed, "The name of a step is not UTF-8 text.", edit.name);
  const std::string what = "The step '" + edit.name + "'";
  for (const model::Change& change : edit.changes) {
    if (!change.after) continue;
    auto fault = std::visit([&](const auto& thing) { return unsound(thing, what); }, *change.after);
    if (fault) return fault;
  }
  if (edit.bench) return unsound(edit.bench->after, what);
  return std::nullopt;
}

std::optional<Fault> unsound(const model::Record& record) {
  if (record.footages.size() > most_footages) return too_many_footages();
  std::optional<Fault> found = unsound(record.bench, "The bench");
  each_list(record, [&]<class T>(const std::vector<T>& list) {
    for (const T& each : list) {
      if (found) return;
      found = unsound(each, std::string("The ") + naming_of<T>().one + " " + std::to_string(each.id.number));
    }
  });
  return found;
}

}  // namespace sash::store
