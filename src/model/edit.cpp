#include "model/edit.h"

#include <algorithm>
#include <set>

namespace sash::model {
namespace {

Fault stale(const Edit& edit) {
  return Fault::of(Code::impossible,
                   "The step '" + edit.name +
                       "' was made for another state of the record and was not carried out; look at the "
                       "record again and repeat it.",
                   edit.name);
}

template <class T>
bool carry_out(const std::optional<Thing>& before, const std::optional<Thing>& after, std::vector<T>& list) {
  const T* old = before ? &std::get<T>(*before) : nullptr;
  const T* fresh = after ? std::get_if<T>(&*after) : nullptr;
  if (after && fresh == nullptr) return false;
  const auto id = old != nullptr ? old->id : fresh->id;
  if (!id.known() || (old != nullptr && fresh != nullptr && old->id != fresh->id)) return false;
  const auto it = std::lower_bound(list.begin(), list.end(), id, [](const T& t, auto wanted) { return t.id < wanted; });
  const bool there = it != list.end() && it->id == id;
  if (old == nullptr) {
    if (there) return false;
    list.insert(it, *fresh);
    return true;
  }
  if (!there || !(*it == *old)) return false;
  if (fresh != nullptr) {
    *it = *fresh;
  } else {
    list.erase(it);
  }
  return true;
}

bool carry_out(const Change& change, Record& record) {
  if (!change.before && !change.after) return false;
  const Thing& shape = change.before ? *change.before : *change.after;
  return std::visit([&]<class T>(const T&) { return carry_out<T>(change.before, change.after, record.list<T>()); },
                    shape);
}

// Everything the record points at must be there: a figure's footage, a relation's figures, a callout's hazards.
std::optional<std::string> dangling(const Record& r) {
  const auto placed = [&](const Place& place) { return find(r, place.footage) != nullptr; };
  for (const auto& line : r.lines) {
    if (find(r, line.footage) == nullptr) return "a narration line's footage";
  }
  for (const auto& figure : r.figures) {
    if (!placed(figure.place)) return "a figure's footage";
    if (figure.words && find(r, figure.words->line) == nullptr) return "a figure's narration line";
    if (figure.portion && find(r, *figure.portion) == nullptr) return "a figure's portion";
    if (figure.corrected_by && find(r, *figure.corrected_by) == nullptr) return "a figure's correction";
  }
  for (const auto& hazard : r.hazards) {
    if (!placed(hazard.place)) return "a hazard's footage";
  }
  for (const auto& callout : r.callouts) {
    if (!placed(callout.place)) return "a callout's footage";
    for (const HazardId id : callout.hazards) {
      if (find(r, id) == nullptr) return "a callout's hazard";
    }
  }
  for (const auto& note : r.notes) {
    if (!placed(note.place)) return "a note's footage";
  }
  for (const auto& chapter : r.chapters) {
    if (!placed(chapter.place)) return "a chapter's footage";
  }
  for (const auto& relation : r.relations) {
    for (const Term& term : relation.terms) {
      if (find(r, term.figure) == nullptr) return "a relation's figure";
    }
  }
  return std::nullopt;
}

}  // namespace

Edit inverse(const Edit& edit) {
  Edit back;
  back.name = edit.name;
  for (auto it = edit.changes.rbegin(); it != edit.changes.rend(); ++it)
    back.changes.push_back({it->after, it->before});
  if (edit.bench) back.bench = BenchChange{edit.bench->after, edit.bench->before};
  return back;
}

Done apply(const Edit& edit, Record& record) {
  std::size_t done = 0;
  const auto take_back = [&] {
    while (done > 0) {
      --done;
      const Change& c = edit.changes[done];
      carry_out(Change{c.after, c.before}, record);
    }
  };
  if (edit.bench && !(record.bench == edit.bench->before)) return stale(edit);
  for (const Change& change : edit.changes) {
    if (!carry_out(change, record)) {
      take_back();
      return stale(edit);
    }
    ++done;
  }
  if (const auto lost = dangling(record)) {
    take_back();
    return Fault::of(Code::impossible,
                     "The step '" + edit.name + "' would leave " + *lost +
                         " missing and was not carried out; remove or change what depends on it in the same step.",
                     edit.name);
  }
  if (edit.bench) record.bench = edit.bench->after;
  return {};
}

}  // namespace sash::model
