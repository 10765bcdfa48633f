#pragma once
// What a record can keep: the one check that every way in (edits, JSON, files) goes through. Pure.

#include <optional>
#include <string>

#include "model/edit.h"
#include "support/outcome.h"

namespace sash::store {

/// Ids and ticks stay within what every JSON reader keeps exactly (IEEE 754 double): 18 days of ticks.
inline constexpr std::int64_t largest_whole = (std::int64_t{1} << 53) - 1;
/// So many footages of the longest duration still add up within 64 bits.
inline constexpr std::size_t most_footages = 1000;

/// What about the thing cannot be kept (a number that is not finite, text that is not UTF-8, a time or id out of
/// range), as a fault whose sentence starts with `what`; nothing when all is well.
/// For each type of thing, and the bench.
template <class T>
std::optional<Fault> unsound(const T& thing, const std::string& what);
std::optional<Fault> unsound(const model::Edit& edit);
std::optional<Fault> unsound(const model::Record& record);

}  // namespace sash::store
