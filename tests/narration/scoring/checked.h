#pragma once
// A narration taken through the whole: read, proposed, all proposals that are sure enough accepted, checked. What
// conflicts is told by the figures of the reading that are involved.

#include <string>
#include <vector>

#include "narration/figures.h"

namespace sash::test {

struct Conflict {
  std::string relation;  ///< its type
  std::string sentence;
  std::vector<std::size_t> figures;  ///< places in the reading; the one compared first
  std::vector<std::size_t> named;    ///< the one compared, and the culprits
};

/// All relations that are proposed for figures that somebody read, one a line, with the places of their figures.
std::string relations_of(const narration::NarrationText& text, const narration::Reading& reading);

/// With our own reading.
std::vector<Conflict> conflicts_of(const narration::NarrationText& text);
/// With figures that somebody else read.
std::vector<Conflict> conflicts_of(const narration::NarrationText& text, const narration::Reading& reading);

}  // namespace sash::test
