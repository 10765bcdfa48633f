#pragma once
// A plot as inline SVG for the script: no scripting, no outside files; colours come from classes of the style sheet,
// shapes tell the series apart on paper and without colour. Pure.

#include <string>

#include "plot/plot.h"

namespace sash::script::inner {

/// A <figure> with the drawing, its legend and its reading as caption.
std::string plot_svg(const plot::Plot& plot);

}  // namespace sash::script::inner
