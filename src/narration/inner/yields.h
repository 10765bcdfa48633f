#pragma once
// Ways in which a percentage of product came about: isolated against expected, kept against put in, steps after one
// another. Pure.

#include "narration/inner/wiring.h"

namespace sash::narration {

void wire_yields(const Ledger& told, Wirings& to);

}  // namespace sash::narration
