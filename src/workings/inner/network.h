#pragma once
// Network: several drafts put together into one system: figures and constants that relations share become one variable
// each. Borrows the drafts. Pure.

#include <map>
#include <set>
#include <string>
#include <vector>

#include "workings/inner/figures.h"
#include "workings/relations/draft.h"
#include "workings/system.h"

namespace sash::workings::inner {

/// One equation of the network, with its members as variables of the system.
struct NetworkEquation {
  const Draft* draft;
  const Equation* equation;
  std::vector<VariableIndex> members;
};

/// A value that followed from others: equation `equation` gave `variable`.
struct Given {
  std::size_t equation;  ///< in Network::equations
  VariableIndex variable;
  std::size_t member;  ///< which member of the equation it is
};

struct Network {
  System system;
  std::vector<NetworkEquation> equations;             ///< as the system's constraints
  std::vector<std::vector<VariableIndex>> variables;  ///< by draft and quantity
  std::vector<const Quantity*> quantities;            ///< by variable: one that it stands for
  std::map<model::FigureId, VariableIndex> figures;

  /// Values that follow step by step from what was stated, and the steps in their order.
  std::vector<std::optional<double>> followed;  ///< by variable; SI
  std::vector<Given> steps;
  std::vector<std::size_t> least_member;  ///< by equation: the member that a `least` rests on; 0 where none is known
};

/// The wanted variable once more by the network's steps, with other values of what is measured: `values` by variable,
/// SI, overwritten on the way. NaN where a step has no value. Requires: the wanted variable follows by steps, or is
/// measured.
double follow_again(const Network& network, VariableIndex wanted, std::vector<double>& values);
/// The same by only those of the steps that matter.
double follow_again(const Network& network, const std::vector<Given>& steps, VariableIndex wanted,
                    std::vector<double>& values);

/// `freed` figures are taken as unknown even where they were stated.
Network network_of(const std::vector<const Draft*>& drafts, const FigureBook& book,
                   const std::set<model::FigureId>& freed = {});

/// What stands in the way of computing with this draft: a zero where only something above zero has a meaning. Empty
/// when nothing does.
std::vector<std::string> obstacles(const Draft& draft, const FigureBook& book);

}  // namespace sash::workings::inner
