#pragma once
// The fields of every thing a record holds, each named once. The JSON form, the tables and the checks all walk these
// lists, so that a field added here (and to the schema) is kept everywhere.
// A visitor has need(name, field) for what must be given and may(name, field) for what has a default.

#include <concepts>
#include <map>
#include <optional>
#include <string>
#include <type_traits>
#include <vector>

#include "model/edit.h"
#include "model/record.h"

namespace sash::store {

template <class T, class U>
concept Is = std::same_as<std::remove_const_t<T>, U>;

template <class V, Is<model::Bench> T>
void fields(V& v, T& t) {
  v.may("title", t.title);
  v.may("room_celsius", t.room_celsius);
  v.may("pressure_kpa", t.pressure_kpa);
  v.may("relative_humidity", t.relative_humidity);
  v.may("reading_profile", t.reading_profile);
}

template <class V, Is<Stretch> T>
void fields(V& v, T& t) {
  v.need("from", t.from);
  v.need("until", t.until);
}

template <class V, Is<model::Place> T>
void fields(V& v, T& t) {
  v.need("footage", t.footage);
  v.need("from", t.from);
  v.may("until", t.until);
}

template <class V, Is<model::Words> T>
void fields(V& v, T& t) {
  v.need("line", t.line);
  v.need("begin", t.begin);
  v.need("length", t.length);
}

template <class V, Is<model::Origin> T>
void fields(V& v, T& t) {
  v.may("standing", t.standing);
  v.may("rule", t.rule);
  v.may("confidence", t.confidence);
}

template <class V, Is<model::Footage> T>
void fields(V& v, T& t) {
  v.need("id", t.id);
  v.need("path", t.path);
  v.may("fingerprint", t.fingerprint);
  v.may("title", t.title);
  v.may("duration", t.duration);
  v.may("order", t.order);
}

template <class V, Is<model::Word> T>
void fields(V& v, T& t) {
  v.need("begin", t.begin);
  v.need("length", t.length);
  v.need("from", t.from);
}

template <class V, Is<model::NarrationLine> T>
void fields(V& v, T& t) {
  v.need("id", t.id);
  v.need("footage", t.footage);
  v.need("when", t.when);
  v.need("text", t.text);
  v.may("speaker", t.speaker);
  v.may("words", t.words);
  v.may("noise", t.noise);
}

template <class V, Is<model::Portion> T>
void fields(V& v, T& t) {
  v.need("id", t.id);
  v.need("name", t.name);
  v.may("subject", t.subject);
  v.may("vessel", t.vessel);
}

template <class V, Is<model::Reading> T>
void fields(V& v, T& t) {
  v.need("value", t.value);
  v.may("upper", t.upper);
  v.may("digits", t.digits);
  v.may("unit", t.unit);
  v.may("hedge", t.hedge);
}

template <class V, Is<model::Doubt> T>
void fields(V& v, T& t) {
  v.may("from", t.from);
  v.may("half_width", t.half_width);
  v.may("instrument", t.instrument);
}

template <class V, Is<model::Figure> T>
void fields(V& v, T& t) {
  v.need("id", t.id);
  v.need("place", t.place);
  v.may("words", t.words);
  v.may("kind", t.kind);
  v.may("reading", t.reading);
  v.may("doubt", t.doubt);
  v.may("subject", t.subject);
  v.may("label", t.label);
  v.may("portion", t.portion);
  v.may("role", t.role);
  v.may("source", t.source);
  v.may("corrected_by", t.corrected_by);
  v.may("origin", t.origin);
}

template <class V, Is<model::Hazard> T>
void fields(V& v, T& t) {
  v.need("id", t.id);
  v.need("place", t.place);
  v.may("cause", t.cause);
  v.may("substance", t.substance);
  v.may("route", t.route);
  v.may("level", t.level);
  v.may("note", t.note);
  v.may("origin", t.origin);
}

template <class V, Is<model::Callout> T>
void fields(V& v, T& t) {
  v.need("id", t.id);
  v.need("place", t.place);
  v.need("text", t.text);
  v.may("level", t.level);
  v.may("delivery", t.delivery);
  v.may("hazards", t.hazards);
  v.may("origin", t.origin);
}

template <class V, Is<model::Note> T>
void fields(V& v, T& t) {
  v.need("id", t.id);
  v.need("place", t.place);
  v.need("text", t.text);
}

template <class V, Is<model::Chapter> T>
void fields(V& v, T& t) {
  v.need("id", t.id);
  v.need("place", t.place);
  v.need("title", t.title);
}

template <class V, Is<model::Term> T>
void fields(V& v, T& t) {
  v.need("slot", t.slot);
  v.need("figure", t.figure);
  v.may("about", t.about);
}

template <class V, Is<model::Relation> T>
void fields(V& v, T& t) {
  v.need("id", t.id);
  v.need("type", t.type);
  v.may("terms", t.terms);
  v.may("given", t.given);
  v.may("label", t.label);
  v.may("origin", t.origin);
}

/// What files call one thing of a type (its table) and a list of them (its JSON list).
struct Naming {
  const char* one;
  const char* many;
};

constexpr Naming naming(const model::Footage*) { return {"footage", "footages"}; }
constexpr Naming naming(const model::NarrationLine*) { return {"line", "lines"}; }
constexpr Naming naming(const model::Portion*) { return {"portion", "portions"}; }
constexpr Naming naming(const model::Figure*) { return {"figure", "figures"}; }
constexpr Naming naming(const model::Hazard*) { return {"hazard", "hazards"}; }
constexpr Naming naming(const model::Callout*) { return {"callout", "callouts"}; }
constexpr Naming naming(const model::Note*) { return {"note", "notes"}; }
constexpr Naming naming(const model::Chapter*) { return {"chapter", "chapters"}; }
constexpr Naming naming(const model::Relation*) { return {"relation", "relations"}; }

template <class T>
constexpr Naming naming_of() {
  return naming(static_cast<const T*>(nullptr));
}

/// Calls f(list) for each list of the record, those that are pointed at before those that point at them.
template <class R, class F>
void each_list(R& record, F&& f) {
  f(record.footages);
  f(record.lines);
  f(record.portions);
  f(record.figures);
  f(record.hazards);
  f(record.callouts);
  f(record.notes);
  f(record.chapters);
  f(record.relations);
}

// What a field can be.

template <class T>
inline constexpr bool is_id = false;
template <class Tag>
inline constexpr bool is_id<Id<Tag>> = true;

template <class T>
concept AnId = is_id<T>;
template <class T>
concept AnEnum = std::is_enum_v<T>;
template <class T>
concept WholeNumber = std::integral<T> && !std::same_as<T, bool>;
template <class T>
concept Scalar =
    AnId<T> || AnEnum<T> || std::is_arithmetic_v<T> || std::same_as<T, std::string> || std::same_as<T, Moment>;

struct AnyVisitor {
  template <class F>
  void need(const char*, F&) {}
  template <class F>
  void may(const char*, F&) {}
};
template <class T>
concept Fielded = requires(AnyVisitor& v, T& t) {
  fields(v, t);
};

}  // namespace sash::store
