#pragma once
// The program's sign: a raised sash with a line of time running under it. Drawn, so that every size is crisp.

#include <vector>

namespace sash::desk::inner {

/// RGBA rows from the top, `side` x `side`.
std::vector<unsigned char> window_icon(int side);

}  // namespace sash::desk::inner
