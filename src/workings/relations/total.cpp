// Parts add up to a whole; what was taken away is subtracted. Readings have a mean.
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
        {"mean", "mean of the parts", {}},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    const auto whole = d.figure("whole", {}, "total");
    const auto mean = d.figure("mean", {}, "mean");
    for (const auto* figure : {&whole, &mean}) {
      if (*figure) d.aim((*figure)->quantity);
    }
    const auto parts = d.figures("part");
    const auto less = d.figures("less");
    number(d, parts);
    if (!whole && !mean) d.missing("the whole");
    if (parts.empty()) d.missing("at least one part");
    if ((!whole && !mean) || parts.empty() || !alike(d, whole ? *whole : *mean, parts, less)) return;
    if (whole) add_up(d, *whole, parts, less);
    if (mean) {
      std::vector<Weighted> members{{mean->quantity, -static_cast<double>(parts.size())}};
      for (const Filled& f : parts) members.push_back({f.quantity, 1});
      d.sum("the parts and their mean", members);
    }
  }

 private:
  static bool alike(Drafting& d, const Filled& whole, const std::vector<Filled>& parts,
                    const std::vector<Filled>& less) {
    for (const auto* list : {&parts, &less}) {
      for (const Filled& f : *list) {
        if (f.quantity == whole.quantity) {
          d.missing("another whole than " + f.value->name + ", which is one of its own parts");
          return false;
        }
        if (f.value->unit.dimension() == whole.value->unit.dimension()) continue;
        d.missing("parts of one sort: " + f.value->name + " is " +
                  with_article(quantity::name_of(f.value->unit.dimension())) + ", the whole " +
                  with_article(quantity::name_of(whole.value->unit.dimension())));
        return false;
      }
    }
    return true;
  }

  static void add_up(Drafting& d, const Filled& whole, const std::vector<Filled>& parts,
                     const std::vector<Filled>& less) {
    std::vector<Weighted> members{{whole.quantity, -1}};
    for (const Filled& f : parts) members.push_back({f.quantity, 1});
    for (const Filled& f : less) members.push_back({f.quantity, -1});
    if (whole.value->unit.dimension() == quantity::dimension::volume && parts.size() > 1) {
      d.note("Volumes are taken to add up; liquids that mix can take less room than they did apart.");
    }
    d.sum("the parts and the whole", members);
  }

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
