#pragma once
// Ways in which a figure came about in proportion to others: an aliquot and the flask it was taken from, so much on
// top, an excess, the mean of readings, one of several alike, volts times amperes. Pure.

#include "narration/inner/wiring.h"

namespace sash::narration {

void wire_proportions(const Ledger& told, Wirings& to);

}  // namespace sash::narration
