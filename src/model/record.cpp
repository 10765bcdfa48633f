#include "model/record.h"

#include <algorithm>

namespace sash::model {
namespace {

template <class T>
const T* look_up(const std::vector<T>& list, decltype(T::id) id) {
  const auto it = std::lower_bound(list.begin(), list.end(), id, [](const T& t, auto wanted) { return t.id < wanted; });
  return it != list.end() && it->id == id ? &*it : nullptr;
}

}  // namespace

const Footage* find(const Record& record, FootageId id) { return look_up(record.footages, id); }
const NarrationLine* find(const Record& record, LineId id) { return look_up(record.lines, id); }
const Portion* find(const Record& record, PortionId id) { return look_up(record.portions, id); }
const Figure* find(const Record& record, FigureId id) { return look_up(record.figures, id); }
const Hazard* find(const Record& record, HazardId id) { return look_up(record.hazards, id); }
const Callout* find(const Record& record, CalloutId id) { return look_up(record.callouts, id); }
const Note* find(const Record& record, NoteId id) { return look_up(record.notes, id); }
const Chapter* find(const Record& record, ChapterId id) { return look_up(record.chapters, id); }
const Relation* find(const Record& record, RelationId id) { return look_up(record.relations, id); }

std::vector<const Footage*> in_order(const Record& record) {
  std::vector<const Footage*> out;
  out.reserve(record.footages.size());
  for (const auto& footage : record.footages) out.push_back(&footage);
  std::stable_sort(out.begin(), out.end(), [](const Footage* a, const Footage* b) { return a->order < b->order; });
  return out;
}

Moment film_start(const Record& record, FootageId footage) {
  Moment start;
  for (const Footage* each : in_order(record)) {
    if (each->id == footage) return start;
    start = start + each->duration;
  }
  return {};
}

}  // namespace sash::model
