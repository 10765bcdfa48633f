#pragma once
// The running sheet on paper: time down, picture, sound, figures and safety side by side. Pure.

#include <string>

#include "script/materials.h"

namespace sash::script::inner {

/// The sheet as an HTML table.
std::string sheet_html(const Materials& materials);

/// How a figure is written: "20.0 mL", "about 80 °C", "3 to 5 min".
std::string figure_text(const model::Figure& figure);

}  // namespace sash::script::inner
