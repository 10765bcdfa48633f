// So many of a size: count x each = whole.
#include "workings/relations/kinds.h"

namespace sash::workings {
namespace {

using quantity::Kind;

class CountEach final : public RelationKind {
 public:
  std::string_view label() const override { return "count of each"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"count", "count", {Kind::count}},
        {"each", "each", {}},
        {"whole", "whole", {}},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    const auto whole = d.figure("whole", {}, "total");
    if (whole) d.aim(whole->quantity);
    const auto each = d.figure("each", {}, "each");
    std::optional<std::size_t> count;
    if (const auto figure = d.figure("count", {quantity::dimension::plain})) count = figure->quantity;
    if (!count) count = d.given_quantity("count", Kind::count, Piece::of_symbol("N"), "count");
    if (!count) d.missing("the count");
    if (!each) d.missing("the size of each");
    if (!whole) d.missing("the whole");
    if (!count || !each || !whole) return;
    if (each->value->unit.dimension() != whole->value->unit.dimension()) {
      return d.missing("figures of one sort: each is a " + quantity::name_of(each->value->unit.dimension()) +
                       ", the whole a " + quantity::name_of(whole->value->unit.dimension()));
    }
    d.product("the count, the size of each and the whole", {{whole->quantity, -1}, {*count, 1}, {each->quantity, 1}});
  }
};

}  // namespace

const RelationKind& count_each() {
  static const CountEach kind;
  return kind;
}

}  // namespace sash::workings
