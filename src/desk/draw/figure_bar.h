#pragma once
// A figure in the workings: what was said and what everything together gives, each with its uncertainty, as two bars on
// one scale. One click from its pin. Main thread only.

#include <string>
#include <vector>

#include "desk/draw/kit/kit.h"
#include "desk/draw/sheet.h"
#include "desk/shown/asks.h"
#include "desk/shown/workings_page.h"

namespace sash::desk {

/// Draws at the ImGui cursor over the pane's width; `anchors` gets where it stands.
void draw_figure_bar(Kit& kit, const std::string& id, const FigureBar& bar, Asks& asks,
                     std::vector<FigureAnchor>& anchors);

}  // namespace sash::desk
