#include "session/editing.h"

#include <algorithm>

#include "session/rewording.h"
#include "session/sliding.h"
#include "support/check.h"

namespace sash::session {
namespace {

using model::Place;
using model::Record;

const NewNumber no_new_things = [](const model::Thing&) -> std::int64_t {
  promise(false, "an edit of what exists makes nothing new");
  return 0;
};

Fault gone() {
  return Fault::of(Code::not_found,
                   "That is no longer in the record; it may have been removed or undone, so choose again.");
}

std::string_view word_for(const ThingRef& thing) {
  constexpr std::string_view words[] = {"footage", "narration line", "portion", "figure",  "hazard",
                                        "callout", "note",           "chapter", "relation"};
  return words[thing.index()];
}

// Calls `use(place)` for the place of a pin; false for things that are not pinned.
template <class T, class Use>
bool with_place(T& thing, Use use) {
  if constexpr (requires { thing.place; }) {
    use(thing.place);
    return true;
  } else {
    return false;
  }
}

template <class Id>
using ThingOf = std::remove_cvref_t<decltype(*model::find(std::declval<const Record&>(), Id{}))>;

template <class Change>
Outcome<Planned> change_place(const Record& record, const ThingRef& ref, std::string name, Change change) {
  Draft draft(record, no_new_things);
  const bool found = std::visit(
      [&]<class Id>(Id id) {
        using T = ThingOf<Id>;
        const T* thing = draft.find<T>(id);
        if (thing == nullptr) return false;
        T copy = *thing;
        if constexpr (std::is_same_v<T, model::NarrationLine>) {
          Place place{copy.footage, copy.when.from, copy.when.until};
          const Moment before = place.from;
          change(place);
          for (model::Word& word : copy.words) word.from = word.from + (place.from - before);
          copy.when = {place.from, *place.until};
        } else if (!with_place(copy, change)) {
          return false;
        }
        draft.put(std::move(copy));
        return true;
      },
      ref);
  if (!found) return gone();
  return Planned{draft.done(std::move(name)), ref};
}

// Whoever changes a proposal has looked at it: it is confirmed with the change.
template <class T>
T looked_at(T thing) {
  if constexpr (requires { thing.origin; }) {
    if (thing.origin.standing == model::Standing::proposed) thing.origin.standing = model::Standing::confirmed;
  }
  return thing;
}

void remove_one(Draft& draft, model::FigureId id) {
  draft.remove<model::Figure>(id);
  draft.change_where<model::Figure>(
      [&](model::Figure& f) { return f.corrected_by == id && (f.corrected_by.reset(), true); });
  std::vector<model::RelationId> too_small;
  draft.change_where<model::Relation>([&](model::Relation& r) {
    const bool held = std::erase_if(r.terms, [&](const model::Term& t) { return t.figure == id; }) > 0;
    if (held && r.terms.size() < 2) too_small.push_back(r.id);
    return held;
  });
  for (const auto relation : too_small) draft.remove<model::Relation>(relation);
}

void remove_one(Draft& draft, model::HazardId id) {
  draft.remove<model::Hazard>(id);
  draft.change_where<model::Callout>([&](model::Callout& c) { return std::erase(c.hazards, id) > 0; });
}

void remove_one(Draft& draft, model::LineId id) {
  draft.remove<model::NarrationLine>(id);
  draft.change_where<model::Figure>(
      [&](model::Figure& f) { return f.words && f.words->line == id && (f.words.reset(), true); });
}

void remove_one(Draft& draft, model::PortionId id) {
  draft.remove<model::Portion>(id);
  draft.change_where<model::Figure>([&](model::Figure& f) { return f.portion == id && (f.portion.reset(), true); });
}

void remove_one(Draft& draft, model::CalloutId id) { draft.remove<model::Callout>(id); }
void remove_one(Draft& draft, model::NoteId id) { draft.remove<model::Note>(id); }
void remove_one(Draft& draft, model::ChapterId id) { draft.remove<model::Chapter>(id); }
void remove_one(Draft& draft, model::RelationId id) { draft.remove<model::Relation>(id); }

void remove_one(Draft& draft, model::FootageId id) {
  const Record& record = draft.record();
  const auto drop_pinned = [&](const auto& list) {
    for (const auto& each : list) {
      if (each.place.footage == id) remove_one(draft, each.id);
    }
  };
  drop_pinned(record.figures);
  drop_pinned(record.hazards);
  drop_pinned(record.callouts);
  drop_pinned(record.notes);
  drop_pinned(record.chapters);
  for (const auto& line : record.lines) {
    if (line.footage == id) remove_one(draft, line.id);
  }
  draft.remove<model::Footage>(id);
}

}  // namespace

Planned pin(const Record& record, const NewNumber& ids, PinKind kind, const Place& place) {
  Draft draft(record, ids);
  ThingRef about;
  const auto put = [&](auto thing, const char* name) {
    thing.place = place;
    about = draft.put(std::move(thing));
    return Planned{draft.done(name), about};
  };
  switch (kind) {
    case PinKind::figure:
      return put(model::Figure{}, "Pin figure");
    case PinKind::yield: {
      model::Figure figure;
      figure.kind = quantity::Kind::percent_yield;
      figure.role = model::Role::stated_result;
      return put(std::move(figure), "Pin yield");
    }
    case PinKind::hazard:
      return put(model::Hazard{}, "Pin hazard");
    case PinKind::note:
      return put(model::Note{}, "Pin note");
    case PinKind::chapter:
      return put(model::Chapter{}, "Pin chapter");
  }
  promise(false, "a known kind of pin");
  return {};
}

Outcome<Planned> end_span(const Record& record, const ThingRef& thing, Moment until) {
  return change_place(record, thing, "End span of " + std::string(word_for(thing)), [&](Place& place) {
    place.until = std::max(place.from, until);
    place.from = std::min(place.from, until);
  });
}

Outcome<Planned> move_pin(const Record& record, const ThingRef& thing, Moment from) {
  if (const auto* line = std::get_if<model::LineId>(&thing)) return slide_line(record, *line, from);
  return change_place(record, thing, "Move " + std::string(word_for(thing)), [&](Place& place) {
    if (place.until) place.until = from + (*place.until - place.from);
    place.from = from;
  });
}

Planned put_thing(const Record& record, const NewNumber& ids, const model::Thing& thing, std::string name) {
  if (const auto* line = std::get_if<model::NarrationLine>(&thing); line != nullptr && model::find(record, line->id))
    return reword_line(record, *line, std::move(name));
  Draft draft(record, ids);
  const ThingRef about = std::visit([&](const auto& t) -> ThingRef { return draft.put(looked_at(t)); }, thing);
  return {draft.done(std::move(name)), about};
}

Planned put_bench(const Record& record, const model::Bench& bench) {
  Draft draft(record, no_new_things);
  draft.put_bench(bench);
  return {draft.done("Change bench settings"), std::nullopt};
}

Outcome<Planned> remove_things(const Record& record, std::span<const ThingRef> things) {
  Draft draft(record, no_new_things);
  for (const ThingRef& ref : things) {
    const bool found = std::visit(
        [&]<class Id>(Id id) {
          if (draft.find<ThingOf<Id>>(id) == nullptr) return false;
          remove_one(draft, id);
          return true;
        },
        ref);
    if (!found) return gone();
  }
  std::string name = "Remove ";
  if (things.size() == 1) {
    name += word_for(things.front());
  } else {
    name += std::to_string(things.size()) + " things";
  }
  return Planned{draft.done(std::move(name)), std::nullopt};
}

Outcome<Planned> settle(const Record& record, std::span<const ThingRef> things, model::Standing standing) {
  Draft draft(record, no_new_things);
  for (const ThingRef& ref : things) {
    const bool found = std::visit(
        [&]<class Id>(Id id) {
          using T = ThingOf<Id>;
          const T* thing = draft.find<T>(id);
          if constexpr (requires(T t) { t.origin; }) {
            if (thing == nullptr) return false;
            T copy = *thing;
            copy.origin.standing = standing;
            draft.put(std::move(copy));
          }
          return thing != nullptr;
        },
        ref);
    if (!found) return gone();
  }
  const std::string verb = standing == model::Standing::refused ? "Refuse " : "Accept ";
  const std::string what =
      things.size() == 1 ? std::string(word_for(things.front())) : std::to_string(things.size()) + " proposals";
  return Planned{draft.done(verb + what), things.size() == 1 ? std::optional(things.front()) : std::nullopt};
}

}  // namespace sash::session
