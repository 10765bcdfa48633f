#pragma once
// A narration taken through the whole: read, proposed, all proposals that are sure enough accepted, checked. What
// conflicts is told by the figures of the reading that are involved.

#include <functional>
#include <string>
#include <vector>

#include "model/relation.h"
#include "narration/figures.h"

namespace sash::test {

struct Conflict {
  std::string relation;  ///< its type
  std::string rule;      ///< what proposed it
  double confidence = 0;
  std::string sentence;
  std::vector<std::size_t> figures;  ///< places in the reading; the one compared first
  std::vector<std::size_t> named;    ///< the one compared, and the culprits
};

/// All relations that are proposed for figures that somebody read, one a line, with the places of their figures.
std::string relations_of(const narration::NarrationText& text, const narration::Reading& reading);

/// Whether a proposed relation is taken without anybody looking at it.
using Taken = std::function<bool(const model::Relation&)>;
bool taken_by_itself(const model::Relation& relation);  ///< as the program does

/// With our own reading.
std::vector<Conflict> conflicts_of(const narration::NarrationText& text);
/// With figures that somebody else read.
std::vector<Conflict> conflicts_of(const narration::NarrationText& text, const narration::Reading& reading,
                                   const Taken& taken = taken_by_itself);

}  // namespace sash::test
