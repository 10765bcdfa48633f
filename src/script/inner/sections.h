#pragma once
// The parts of the script around the running sheet. Each gives HTML; empty when there is nothing to say. Pure.

#include <string>

#include "script/materials.h"

namespace sash::script::inner {

std::string summary_html(const Materials& materials);    ///< counts, and the caution
std::string attention_html(const Materials& materials);  ///< conflicts and gaps in the cover, worst first
std::string workings_html(const Materials& materials);   ///< every finding with its workings
std::string hazards_html(const Materials& materials);    ///< every hazard with its callouts
std::string constants_html(const Materials& materials);  ///< constants and their sources

}  // namespace sash::script::inner
