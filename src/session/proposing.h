#pragma once
// What reading the narration of a record proposes, as one edit: figures, portions, relations, hazards and spoken
// warnings. What a person confirmed stays, what was refused does not come back; proposals whose words are gone go.
// Pure.

#include "narration/propose.h"
#include "session/editing.h"

namespace sash::session {

/// The edit is empty when the narration suggests nothing new.
Outcome<Planned> propose_from_narration(const model::Record& record, const NewNumber& ids);
/// The same with `read` finding the figures.
Outcome<Planned> propose_from_narration(const model::Record& record, const NewNumber& ids,
                                        const narration::ReadLines& read);

/// Everything proposed and not yet looked at.
std::vector<ThingRef> open_proposals(const model::Record& record);

/// Those of them that may be taken unseen: all but relations that are mere guesses.
std::vector<ThingRef> sure_proposals(const model::Record& record);

}  // namespace sash::session
