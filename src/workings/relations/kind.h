#pragma once
// RelationKind: the mathematics of one relation type. There is one immutable instance each; the set is closed.

#include <span>
#include <string_view>
#include <vector>

#include "model/relation.h"
#include "workings/relations/drafting.h"

namespace sash::workings {

/// A place for figures in a relation.
struct Slot {
  std::string_view name;
  std::string_view label;             ///< for the screen: "volume of solution"
  std::vector<quantity::Kind> takes;  ///< kinds of figures that fit; empty: any
  bool many = false;                  ///< may be filled more than once
  bool about = false;                 ///< the term says which species or part
};

class RelationKind {
 public:
  RelationKind() = default;
  RelationKind(const RelationKind&) = delete;
  RelationKind& operator=(const RelationKind&) = delete;
  virtual ~RelationKind() = default;

  virtual std::string_view label() const = 0;  ///< for the screen: "same portion"
  virtual std::span<const Slot> slots() const = 0;
  /// Adds quantities and equations; says what is missing and what is assumed.
  virtual void draft(Drafting& d) const = 0;
};

const RelationKind& kind_of(model::RelationType type);

/// The draft of a relation. Terms in slots the type does not have, and figures that are gone, are said in
/// Draft::missing.
Draft draft_of(const model::Relation& relation, const inner::FigureBook& book);

}  // namespace sash::workings
