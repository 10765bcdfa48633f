#pragma once
// PlotView: a plot drawn as wide as the pane. The mouse, or Left and Right while the keyboard is on it, runs a reading
// line along the curves that says their values there. Every series has its own shape as well as its own colour. Main
// thread only.

#include <optional>
#include <string_view>

#include "desk/draw/kit/kit.h"
#include "plot/plot.h"

namespace sash::desk {

/// Takes its place at the ImGui cursor. `reading` is where the reading line stands, 0 to 1 across; nothing: none.
void plot_view(Kit& kit, std::string_view id, const plot::Plot& plot, std::optional<double>& reading);

/// The value of a series at `x` between its points; nothing outside of them.
std::optional<double> value_at(const plot::Series& series, double x);

}  // namespace sash::desk
