#include "session/sliding.h"

#include <algorithm>
#include <unordered_map>
#include <vector>

namespace sash::session {
namespace {

using model::NarrationLine;

// Moves lines, and with each what is pinned to its words.
class Mover {
 public:
  explicit Mover(const model::Record& record) : draft_(record, nothing_new) {
    for (const auto& figure : record.figures) {
      if (figure.words) figures_[figure.words->line.number].push_back(&figure);
    }
  }

  void move(const NarrationLine& line, Moment by) {
    NarrationLine moved = line;
    moved.when = {line.when.from + by, line.when.until + by};
    for (model::Word& word : moved.words) word.from = word.from + by;
    draft_.put(std::move(moved));
    const auto pinned = figures_.find(line.id.number);
    if (pinned == figures_.end()) return;
    for (const model::Figure* each : pinned->second) {
      model::Figure figure = *each;
      figure.place.from = figure.place.from + by;
      if (figure.place.until) figure.place.until = *figure.place.until + by;
      draft_.put(std::move(figure));
    }
  }

  void end_at(const NarrationLine& line, Moment until) {
    NarrationLine cut = line;
    cut.when.until = until;
    draft_.put(std::move(cut));
  }

  model::Edit done() const { return draft_.done("Move narration line"); }

 private:
  static std::int64_t nothing_new(const model::Thing&) { return 0; }

  Draft draft_;
  std::unordered_map<std::int64_t, std::vector<const model::Figure*>> figures_;
};

}  // namespace

Outcome<Planned> slide_line(const model::Record& record, model::LineId id, Moment from) {
  const NarrationLine* line = model::find(record, id);
  if (line == nullptr) {
    return Fault::of(Code::not_found, "That line is no longer in the record; it may have been removed or undone.");
  }
  std::vector<const NarrationLine*> order;
  for (const NarrationLine& each : record.lines) {
    if (each.footage == line->footage) order.push_back(&each);
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const auto* a, const auto* b) { return a->when.from < b->when.from; });
  const auto here = std::find(order.begin(), order.end(), line);

  Mover mover(record);
  mover.move(*line, from - line->when.from);
  // How close a line may follow: not closer than the words take, unless it did so before.
  Moment last = from;
  for (auto next = here + 1; next != order.end(); ++next) {
    const NarrationLine& before = **(next - 1);
    const Moment length = before.when.until - before.when.from;
    const Moment earliest = last + std::min(length, (*next)->when.from - before.when.from);
    if ((*next)->when.from >= earliest) break;
    mover.move(**next, earliest - (*next)->when.from);
    last = earliest;
  }
  if (here != order.begin()) {
    const NarrationLine& before = **(here - 1);
    const bool apart = before.when.until <= line->when.from;
    if (apart && before.when.from < from && before.when.until > from) mover.end_at(before, from);
  }
  return Planned{mover.done(), ThingRef(id)};
}

}  // namespace sash::session
