#pragma once
// Editing: what each thing a person does to the record amounts to, as one edit. Pure functions of the record; nothing
// is carried out here. Fails, all of them: Code::not_found when the thing named is no longer there.

#include <span>
#include <string>

#include "model/edit.h"
#include "session/draft.h"
#include "session/intent.h"
#include "support/outcome.h"

namespace sash::session {

/// What an edit does, and the thing it is mainly about, where there is one.
struct Planned {
  model::Edit edit;
  std::optional<ThingRef> about;
};

Planned pin(const model::Record& record, const NewNumber& ids, PinKind kind, const model::Place& place);

/// The span ends at `until`; when that lies before its start, start and end change places.
Outcome<Planned> end_span(const model::Record& record, const ThingRef& thing, Moment until);

/// Moves the start to `from`, and the span with it; a narration line slides (sliding.h).
Outcome<Planned> move_pin(const model::Record& record, const ThingRef& thing, Moment from);

/// Makes or replaces the thing; a proposal that is changed so counts as confirmed, a line is reworded (rewording.h).
Planned put_thing(const model::Record& record, const NewNumber& ids, const model::Thing& thing, std::string name);
Planned put_bench(const model::Record& record, const model::Bench& bench);

/// Removes things with what cannot stand without them: a figure leaves its relations (a relation left with fewer than
/// two figures goes too), a hazard leaves its callouts, a line leaves its figures standing without words, a footage
/// takes everything pinned on it along.
Outcome<Planned> remove_things(const model::Record& record, std::span<const ThingRef> things);

/// Confirms or refuses proposals.
Outcome<Planned> settle(const model::Record& record, std::span<const ThingRef> things, model::Standing standing);

/// Reads `text` as a quantity phrase into the figure; further quantities in it (a strength) become figures of the same
/// portion, tied by a relation.
/// Fails: malformed, when no quantity can be read from `text`; the figure then stays as it was.
Outcome<Planned> type_figure(const model::Record& record, const NewNumber& ids, model::FigureId figure,
                             const std::string& text);

/// Makes a figure of words of a narration line, at the time they are heard.
Outcome<Planned> pin_words(const model::Record& record, const NewNumber& ids, const model::Words& words);

}  // namespace sash::session
