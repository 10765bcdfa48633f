#pragma once
// Strengths that nobody states because the name says them: "concentrated nitric acid", the pure liquid in a mixture.
// Each is a constant with what labels give as its uncertainty, and a note that says what was taken. Private to the
// relations. Source: chem/commercial.h and the table it names.

#include <optional>
#include <string>

#include "workings/relations/kinds.h"

namespace sash::workings {

/// The mass fraction that the trade name of the relation's substance means, or `name` where given; nothing where it is
/// no such name.
std::optional<Filled> usual_strength(Drafting& d, const std::string& below, const std::string& name = {});

/// Nothing but the substance: 100 %, by mass or by volume.
Filled pure_strength(Drafting& d, const std::string& below, quantity::Kind percent);

}  // namespace sash::workings
