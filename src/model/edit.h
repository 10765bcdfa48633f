#pragma once
// Edit: one undoable step, as a list of changes each of which knows what was there before. Whoever stores or undoes it
// needs nothing else. Pure values.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "model/record.h"
#include "support/outcome.h"

namespace sash::model {

using Thing = std::variant<Footage, NarrationLine, Portion, Figure, Hazard, Callout, Note, Chapter, Relation>;

/// One thing made (no before), changed (both) or removed (no after). Both, where there, are of one type and id.
struct Change {
  std::optional<Thing> before;
  std::optional<Thing> after;
  bool operator==(const Change&) const = default;
};

struct BenchChange {
  Bench before;
  Bench after;
  bool operator==(const BenchChange&) const = default;
};

struct Edit {
  std::string name;  ///< what the person did, for the undo list: "Move figure"
  std::vector<Change> changes;
  std::optional<BenchChange> bench;
  bool operator==(const Edit&) const = default;
  bool empty() const { return changes.empty() && !bench; }
};

/// The edit that takes `edit` back.
Edit inverse(const Edit& edit);

/// Carries the edit out on `record`, or leaves it untouched.
/// Fails: Code::impossible when what the edit expects to find is not what is there (made against another state), or
/// when a change would leave something pointing at a thing that no longer exists.
Done apply(const Edit& edit, Record& record);

}  // namespace sash::model
