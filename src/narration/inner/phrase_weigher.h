#pragma once
// Numbers, weighed: which unit a bare number has, if it is a quantity at all; whether a quantity belongs to the
// procedure or is the size of a vessel, an idiom, another measure; and which percent a percent is. The plain rules'
// answer is one cue among the words around, the figures before and the form of the number. Private to the recognition.

#include <optional>

#include "narration/inner/bare_meaning.h"
#include "narration/inner/scene.h"

namespace sash::narration {

/// What the bare number of phrase `index` means; nothing when it is no quantity.
std::optional<Meaning> weigh_bare(const Scene& s, std::size_t index, const std::optional<Meaning>& by_rule);

/// What becomes of phrase `index`, whose unit was said.
Fate weigh_fate(const Scene& s, std::size_t index, Fate by_rule);

/// The kind of the percent of phrase `index`.
quantity::Kind weigh_percent(const Scene& s, std::size_t index, quantity::Kind by_rule);

}  // namespace sash::narration
