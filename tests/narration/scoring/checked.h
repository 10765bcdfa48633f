#pragma once
// A narration taken through the whole: read, proposed, all proposals accepted, checked. What conflicts is told by the
// figures of the reading that are involved.

#include <string>
#include <vector>

#include "narration/figures.h"

namespace sash::test {

struct Conflict {
  std::string relation;  ///< its type
  std::string sentence;
  std::vector<std::size_t> figures;  ///< places in the reading; the one compared first
};

/// Every relation that is proposed: its type and its figures as said.
std::vector<std::string> relations_of(const narration::NarrationText& text);

std::vector<Conflict> conflicts_of(const narration::NarrationText& text);

}  // namespace sash::test
