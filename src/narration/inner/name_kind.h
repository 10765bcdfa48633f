#pragma once
// What the name of a substance tells about it: whether it is a gas in a room, a solvent, an acid, a salt. Names that
// must be known are in assets/tables/kinds_by_name.tsv. Pure.

#include <string_view>

#include "narration/inner/mention.h"

namespace sash::narration {

/// Whether a substance of that name is a gas in a room.
bool names_gas(std::string_view name);

/// Puts what the name tells into the mention, and acid salts as people say them: "potassium hydrogen sulfate".
void set_kind_by_name(Mention& m);

}  // namespace sash::narration
