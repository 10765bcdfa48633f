#pragma once
// What temperatures, waiting times and acidities are those of: a material that is named, the product that dries or
// melts, a single material in hand, the mixture in the pot; or nothing of the procedure (baths, ovens, rooms). Pure.

#include "narration/inner/surroundings.h"

namespace sash::narration {

/// Borrows a scene whose drafts up to the phrase in hand are named.
class Conditions : Surroundings {
 public:
  explicit Conditions(Scene& s) : Surroundings(s) {}

  About temperature(const Phrase& p) const;
  About duration(const Phrase& p) const;
  About acidity(const Phrase& p) const;

 private:
  About dried(const Phrase& p) const;
  /// What is in the pot: the only material put there since something was last isolated, or the mixture.
  About contents(std::size_t token) const;
  /// The material that the number is linked to: "the brine is at 31", "water in the beaker, heat to 60".
  const Mention* linked(const Phrase& p) const;
  /// "the water bath was going to be at 80": the number is linked to apparatus.
  bool of_apparatus(const Phrase& p) const;
};

}  // namespace sash::narration
