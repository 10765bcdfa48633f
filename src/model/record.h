#pragma once
// Record: everything a project knows, as plain values, each list sorted by id. One thread owns one at a time; copies
// are snapshots for background work.

#include <string>
#include <vector>

#include "model/figure.h"
#include "model/footage.h"
#include "model/relation.h"
#include "model/safety.h"

namespace sash::model {

/// What holds for the whole record.
struct Bench {
  std::string title;
  double room_celsius = 20.0;      ///< °C
  double pressure_kpa = 101.325;   ///< kPa
  double relative_humidity = 0.5;  ///< 0 to 1
  std::string reading_profile;     ///< named limits for captions and callouts; empty: the program's default
  bool operator==(const Bench&) const = default;
};

struct Record {
  Bench bench;
  std::vector<Footage> footages;
  std::vector<NarrationLine> lines;
  std::vector<Portion> portions;
  std::vector<Figure> figures;
  std::vector<Hazard> hazards;
  std::vector<Callout> callouts;
  std::vector<Note> notes;
  std::vector<Chapter> chapters;
  std::vector<Relation> relations;
  bool operator==(const Record&) const = default;

  /// The list that holds things of type T.
  template <class T>
  std::vector<T>& list();
  template <class T>
  const std::vector<T>& list() const {
    return const_cast<Record*>(this)->list<T>();
  }
};

/// The thing with that id, or null. Logarithmic.
const Footage* find(const Record& record, FootageId id);
const NarrationLine* find(const Record& record, LineId id);
const Portion* find(const Record& record, PortionId id);
const Figure* find(const Record& record, FigureId id);
const Hazard* find(const Record& record, HazardId id);
const Callout* find(const Record& record, CalloutId id);
const Note* find(const Record& record, NoteId id);
const Chapter* find(const Record& record, ChapterId id);
const Relation* find(const Record& record, RelationId id);

/// Footages in the order of the film (by `order`, then id).
std::vector<const Footage*> in_order(const Record& record);

/// Where `footage` begins when all footages are played in order; zero for an unknown one.
Moment film_start(const Record& record, FootageId footage);

template <>
inline std::vector<Footage>& Record::list<Footage>() {
  return footages;
}
template <>
inline std::vector<NarrationLine>& Record::list<NarrationLine>() {
  return lines;
}
template <>
inline std::vector<Portion>& Record::list<Portion>() {
  return portions;
}
template <>
inline std::vector<Figure>& Record::list<Figure>() {
  return figures;
}
template <>
inline std::vector<Hazard>& Record::list<Hazard>() {
  return hazards;
}
template <>
inline std::vector<Callout>& Record::list<Callout>() {
  return callouts;
}
template <>
inline std::vector<Note>& Record::list<Note>() {
  return notes;
}
template <>
inline std::vector<Chapter>& Record::list<Chapter>() {
  return chapters;
}
template <>
inline std::vector<Relation>& Record::list<Relation>() {
  return relations;
}

}  // namespace sash::model
