#pragma once
// Asks: what a page hands back after it was drawn: intents for the session, actions of the key table (a button does
// what its key does), and changes of what is selected. Pages change nothing themselves. Pure values.

#include <optional>
#include <vector>

#include "desk/shown/keys.h"
#include "desk/shown/selection.h"
#include "session/intent.h"

namespace sash::desk {

struct Asks {
  std::vector<session::Intent> intents;
  std::vector<Action> actions;
  std::optional<Selection> select;           ///< what is selected from now on
  bool go_there = false;                     ///< and the playhead goes to it
  bool edit = false;                         ///< and the editor opens on it
  std::optional<session::ThingRef> look_at;  ///< the playhead goes to this pin, whatever is selected

  void want(session::Intent intent) { intents.push_back(std::move(intent)); }
  void want(Action action) { actions.push_back(action); }
  /// Selects a thing; the playhead goes there too unless told otherwise.
  void go_to(session::ThingRef thing, bool move_playhead = true) {
    select = Selection{thing, std::nullopt};
    go_there = move_playhead;
  }
};

}  // namespace sash::desk
