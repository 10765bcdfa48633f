#include <algorithm>
#include <cmath>

#include "store/inner/fields.h"
#include "store/inner/json_parse.h"
#include "store/inner/json_text.h"
#include "store/inner/sound.h"
#include "store/inner/words.h"
#include "store/json_form.h"
#include "support/text.h"

namespace sash::store {
namespace {

using Json = nlohmann::json;

// What was found wrong so far. Keeps no more sentences than somebody reads.
class Problems {
 public:
  void add(const std::string& pointer, const std::string& sentence) {
    if (++count_ > 20) return;
    if (sentences_.empty()) first_ = pointer;
    sentences_.push_back("At " + (pointer.empty() ? "the top" : pointer) + ": " + sentence +
                         (sentence.back() == '?' ? "" : "."));
  }
  std::size_t count() const { return count_; }
  std::optional<Fault> fault() const {
    if (sentences_.empty()) return std::nullopt;
    Fault out = Fault::of(Code::malformed, sentences_.front(), first_);
    out.others.assign(sentences_.begin() + 1, sentences_.end());
    return out;
  }

 private:
  std::size_t count_ = 0;
  std::string first_;
  std::vector<std::string> sentences_;
};

// One value of the tree, where it stands, and where to complain.
struct Spot {
  const Json& json;
  std::string pointer;
  Problems& problems;

  void complain(const std::string& sentence) const { problems.add(pointer, sentence); }
  void expected(const std::string& what) const { complain("expected " + what + ", found " + described()); }
  Spot under(const std::string& name, const Json& value) const {
    const std::string escaped = replace_all(replace_all(name, "~", "~0"), "/", "~1");
    return {value, pointer + "/" + escaped, problems};
  }

 private:
  std::string described() const {
    switch (json.type()) {
      case Json::value_t::null:
        return "null";
      case Json::value_t::boolean:
        return json.get<bool>() ? "true" : "false";
      case Json::value_t::string:
        return "text";
      case Json::value_t::array:
        return "a list";
      case Json::value_t::object:
        return "an object";
      default:
        return "the number " + json.dump();
    }
  }
};

std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates) {
  const auto near = nearest_spelling(word, candidates);
  return near ? "; did you mean \"" + std::string(*near) + "\"?" : "";
}

void read(const Spot& spot, std::string& out) {
  if (!spot.json.is_string()) return spot.expected("text");
  out = spot.json.get_ref<const std::string&>();
}

void read(const Spot& spot, bool& out) {
  if (!spot.json.is_boolean()) return spot.expected("true or false");
  out = spot.json.get<bool>();
}

void read(const Spot& spot, double& out) {
  if (!spot.json.is_number()) return spot.expected("a number");
  out = spot.json.get<double>();
}

// A whole number from `least` to `most`.
std::optional<std::int64_t> whole(const Spot& spot, std::int64_t least, std::int64_t most) {
  const bool fits = spot.json.is_number_unsigned()
                        ? spot.json.get<std::uint64_t>() <= static_cast<std::uint64_t>(most)
                        : spot.json.is_number_integer() && spot.json.get<std::int64_t>() <= most;
  if (fits && spot.json.get<std::int64_t>() >= least) return spot.json.get<std::int64_t>();
  spot.expected("a whole number from " + std::to_string(least) + " to " + std::to_string(most));
  return std::nullopt;
}

template <WholeNumber T>
void read(const Spot& spot, T& out) {
  if (const auto n = whole(spot, std::numeric_limits<T>::min(), std::numeric_limits<T>::max())) {
    out = static_cast<T>(*n);
  }
}

template <class Tag>
void read(const Spot& spot, Id<Tag>& out) {
  if (const auto n = whole(spot, 1, largest_whole)) out = {*n};
}

template <AnEnum E>
void read(const Spot& spot, E& out) {
  if (!spot.json.is_string()) return spot.expected("a word");
  const auto& word = spot.json.get_ref<const std::string&>();
  const auto words = all_words<E>();
  if (const auto meaning = meaning_of<E>(word)) {
    out = *meaning;
  } else {
    const auto near = did_you_mean(word, words);
    std::string known;
    for (const auto each : words) known += (known.empty() ? "" : ", ") + std::string(each);
    spot.complain("\"" + word + "\" is none of the words known here" + (near.empty() ? " (" + known + ")" : near));
  }
}

void read(const Spot& spot, std::map<std::string, std::string>& out) {
  if (!spot.json.is_object()) return spot.expected("an object");
  for (const auto& [name, value] : spot.json.items()) read(spot.under(name, value), out[name]);
}

template <Fielded T>
void read(const Spot& spot, T& out);
void read(const Spot& spot, Moment& out);

template <class T>
void read(const Spot& spot, std::optional<T>& out) {
  read(spot, out.emplace());
}

template <class T>
void read(const Spot& spot, std::vector<T>& out) {
  if (!spot.json.is_array()) return spot.expected("a list");
  out.reserve(spot.json.size());
  for (const Json& each : spot.json) {
    const std::string position = std::to_string(out.size());
    read(spot.under(position, each), out.emplace_back());
  }
}

// Reads the fields of one object and complains about those that are missing or unknown.
class ObjectReader {
 public:
  explicit ObjectReader(const Spot& spot) : spot_(spot) {}

  template <class F>
  bool may(const char* name, F& field) {
    known_.push_back(name);
    const auto it = spot_.json.find(name);
    if (it == spot_.json.end()) return false;
    ++met_;
    read(spot_.under(name, *it), field);
    return true;
  }
  template <class F>
  void need(const char* name, F& field) {
    if (!may(name, field)) spot_.complain("the field \"" + std::string(name) + "\" is missing");
  }
  void finish() const {
    if (met_ == spot_.json.size()) return;
    for (const auto& [name, value] : spot_.json.items()) {
      if (std::find(known_.begin(), known_.end(), name) != known_.end()) continue;
      std::string sentence = "there is no field \"" + name + "\" here";
      sentence += did_you_mean(name, known_);
      spot_.complain(sentence);
    }
  }

 private:
  const Spot& spot_;
  std::vector<std::string_view> known_;
  std::size_t met_ = 0;
};

template <Fielded T>
void read(const Spot& spot, T& out) {
  if (!spot.json.is_object()) return spot.expected("an object");
  ObjectReader reader(spot);
  fields(reader, out);
  reader.finish();
}

void read(const Spot& spot, Moment& out) {
  if (!spot.json.is_object()) return spot.expected("a time, an object with \"ticks\" or \"seconds\"");
  constexpr double most_seconds = static_cast<double>(largest_whole) / Moment::per_second;
  const std::size_t problems_before = spot.problems.count();
  std::optional<std::int64_t> ticks;
  std::optional<double> seconds;
  ObjectReader reader(spot);
  reader.may("ticks", ticks);
  reader.may("seconds", seconds);
  reader.finish();
  if (spot.problems.count() > problems_before) return;
  if (!ticks && !seconds) return spot.complain("a time needs \"ticks\" or \"seconds\"");
  if ((ticks && (*ticks > largest_whole || *ticks < -largest_whole)) ||
      (seconds && !(std::abs(*seconds) < most_seconds))) {
    return spot.complain("a time of more than 18 days cannot be kept");
  }
  out = ticks ? Moment::ticks(*ticks) : Moment::seconds(*seconds);
  if (ticks && seconds && std::abs(out.in_seconds() - *seconds) > 0.001) {
    spot.complain("\"ticks\" and \"seconds\" say different times; leave out the one that is wrong");
  }
}

// Complains about every id that points at a thing the record does not hold.
class ReferenceCheck {
 public:
  ReferenceCheck(const model::Record& record, Problems& problems) : record_(record), problems_(problems) {}

  template <class F>
  void need(const char* name, const F& field) {
    may(name, field);
  }
  template <class F>
  void may(const char* name, const F& field) {
    if constexpr (AnId<F>) {
      if (std::string_view(name) == "id") return;
    }
    const std::size_t outer = at.size();
    at += std::string("/") + name;
    look(field);
    at.resize(outer);
  }

  std::string at;

 private:
  template <class Tag>
  void look(Id<Tag> id) {
    if (find(record_, id) == nullptr) problems_.add(at, "nothing in the text has the id " + std::to_string(id.number));
  }
  template <class T>
  void look(const std::optional<T>& v) {
    if (v) look(*v);
  }
  template <class T>
  void look(const std::vector<T>& v) {
    for (std::size_t i = 0; i < v.size(); ++i) may(std::to_string(i).c_str(), v[i]);
  }
  template <Fielded T>
  void look(const T& v) {
    fields(*this, v);
  }
  template <class T>
  void look(const T&) {}

  const model::Record& record_;
  Problems& problems_;
};

// Checks what lists must keep among themselves; `positions` are those of the text, for the pointers.
void check_references(const model::Record& record, Problems& problems, const Json& root) {
  ReferenceCheck check(record, problems);
  each_list(record, [&]<class T>(const std::vector<T>& list) {
    const auto lists = root.find(naming_of<T>().many);
    if (lists == root.end()) return;
    std::size_t position = 0;
    for (const Json& json : *lists) {
      const auto id = decltype(T::id){json["id"].template get<std::int64_t>()};
      check.at = std::string("/") + naming_of<T>().many + "/" + std::to_string(position++);
      const auto it = std::lower_bound(list.begin(), list.end(), id, [](const T& t, auto i) { return t.id < i; });
      fields(check, *it);
    }
  });
}

template <class T>
void sort_by_id(std::vector<T>& list, Problems& problems) {
  std::sort(list.begin(), list.end(), [](const T& a, const T& b) { return a.id < b.id; });
  const auto twice = std::adjacent_find(list.begin(), list.end(), [](const T& a, const T& b) { return a.id == b.id; });
  if (twice == list.end()) return;
  problems.add(std::string("/") + naming_of<T>().many, "two of them have the id " + std::to_string(twice->id.number));
}

std::optional<Fault> wrong_heading(const Json& root) {
  const auto format = root.find("format");
  if (format == root.end() || *format != "sashline record") {
    return Fault::of(Code::unsupported,
                     "The JSON text is not a Sashline record: its field \"format\" is not \"sashline record\".");
  }
  const auto version = root.find("version");
  if (version == root.end() || !version->is_number_unsigned() || *version == 0) {
    return Fault::of(Code::malformed, "At /version: expected a whole number from 1.", "/version");
  }
  if (version->get<std::uint64_t>() > 1) {
    return Fault::of(Code::newer_version, "The JSON text was written by a newer Sashline (its version is " +
                                              version->dump() + ", this program reads 1); use the newer program.");
  }
  return std::nullopt;
}

template <class T>
Outcome<T> one_from_json(std::string_view text) {
  const auto json = parse_json(text);
  if (!json) return json.fault();
  Problems problems;
  T out;
  read(Spot{*json, "", problems}, out);
  if (auto fault = problems.fault()) return *fault;
  return out;
}

}  // namespace

Outcome<model::Record> from_json(std::string_view text) {
  const auto json = parse_json(text);
  if (!json) return json.fault();
  if (!json->is_object()) return Fault::of(Code::malformed, "The JSON text is not an object, so it is no record.");
  if (auto fault = wrong_heading(*json)) return *fault;

  Problems problems;
  model::Record record;
  const Spot top{*json, "", problems};
  ObjectReader reader(top);
  std::string format;
  int version = 0;
  reader.need("format", format);
  reader.need("version", version);
  reader.may("bench", record.bench);
  each_list(record, [&]<class T>(std::vector<T>& list) { reader.may(naming_of<T>().many, list); });
  reader.finish();
  if (auto fault = problems.fault()) return *fault;

  each_list(record, [&](auto& list) { sort_by_id(list, problems); });
  if (auto fault = problems.fault()) return *fault;
  check_references(record, problems, *json);
  if (auto fault = problems.fault()) return *fault;
  if (auto fault = unsound(record)) return *fault;
  return record;
}

Outcome<model::Thing> thing_from_json(std::string_view type_word, std::string_view text) {
  std::optional<Outcome<model::Thing>> out;
  model::Record lists;
  each_list(lists, [&]<class T>(const std::vector<T>&) {
    if (type_word != naming_of<T>().one) return;
    auto thing = one_from_json<T>(text);
    out = thing ? Outcome<model::Thing>(std::move(thing).value()) : Outcome<model::Thing>(thing.fault());
  });
  if (out) return *out;
  return Fault::of(Code::unknown_name, "There is no type of thing called '" + std::string(type_word) + "'.",
                   std::string(type_word));
}

Outcome<model::Bench> bench_from_json(std::string_view text) { return one_from_json<model::Bench>(text); }

}  // namespace sash::store
