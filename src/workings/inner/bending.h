#pragma once
// Whether first order would do: where inputs are so uncertain that the model bends within their spread, the result is
// drawn by Monte Carlo as well, and where the two disagree the draws are believed.
// Sources: JCGM 101:2008, clause 8 (validating first order by Monte Carlo).

#include <optional>
#include <string>

#include "workings/inner/network.h"
#include "workings/reconcile.h"

namespace sash::workings::inner {

struct Drawn {
  double value;   ///< SI
  double spread;  ///< standard uncertainty, SI
  std::string sentence;
};

/// Nothing where first order does, or where the variable does not follow step by step.
std::optional<Drawn> drawn_instead(const Network& network, const Estimate& estimate, VariableIndex wanted,
                                   const FigureBook& book);

}  // namespace sash::workings::inner
