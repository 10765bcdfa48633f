#pragma once
// Ways in which the strength of a solution came about: solute and solvent, dilution, pouring together, titration. Pure.

#include "narration/inner/wiring.h"

namespace sash::narration {

void wire_solutions(const Ledger& told, Wirings& to);

}  // namespace sash::narration
