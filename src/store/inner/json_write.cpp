#include <cmath>
#include <nlohmann/json.hpp>

#include "store/inner/fields.h"
#include "store/inner/json_text.h"
#include "store/inner/sound.h"
#include "store/inner/words.h"
#include "store/json_form.h"

namespace sash::store {
namespace {

using Json = nlohmann::ordered_json;

Json written(const std::string& v) { return v; }
Json written(bool v) { return v; }
Json written(double v) { return v + 0.0; }  // tables know no negative zero
Json written(Moment v) { return {{"ticks", v.count()}, {"seconds", std::round(v.in_seconds() * 1e6) / 1e6 + 0.0}}; }
Json written(const std::map<std::string, std::string>& v) {
  Json::object_t out;
  for (const auto& [name, value] : v) out.emplace_back(name, value);  // names differ: no look-up needed
  return out;
}
template <WholeNumber T>
Json written(T v) {
  return v;
}
template <class Tag>
Json written(Id<Tag> v) {
  return v.number;
}
template <AnEnum E>
Json written(E v) {
  return word_of(v);
}
template <Fielded T>
Json written(const T& v);

template <class T>
Json written(const std::vector<T>& v) {
  Json out = Json::array();
  for (const T& each : v) out.push_back(written(each));
  return out;
}

// Writes every field; only an optional that is not there is left out.
struct Writer {
  Json out = Json::object();
  template <class F>
  void need(const char* name, const F& field) {
    out[name] = written(field);
  }
  template <class F>
  void may(const char* name, const F& field) {
    need(name, field);
  }
  template <class F>
  void may(const char* name, const std::optional<F>& field) {
    if (field) need(name, *field);
  }
};

template <Fielded T>
Json written(const T& v) {
  Writer writer;
  fields(writer, v);
  return std::move(writer.out);
}

}  // namespace

std::string json_text(const model::Thing& thing) {
  return std::visit([](const auto& t) { return written(t).dump(); }, thing);
}

std::string json_text(const model::Bench& bench) { return written(bench).dump(); }

std::string_view type_word(const model::Thing& thing) {
  return std::visit([]<class T>(const T&) { return std::string_view(naming_of<T>().one); }, thing);
}

std::string to_json(const model::Record& record) {
  promise(!unsound(record), "a record that goes into JSON holds finite numbers and UTF-8 text");
  Json out = {{"format", "sashline record"}, {"version", 1}, {"bench", written(record.bench)}};
  each_list(record, [&]<class T>(const std::vector<T>& list) { out[naming_of<T>().many] = written(list); });
  return out.dump(2) + "\n";
}

}  // namespace sash::store
