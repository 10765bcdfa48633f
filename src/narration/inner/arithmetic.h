#pragma once
// Ways in which a figure came about by adding, taking away, counting or sharing out others of its sort. Pure.

#include "narration/inner/wiring.h"

namespace sash::narration {

void wire_arithmetic(const Ledger& told, Wirings& to);

}  // namespace sash::narration
