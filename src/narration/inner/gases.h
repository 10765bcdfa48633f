#pragma once
// Moles and volume of a gas, at the conditions of the room or at those of a handbook. Pure.

#include "narration/inner/wiring.h"

namespace sash::narration {

void wire_gases(const Ledger& told, Wirings& to);

}  // namespace sash::narration
