#pragma once
// Where to look first when a finding is followed into the footage. Pure.

#include <optional>

#include "workings/finding.h"

namespace sash::workings {

/// The figure most likely wrong, else the one that was compared, else the first; nothing when it is about no figure.
std::optional<model::FigureId> figure_to_look_at(const Finding& finding);

}  // namespace sash::workings
