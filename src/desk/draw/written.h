#pragma once
// Written-out workings, typeset and laid out over a width: pieces flow and break at the signs between them. A figure's
// number is one click from its pin; a constant shows its source. Main thread only.

#include <span>

#include "desk/draw/kit/kit.h"
#include "desk/draw/kit/typeset.h"
#include "desk/shown/asks.h"
#include "workings/check.h"

namespace sash::desk {

/// Draws the lines at the ImGui cursor over the pane's width. `id` keeps their figures apart in the registry.
void draw_written(Kit& kit, std::string_view id, std::span<const workings::Line> lines,
                  std::span<const workings::ConstantUsed> constants, Asks& asks);

}  // namespace sash::desk
