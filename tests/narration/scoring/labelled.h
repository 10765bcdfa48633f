#pragma once
// The reading that the labels of a narration describe: what perfect recognition would give. With it the step from
// figures to found mistakes is measured by itself.

#include "narration/figures.h"
#include "nlohmann/json_fwd.hpp"

namespace sash::test {

/// Figures in the order of the labels. Digits are those of our own reading where it finds the same figure, else the
/// shortest spelling of the value.
narration::Reading labelled(const nlohmann::json& labels, const narration::NarrationText& text);

/// The figure seven tenths of what it was, with a digit more where it would round back.
void make_wrong(narration::SpokenFigure& figure);

}  // namespace sash::test
