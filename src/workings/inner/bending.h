#pragma once
// Whether first order would do: where inputs are so uncertain that the model bends within their spread, or where either
// of two reactants may run out first, the result is drawn by Monte Carlo as well, and where the two disagree the draws
// are believed. Seeded: the same record gives the same draws.
// Sources: JCGM 101:2008, clause 8 (validating first order by Monte Carlo).

#include <optional>
#include <string>
#include <vector>

#include "workings/inner/network.h"
#include "workings/reconcile.h"

namespace sash::workings::inner {

struct Drawn {
  double value = 0;   ///< SI
  double spread = 0;  ///< standard uncertainty, SI
  double low = 0;     ///< 95 % of the draws lie between these, SI
  double high = 0;
};

/// Nothing where first order does, or where the variable does not follow step by step. `estimates` are first order's,
/// of all variables of the network.
std::optional<Drawn> drawn_instead(const Network& network, const std::vector<Estimate>& estimates, VariableIndex wanted,
                                   const FigureBook& book);

/// What first order gives, what the draws give, and that they are used. A sentence.
std::string told(const Drawn& drawn, const Estimate& first_order, const FigureValue& value);

}  // namespace sash::workings::inner
