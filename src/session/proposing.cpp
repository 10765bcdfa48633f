#include "session/proposing.h"

#include "narration/propose.h"

namespace sash::session {

Outcome<Planned> propose_from_narration(const model::Record& record, const NewNumber& ids) {
  const auto proposals = narration::propose(record, ids);
  const std::vector<ThingRef> gone(proposals.no_longer_said.begin(), proposals.no_longer_said.end());
  Planned planned{narration::edit_of(proposals), std::nullopt};
  if (!gone.empty()) {
    auto removed = remove_things(record, gone);
    if (!removed) return removed;
    auto& changes = removed->edit.changes;
    changes.insert(changes.end(), planned.edit.changes.begin(), planned.edit.changes.end());
    planned.edit.changes = std::move(changes);
  }
  planned.edit.name = "Read narration";
  return planned;
}

std::vector<ThingRef> open_proposals(const model::Record& record) {
  std::vector<ThingRef> out;
  const auto add = [&](const auto& list) {
    for (const auto& each : list) {
      if (each.origin.standing == model::Standing::proposed) out.push_back(each.id);
    }
  };
  add(record.figures);
  add(record.relations);
  add(record.hazards);
  add(record.callouts);
  return out;
}

}  // namespace sash::session
