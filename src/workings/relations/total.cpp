// Parts add up to a whole; what was taken away is subtracted.
#include "workings/relations/kinds.h"

namespace sash::workings {
namespace {

class Total final : public RelationKind {
 public:
  std::string_view label() const override { return "total"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"part", "part", {}, true},
        {"less", "taken away", {}, true},
        {"whole", "whole", {}},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    auto whole = d.figure("whole", {}, "total");
    if (whole) d.aim(whole->quantity);
    const auto parts = d.figures("part");
    const auto less = d.figures("less");
    number(d, parts);
    if (!whole) d.missing("the whole");
    if (parts.empty()) d.missing("at least one part");
    if (!whole || parts.empty()) return;

    std::vector<Weighted> members{{whole->quantity, -1}};
    for (const auto& [list, sign] : {std::pair{&parts, 1.0}, std::pair{&less, -1.0}}) {
      for (const Filled& f : *list) {
        if (f.value->unit.dimension() != whole->value->unit.dimension()) {
          d.missing("parts of one sort: " + f.value->name + " is a " + quantity::name_of(f.value->unit.dimension()) +
                    ", the whole a " + quantity::name_of(whole->value->unit.dimension()));
          return;
        }
        members.push_back({f.quantity, sign});
      }
    }
    if (whole->value->unit.dimension() == quantity::dimension::volume && parts.size() > 1) {
      d.note("Volumes are taken to add up; liquids that mix can take less room than they did apart.");
    }
    d.sum("the parts and the whole", members);
  }

 private:
  // Parts without a name of their own are counted.
  static void number(Drafting& d, const std::vector<Filled>& parts) {
    for (std::size_t i = 0; i < parts.size(); ++i) {
      std::string& below = d.at(parts[i].quantity).symbol.below;
      if (below.empty()) below = std::to_string(i + 1);
    }
  }
};

}  // namespace

const RelationKind& total() {
  static const Total kind;
  return kind;
}

}  // namespace sash::workings
