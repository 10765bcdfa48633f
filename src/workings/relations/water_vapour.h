#pragma once
// The pressure of water vapour over water, which a gas collected there shares. Private to the relations.

#include "workings/relations/kinds.h"

namespace sash::workings {

/// The pressure of the gas itself: the whole pressure less that of water vapour at the temperature. SI.
std::size_t pressure_without_water(Drafting& d, std::size_t pressure, std::size_t temperature);

}  // namespace sash::workings
