#pragma once
// The rules that settle what sort of quantity a figure is: percents, counts and shares, volumes of gas. Private to
// settle_kinds.

#include "narration/inner/scene.h"

namespace sash::narration {

/// The mention that begins at or just behind token `i`, past words that describe it.
const Mention* mention_behind(const Scene& s, std::size_t i, std::size_t reach);

/// Strength, yield, share of gas or of a split: what the percent is of.
quantity::Kind percent_kind(const Scene& s, std::size_t index);

/// "five portions (of 10 mL)": makes the open number a count when each of them has an amount.
void settle_count(Scene& s, std::size_t index);
/// "half of it": makes the fraction a share of what was measured before.
void settle_share(Scene& s, std::size_t index);
/// "twice with 20 mL": counts without a number word of their own.
void add_twice(Scene& s);

/// Which volumes are of gas, and which of liquid although a gas is spoken of.
void settle_gases(Scene& s);

}  // namespace sash::narration
