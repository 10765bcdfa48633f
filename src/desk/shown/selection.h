#pragma once
// What is selected on the desk: one thing of the record, or words of a narration line, or nothing. Pure values.

#include <optional>

#include "session/intent.h"

namespace sash::desk {

struct Selection {
  std::optional<session::ThingRef> thing;
  std::optional<model::Words> words;  ///< of narration; then `thing` is their line
  bool operator==(const Selection&) const = default;

  template <class Id>
  std::optional<Id> as() const {
    if (thing && std::holds_alternative<Id>(*thing)) return std::get<Id>(*thing);
    return std::nullopt;
  }
};

/// The thing itself, as the record has it; nothing when it is gone.
std::optional<model::Thing> thing_of(const model::Record& record, const session::ThingRef& ref);
session::ThingRef ref_of(const model::Thing& thing);
/// Where it is pinned; nothing for portions, relations and footages.
std::optional<model::Place> place_of(const model::Record& record, const session::ThingRef& ref);
/// How sure it is; confirmed for things that are never proposed.
model::Standing standing_of(const model::Record& record, const session::ThingRef& ref);

/// The words after (`by` 1) or before (-1) those selected, over line ends; the first word at or after `from` when none
/// are. Nothing where there is no narration.
std::optional<model::Words> step_words(const model::Record& record, std::optional<model::Words> words, int by,
                                       const model::Place& from);
/// One word more at the end (`by` 1) or one less (-1); at least one remains.
model::Words grow_words(const model::Record& record, model::Words words, int by);
/// The whole words that bytes [begin, end) of the line touch; nothing where there are none.
std::optional<model::Words> whole_words(const model::NarrationLine& line, std::size_t begin, std::size_t end);
/// When a byte of a line is said: by its word times where it has them, else by its share of the text.
Moment moment_of(const model::NarrationLine& line, std::size_t byte);

}  // namespace sash::desk
