#pragma once
// What a person types into a pin's field: "20 mL 6 M nitric acid", "about 4.0 g of copper", "yield 82 %",
// "1.52 g ± 0.01". The same reading as of a narration (figures.h), of one line. Pure; safe from any thread.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/figure.h"
#include "support/outcome.h"

namespace sash::narration {

struct QuickFigure {
  quantity::Kind kind = quantity::Kind::other;
  model::Reading reading;
  model::Doubt doubt;                      ///< `stated` when a plus-minus was typed
  std::string subject;                     ///< normalised; empty when none was typed
  std::optional<std::size_t> attached_to;  ///< place of the figure this strength qualifies
};

/// The quantities typed, the main one first as typed; never empty.
/// Fails: Code::malformed when there is no number with a unit in it.
Outcome<std::vector<QuickFigure>> read_quick_figure(std::string_view typed);

}  // namespace sash::narration
