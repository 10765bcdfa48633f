#pragma once
// Ways in which an amount came about from a current and a time: electrons, and what they set free. Pure.

#include "narration/inner/wiring.h"

namespace sash::narration {

void wire_currents(const Ledger& told, Wirings& to);

}  // namespace sash::narration
