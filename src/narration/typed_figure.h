#pragma once
// Reads what a person types into a pin's field ("20 mL 6 M nitric acid", "about 4.0 g of copper", "yield 82 %",
// "1.52 ± 0.01 g", "3-5 drops") into the quantities it states and the substance it names. For one short phrase typed on
// purpose; running speech is read by figures.h. Pure; safe from any thread.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/figure.h"
#include "support/outcome.h"

namespace sash::narration {

/// One quantity of the phrase, as a figure will hold it.
struct TypedQuantity {
  quantity::Kind kind = quantity::Kind::other;
  model::Reading reading;
  std::optional<double> plus_minus;  ///< half width, in the reading's unit, when one was typed
  std::string text;                  ///< the words it was read from
};

struct TypedFigure {
  std::vector<TypedQuantity> quantities;  ///< in the order typed; at least one
  std::string subject;                    ///< normalised where known, as typed otherwise; may be empty
  std::optional<std::string> question;    ///< a sentence when the name could mean several substances
};

/// Fails: Code::malformed when no quantity stands in `text`; Code::unknown_name when a number is followed by a word
/// that is no unit and nothing else gives it one.
Outcome<TypedFigure> read_typed_figure(std::string_view text);

/// Whether a figure of this kind says how strong a solution is rather than how much of it there is.
bool is_strength(quantity::Kind kind);

}  // namespace sash::narration
