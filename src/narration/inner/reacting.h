#pragma once
// Ways in which an amount came about by a reaction: what a product weighs in theory, how much of one reactant another
// takes, equivalents. Equations are found from the substances measured in (equations.h). Pure.

#include "narration/inner/wiring.h"

namespace sash::narration {

void wire_reactions(const Ledger& told, Wirings& to);

}  // namespace sash::narration
