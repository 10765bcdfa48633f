#pragma once
// Ways in which a heat came about: so much of something warmed by so much. Pure.

#include "narration/inner/wiring.h"

namespace sash::narration {

void wire_heats(const Ledger& told, Wirings& to);

}  // namespace sash::narration
