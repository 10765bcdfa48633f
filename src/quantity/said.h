#pragma once
// What a number as said or written allows: which of its digits count, how far a hedge reaches, and whether a computed
// value is what was said, rounded. Not for stated plus-minus (spread.h) or instruments (glassware.h). Pure; safe from
// any thread. Sources: JCGM 100:2008 4.3.7, 4.3.9 and F.2.2.1 (a resolution δ has standard uncertainty 0.29 δ); the
// reach of spoken round numbers and hedges is common practice, no source, and is said in the sentence.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "quantity/kind.h"
#include "quantity/spread.h"

namespace sash::quantity {

/// The words around a number. `exact` means no hedge was said.
enum class Hedge : std::uint8_t { exact, about, under, over, range };

/// A number as it was given, in its unit.
struct Said {
  double value = 0;             ///< the lower end when `upper` is there
  std::optional<double> upper;  ///< upper end of a range
  std::string digits;           ///< "4.00", "1,250", "2.5e-3"; empty: the shortest spelling of `value`
  Hedge hedge = Hedge::exact;
  bool precisely = false;  ///< "exactly 20": every digit counts
};

/// The interval in which the number may lie, as said. Both ends belong to it.
struct Limits {
  double low;
  double high;
};

/// How far the digits of a number reach to each side: half a unit of its last digit. Decimals and scientific notation
/// count every digit. Trailing zeros of a whole number are open: the reach is half a unit of its last non-zero digit,
/// but at most a fortieth of the number and at least half a unit of its last digit: 20 ± 0.5, 100 ± 2.5, 250 ± 5, 1000
/// ± 25, 4.00 ± 0.005.
double reach_of(const Said& said);

/// The interval the person allows: digits for a plain number; the two ends of a range; for "about" a whole unit of the
/// last non-zero digit (five counts as a unit: "about 25"), at most a tenth of the number and at least twice the plain
/// reach; for "over" and "under" the same reach to one side only.
Limits limits_of(const Said& said);

/// The number to compute with and its spread: the middle of the limits; rectangular, and triangular for "about". Counts
/// are exact; a spoken share such as "half" without digits is good to a twentieth of itself.
struct Estimate {
  double best;
  Spread spread;
};
Estimate estimate_of(const Said& said, Kind kind, std::string_view unit_symbol);

/// Whether `computed` (same unit) is what was said, rounded: it lies within limits_of(said). A value half-way between
/// two roundings agrees with both.
bool agrees_as_rounded(const Said& said, double computed);

}  // namespace sash::quantity
