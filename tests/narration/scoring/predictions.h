#pragma once
// A reading in the layout of the label files.

#include <nlohmann/json.hpp>

#include "narration/figures.h"

namespace sash::test {

nlohmann::json predictions(const narration::NarrationText& text, const narration::Reading& reading);

}  // namespace sash::test
