#pragma once
// Names that no table has, learned from how they are spoken of: of "twenty-five grams of cloves", "gum arabic, fifteen
// grams" the noun is a material, and so it is wherever else it stands in the narration. Pure.

#include "narration/inner/scene.h"

namespace sash::narration {

/// Adds mentions of the materials that are measured out under names nobody knows, if they are named twice or more.
void learn_names(Scene& scene);

}  // namespace sash::narration
