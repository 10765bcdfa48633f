#pragma once
// Attempt: one figure of a relation computed from all the others: the network it was done in, and what came out. Made
// and read by Judge. A value that borrows the drafts.

#include <algorithm>

#include "workings/inner/network.h"
#include "workings/reconcile.h"

namespace sash::workings::inner {

struct Attempt {
  std::size_t quantity;
  Network network;
  Reconciliation reconciliation;
  VariableIndex variable;

  const Estimate& estimate() const { return reconciliation.estimates[variable]; }
  bool determined() const { return estimate().standing == Standing::determined; }
  const Fault* trouble() const {
    for (const Part& part : reconciliation.parts) {
      const bool ours = std::find(part.variables.begin(), part.variables.end(), variable) != part.variables.end();
      if (ours && part.trouble) return &*part.trouble;
    }
    return nullptr;
  }
};

}  // namespace sash::workings::inner
