#pragma once
// Relations that follow from how spoken figures hang together. Slots and keys are those of the workings. Pure.

#include <span>
#include <string>
#include <vector>

#include "model/relation.h"
#include "narration/figures.h"

namespace sash::narration {

/// A relation among figures of a reading; `term` figures are places in Reading::figures.
struct SpokenTerm {
  std::string slot;
  std::size_t figure = 0;
  std::string about;
};
struct SpokenRelation {
  model::RelationType type = model::RelationType::same_portion;
  std::vector<SpokenTerm> terms;
  std::map<std::string, std::string> given;
  std::string label;
  const char* rule = "";
  double confidence = 0.8;
};

/// All relations worth proposing, in the order of the figures they explain; `lines` are those that were read.
std::vector<SpokenRelation> relate(const Reading& reading, std::span<const model::NarrationLine> lines);

/// The subject without "solution", hydrate words and the like, as a substance the chemistry knows.
std::string substance_of(const std::string& subject);

/// "copper(II) sulfate" of its hydrates.
std::string without_water(const std::string& substance);

}  // namespace sash::narration
