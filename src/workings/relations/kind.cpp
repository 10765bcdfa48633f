#include "workings/relations/kind.h"

#include <algorithm>

#include "support/check.h"
#include "workings/relations/kinds.h"

namespace sash::workings {
const RelationKind& kind_of(model::RelationType type) {
  using model::RelationType;
  switch (type) {
    case RelationType::same_portion:
      return same_portion();
    case RelationType::in_solution:
      return in_solution();
    case RelationType::share:
      return share();
    case RelationType::total:
      return total();
    case RelationType::reaction:
      return reaction();
    case RelationType::yield:
      return yield();
    case RelationType::dilution:
      return dilution();
    case RelationType::mixing:
      return mixing();
    case RelationType::count_each:
      return count_each();
    case RelationType::chain:
      return chain();
    case RelationType::gas_given_off:
      return gas_given_off();
    case RelationType::heat:
      return heat();
    case RelationType::quench:
      return quench();
    case RelationType::titration:
      return titration();
    case RelationType::electrolysis:
      return electrolysis();
    case RelationType::element_balance:
      return element_balance();
    case RelationType::duration:
      return duration();
    case RelationType::equilibrium:
      return equilibrium();
  }
  promise(false, "every relation type has its kind");
  return same_portion();
}

Draft draft_of(const model::Relation& relation, const inner::FigureBook& book) {
  const RelationKind& kind = kind_of(relation.type);
  Drafting d(relation, book);
  for (const model::Term& term : relation.terms) {
    if (book.find(term.figure) == nullptr) d.missing("a figure that was removed or refused (" + term.slot + ")");
    const auto slots = kind.slots();
    const bool known = std::any_of(slots.begin(), slots.end(), [&](const Slot& s) { return s.name == term.slot; });
    if (!known && !slots.empty()) d.missing("a place for “" + term.slot + "” in a relation of this type");
  }
  kind.draft(d);
  return d.take();
}

}  // namespace sash::workings
