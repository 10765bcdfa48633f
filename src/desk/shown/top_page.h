#pragma once
// The rows at the top and foot of the desk as they are shown: the record and what can be undone, whether it may be
// changed, and what is going on. Pure.

#include <optional>
#include <string>
#include <vector>

#include "session/view.h"

namespace sash::desk {

struct TopShown {
  std::string name;      ///< of the record
  std::string undo_tip;  ///< "Undo: Move figure"; empty when there is nothing to undo
  std::string redo_tip;
  std::string read_only;  ///< why nothing can be changed; empty when it can
};
TopShown show_top(const session::SessionView& view);

struct FootShown {
  std::string news;  ///< the last notice; the first keys to know where there is none
  bool fault = false;
  std::string work;  ///< "Indexing bench.mp4, 42 %  and 2 more"
  std::optional<double> share;
  std::string stoppable;  ///< the work that can be given up; empty when it cannot
};
/// `fresh`: the newest notice was given a moment ago; later its place belongs to the keys.
FootShown show_foot(const session::SessionView& view, bool fresh);

}  // namespace sash::desk
