#include "model/edit.h"

#include <algorithm>
#include <string_view>

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

/// What a thing points at that is not there, in words; nothing when all of it is.
using Lost = std::optional<std::string_view>;

Lost unless(bool there, std::string_view words) { return there ? Lost() : Lost(words); }
bool placed(const Record& r, const Place& place) { return find(r, place.footage) != nullptr; }

Lost lost(const Record&, const Footage&) { return {}; }
Lost lost(const Record&, const Portion&) { return {}; }
Lost lost(const Record& r, const NarrationLine& line) {
  return unless(find(r, line.footage) != nullptr, "a narration line's footage");
}
Lost lost(const Record& r, const Figure& figure) {
  if (!placed(r, figure.place)) return "a figure's footage";
  if (figure.words && find(r, figure.words->line) == nullptr) return "a figure's narration line";
  if (figure.portion && find(r, *figure.portion) == nullptr) return "a figure's portion";
  return unless(!figure.corrected_by || find(r, *figure.corrected_by) != nullptr, "a figure's correction");
}
Lost lost(const Record& r, const Hazard& hazard) { return unless(placed(r, hazard.place), "a hazard's footage"); }
Lost lost(const Record& r, const Callout& callout) {
  if (!placed(r, callout.place)) return "a callout's footage";
  const bool all =
      std::all_of(callout.hazards.begin(), callout.hazards.end(), [&](HazardId id) { return find(r, id) != nullptr; });
  return unless(all, "a callout's hazard");
}
Lost lost(const Record& r, const Note& note) { return unless(placed(r, note.place), "a note's footage"); }
Lost lost(const Record& r, const Chapter& chapter) { return unless(placed(r, chapter.place), "a chapter's footage"); }
Lost lost(const Record& r, const Relation& relation) {
  const bool all = std::all_of(relation.terms.begin(), relation.terms.end(),
                               [&](const Term& term) { return find(r, term.figure) != nullptr; });
  return unless(all, "a relation's figure");
}

template <class T>
Lost first_lost(const Record& r) {
  for (const T& thing : r.list<T>()) {
    if (const Lost found = lost(r, thing)) return found;
  }
  return {};
}

template <class... T>
Lost first_lost_of(const Record& r) {
  Lost found;
  static_cast<void>(((found = first_lost<T>(r)) || ...));
  return found;
}

// Everything the record points at must be there. Only what the edit made or changed can point at something new; what is
// pointed at can only be gone where the edit removed something, and then everything is looked through.
Lost dangling(const Edit& edit, const Record& r) {
  const bool removes = std::any_of(edit.changes.begin(), edit.changes.end(), [](const Change& c) { return !c.after; });
  if (removes) return first_lost_of<NarrationLine, Figure, Hazard, Callout, Note, Chapter, Relation>(r);
  for (const Change& change : edit.changes) {
    if (const Lost found = std::visit([&](const auto& thing) { return lost(r, thing); }, *change.after)) return found;
  }
  return {};
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
  if (const Lost missing = dangling(edit, record)) {
    take_back();
    return Fault::of(Code::impossible,
                     "The step '" + edit.name + "' would leave " + std::string(*missing) +
                         " missing and was not carried out; remove or change what depends on it in the same step.",
                     edit.name);
  }
  if (edit.bench) record.bench = edit.bench->after;
  return {};
}

}  // namespace sash::model
