// A part of a whole: part = fraction x whole, and what is left.
#include "workings/relations/kinds.h"

namespace sash::workings {
namespace {

using quantity::Kind;

class Share final : public RelationKind {
 public:
  std::string_view label() const override { return "share"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"part", "part", {}},
        {"whole", "whole", {}},
        {"fraction",
         "fraction",
         {Kind::fraction, Kind::percent_other, Kind::mass_percent, Kind::volume_percent, Kind::percent_yield}},
        {"rest", "what is left", {}},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    const auto part = d.figure("part", {}, "part");
    const auto whole = d.figure("whole", {}, "whole");
    const auto rest = d.figure("rest", {}, "rest");
    const auto fraction = fraction_of(d);
    for (const auto* figure : {&part, &rest}) {
      if (*figure) d.aim((*figure)->quantity);
    }
    if (!alike(d, {part, whole, rest})) return;
    if (!fraction && !(rest && part && whole)) d.missing("the fraction");
    if (!whole) d.missing("the whole");
    if (!part && !rest) d.missing("the part");
    if (!whole) return;
    if (part && fraction) {
      d.product("the part, the fraction and the whole", {{part->quantity, -1}, {*fraction, 1}, {whole->quantity, 1}});
    }
    if (!rest) return;
    if (part) {
      d.sum("the part, the rest and the whole", {{rest->quantity, -1}, {whole->quantity, 1}, {part->quantity, -1}});
    } else if (fraction) {
      const std::size_t taken = d.hidden("part taken", Piece::of_symbol(letter_of(whole->value->figure->kind), "part"),
                                         whole->value->figure->kind);
      d.at(taken).unit = whole->value->unit;
      d.product("the part, the fraction and the whole", {{taken, -1}, {*fraction, 1}, {whole->quantity, 1}});
      d.sum("the part, the rest and the whole", {{rest->quantity, -1}, {whole->quantity, 1}, {taken, -1}});
    }
  }

 private:
  static std::optional<std::size_t> fraction_of(Drafting& d) {
    if (const auto figure = d.figure("fraction", {quantity::dimension::plain})) {
      d.at(figure->quantity).symbol.text = "x";
      return figure->quantity;
    }
    return d.given_quantity("fraction", Kind::fraction, Piece::of_symbol("x"), "fraction");
  }

  static bool alike(Drafting& d, const std::vector<std::optional<Filled>>& figures) {
    const Filled* first = nullptr;
    for (const auto& f : figures) {
      if (!f) continue;
      if (first == nullptr) first = &*f;
      if (f->value->unit.dimension() == first->value->unit.dimension()) continue;
      d.missing("figures of one sort: " + f->value->name + " is a " + quantity::name_of(f->value->unit.dimension()) +
                ", " + first->value->name + " a " + quantity::name_of(first->value->unit.dimension()));
      return false;
    }
    return true;
  }
};

}  // namespace

const RelationKind& share() {
  static const Share kind;
  return kind;
}

}  // namespace sash::workings
