#include "session/proposing.h"

namespace sash::session {

Outcome<Planned> propose_from_narration(const model::Record& record, const NewNumber& ids) {
  return propose_from_narration(
      record, ids, [](std::span<const model::NarrationLine> lines) { return narration::read_figures(lines); });
}

Outcome<Planned> propose_from_narration(const model::Record& record, const NewNumber& ids,
                                        const narration::ReadLines& read) {
  const auto proposals = narration::propose(record, ids, read);
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

namespace {

constexpr auto any = [](const model::Origin&) { return true; };

template <class Wanted>
std::vector<ThingRef> proposals_in(const model::Record& record, Wanted wanted_relation) {
  std::vector<ThingRef> out;
  const auto add = [&](const auto& list, const auto& wanted) {
    for (const auto& each : list) {
      if (each.origin.standing == model::Standing::proposed && wanted(each.origin)) out.push_back(each.id);
    }
  };
  add(record.figures, any);
  add(record.relations, wanted_relation);
  add(record.hazards, any);
  add(record.callouts, any);
  return out;
}

}  // namespace

std::vector<ThingRef> open_proposals(const model::Record& record) { return proposals_in(record, any); }

std::vector<ThingRef> sure_proposals(const model::Record& record) {
  return proposals_in(record, narration::sure_enough);
}

}  // namespace sash::session
