#pragma once
// What a recogniser writes down though the presenter did not say it: music marks, applause, and the stock phrases it
// invents over music and silence. Whether a phrase is invented follows from its surroundings, not from the phrase
// alone.

#include <span>

#include "model/footage.h"

namespace sash::narration {

/// Sets `noise` of the lines that are no speech of the presenter.
void mark_noise(std::span<model::NarrationLine> lines);

}  // namespace sash::narration
