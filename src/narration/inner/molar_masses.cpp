#include "narration/inner/molar_masses.h"

#include "chem/names.h"

namespace sash::narration {

std::optional<chem::MolarMass> MolarMasses::of(const std::string& substance) const {
  const auto [it, added] = known_.try_emplace(substance);
  if (!added) return it->second;
  if (const auto formula = chem::formula_of(substance)) {
    if (const auto mass = chem::molar_mass(*formula)) it->second = *mass;
  }
  return it->second;
}

}  // namespace sash::narration
