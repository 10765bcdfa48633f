#pragma once
// What reading the narration of a record proposes, as one edit: figures, portions, relations, hazards and spoken
// warnings. What a person confirmed stays, what was refused does not come back. Pure.

#include "session/editing.h"

namespace sash::session {

Outcome<Planned> propose_from_narration(const model::Record& record, const NewNumber& ids);

}  // namespace sash::session
