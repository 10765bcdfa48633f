#pragma once
// Relation: what ties figures together, as the record keeps it. Its mathematics is one class each in workings.
// Pure values.

#include <map>
#include <string>
#include <vector>

#include "model/place.h"

namespace sash::model {

enum class RelationType {
  same_portion,   ///< one portion in several quantities: mass, volume, amount, restatements
  in_solution,    ///< solute, solution and strength
  dilution,       ///< before and after, the solute unchanged
  mixing,         ///< several portions into one
  share,          ///< part = fraction x whole
  total,          ///< sum of parts = whole
  count_each,     ///< count x each = whole
  reaction,       ///< amounts tied by a balanced equation
  chain,          ///< one step's product is the next one's reactant, with losses
  yield,          ///< actual against theoretical
  gas_given_off,  ///< amount to volume at temperature and pressure
  heat,           ///< heat, mass, temperature change
  quench,         ///< destroyer against what must be destroyed
  titration,
  electrolysis,
  element_balance,  ///< an element across vessels
  duration,         ///< stated time against the time code
  equilibrium,
};

/// One figure's place in a relation. `slot` names it among the relation's own slots ("mass", "part", "reactant");
/// `about` says which species or addend it is where a slot may be filled several times ("Cu", "HNO3").
struct Term {
  std::string slot;
  FigureId figure;
  std::string about;
  bool operator==(const Term&) const = default;
};

struct Relation {
  RelationId id;
  RelationType type = RelationType::same_portion;
  std::vector<Term> terms;
  std::map<std::string, std::string> given;  ///< what is no figure: "equation", "substance", "density", "temperature"
  std::string label;
  Origin origin;
  bool operator==(const Relation&) const = default;
};

}  // namespace sash::model
