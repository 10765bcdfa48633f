#pragma once
// Reads a unit as people write and say it ("ml", "millilitres", "deg C", "mM", "% w/v", "g per litre", "kg·m⁻³") into a
// Unit, with the kind of figure it implies. Files hold UCUM (unit.h); this is for what is typed, captioned or on a
// label. Pure; safe from any thread. Sources: SI Brochure, 9th ed., chapter 5 (writing); the short forms of the bench
// are common practice, no source.

#include <optional>
#include <string_view>

#include "quantity/kind.h"
#include "quantity/unit.h"
#include "support/outcome.h"

namespace sash::quantity {

struct TradeUnit {
  Unit unit;
  std::optional<Kind> kind;  ///< nothing where the spelling leaves it open: "%", or no unit at all
};

/// Reads `text`, surrounding blanks ignored; words in any case, symbols as written where case tells them apart ("mM"
/// and "MM", "s" and "S"). A lone "C", "F" or "degrees" is a temperature; "M" is mol/L, "m" metre, "N" equivalents a
/// litre. Any UCUM code is taken too, where it is not spoken for by the trade. Fails: Code::unknown_name with the
/// nearest known spelling; Code::malformed when empty.
Outcome<TradeUnit> read_trade_unit(std::string_view text);

}  // namespace sash::quantity
