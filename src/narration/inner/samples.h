#pragma once
// Samples: the figures of a reading that are about one portion, with the strengths and densities said of it. Pure.

#include <vector>

#include "narration/figures.h"

namespace sash::narration {

struct Sample {
  std::vector<std::size_t> members;    ///< places in Reading::figures, the first mention first; no corrected ones
  std::vector<std::size_t> strengths;  ///< attached to a member
  std::vector<std::size_t> densities;
};

/// Every figure that was not corrected is a member of exactly one sample. In the order of the first mentions.
std::vector<Sample> samples_of(const Reading& reading);

}  // namespace sash::narration
