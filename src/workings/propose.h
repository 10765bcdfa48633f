#pragma once
// propose(): relations that suggest themselves from what figures are about, for a person to accept or refuse. Never
// changes a record; never proposes what is there already, accepted, proposed or refused. Pure and deterministic.

#include <vector>

#include "model/record.h"

namespace sash::workings {

/// Proposed relations without ids (`origin.standing` proposed, `origin.rule` names the rule, `origin.confidence`):
/// a mass, a volume, an amount of one portion; a strength and a volume or mass of one portion; one quantity of a
/// portion stated twice; a percent yield with what was isolated and the theoretical yield; a spoken time pinned to a
/// span. The most confident first.
std::vector<model::Relation> propose(const model::Record& record);

}  // namespace sash::workings
