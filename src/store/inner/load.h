#pragma once
// From the tables to a record. A sound file gives its record; from a damaged one everything that can be read is taken,
// and what was left out is said.

#include <string>
#include <vector>

#include "model/record.h"
#include "store/inner/sql.h"

namespace sash::store {

struct Loaded {
  model::Record record;               ///< sound, and pointing at nothing that is not in it
  bool anything = false;              ///< at least one table could be looked into
  std::vector<std::string> problems;  ///< phrases, e.g. "figure 12 is unreadable"; empty for a sound file
};

/// Leaves no trouble at the connection.
Loaded load_record(Connection& db);

}  // namespace sash::store
