#pragma once
// Equilibrium constants a person types, and the components they are to be built on. Reading only; the model is
// mass_action_model.h. Private to the relations. Pure.

#include <string_view>
#include <vector>

#include "chem/equation.h"
#include "support/outcome.h"

namespace sash::workings {

struct GivenConstant {
  chem::Equation equation;
  double log_k = 0;    ///< log10 of the equation as written
  double spread = 0;   ///< standard uncertainty of log_k: half a unit of the last digit as typed, rectangular
  bool stated = true;  ///< otherwise added: that of water
};

struct GivenConstants {
  std::vector<chem::Formula> components;  ///< H+ first where it takes part
  std::vector<GivenConstant> constants;   ///< each makes one new species or solid, in this order
};

/// Each entry is an equation, a colon and a number: K itself, "pK 4.74" or "log 4.74"; entries are separated by ";" or
/// ",". Fails: Code::malformed naming the entry; Code::wrong_use where an equation ties nothing new.
Outcome<GivenConstants> read_constants(std::string_view text);

}  // namespace sash::workings
