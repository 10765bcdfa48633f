#pragma once
// Turns what a narration says into things of a record, as proposals for a person to confirm: figures at their moments,
// the portions they are about, the relations that tie them, reaction equations, hazardous moments, spoken warnings.
// Reading again keeps what is there: a figure that was confirmed or refused is not proposed a second time, and neither
// is a relation, hazard or warning. Judges nothing right or wrong (workings does). Pure; deterministic; English only.

#include <functional>
#include <vector>

#include "model/edit.h"
#include "narration/figures.h"

namespace sash::narration {

/// Hands out a number never used before for a thing of that type.
using NewNumber = std::function<std::int64_t(const model::Thing&)>;

/// New things, with ids, each with its rule and confidence in `origin` and standing proposed.
struct Proposals {
  std::vector<model::Portion> portions;
  std::vector<model::Figure> figures;
  std::vector<model::Relation> relations;
  std::vector<model::Hazard> hazards;
  std::vector<model::Callout> callouts;  ///< spoken ones, tied to the hazards they announce
  std::vector<model::FigureId>
      no_longer_said;  ///< figures proposed before whose words are gone; the caller may drop them

  bool empty() const {
    return portions.empty() && figures.empty() && relations.empty() && hazards.empty() && callouts.empty();
  }
};

/// Reads the lines of one footage, in order of time.
using ReadLines = std::function<Reading(std::span<const model::NarrationLine>)>;

/// What the narration lines of `record` suggest beyond what the record has.
Proposals propose(const model::Record& record, const NewNumber& new_number);
/// The same with figures that `read` finds, for instance those that a person labelled.
Proposals propose(const model::Record& record, const NewNumber& new_number, const ReadLines& read);

/// Whether a proposal is sure enough to be taken without a person looking at it: a relation that is guessed must not
/// raise a conflict by itself.
bool sure_enough(const model::Origin& origin);

/// The proposals as one undoable step that adds them.
model::Edit edit_of(const Proposals& proposals);

/// When byte `begin` of a line is first heard: by its word times, otherwise interpolated over its characters.
Moment heard_at(const model::NarrationLine& line, std::size_t begin);

}  // namespace sash::narration
