#pragma once
// Ways in which one portion is said in several quantities: mass, volume, amount of substance, volume of a gas,
// strength, density, or the same quantity in another unit. Pure.

#include "narration/inner/wiring.h"

namespace sash::narration {

void wire_portions(const Ledger& told, Wirings& to);

}  // namespace sash::narration
