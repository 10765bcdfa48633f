#pragma once
// Molar masses of substances by their names, looked up once each: the passes ask for the same few again and again. For
// one thread, as the pass that holds it.

#include <map>
#include <optional>
#include <string>

#include "chem/molar_mass.h"

namespace sash::narration {

class MolarMasses {
 public:
  /// g/mol with its uncertainty; nothing for names without a formula.
  std::optional<chem::MolarMass> of(const std::string& substance) const;

 private:
  mutable std::map<std::string, std::optional<chem::MolarMass>> known_;
};

}  // namespace sash::narration
