// A part of a whole: part = fraction x whole, and what is left, or what it makes on top of the whole. The fraction may
// be that of another quantity: what is in 25 mL of 250 mL is a tenth of what is in all of it.
#include "workings/relations/strength.h"

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
        {"increased", "whole and part together", {}},
        {"taken", "portion taken", {}},
        {"taken_of", "what it was taken from", {}},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    const auto part = d.figure("part", {}, "part");
    const auto whole = d.figure("whole", {}, "whole");
    const auto rest = d.figure("rest", {}, "rest");
    const auto increased = d.figure("increased", {}, "both");
    const auto fraction = fraction_of(d);
    const bool stated = fraction && d.at(*fraction).from != Quantity::From::hidden;
    if (stated && !increased) limit_share(d.at(*fraction), "a share of the whole");
    for (const auto* figure : {&part, &rest, &increased}) {
      if (*figure) d.aim((*figure)->quantity);
    }
    if (!alike(d, {part, whole, rest, increased})) return;
    if (!fraction && !((rest || increased) && part && whole)) d.missing("the fraction");
    if (!whole) d.missing("the whole");
    if (!part && !rest && !increased) d.missing("the part");
    if (!whole || (!part && !fraction)) return;
    const std::size_t share = part ? part->quantity : unsaid_part(d, *whole);
    if (fraction)
      d.product("the part, the fraction and the whole", {{share, -1}, {*fraction, 1}, {whole->quantity, 1}});
    if (rest) d.sum("the part, the rest and the whole", {{rest->quantity, -1}, {whole->quantity, 1}, {share, -1}});
    if (increased)
      d.sum("the whole and the part on top", {{increased->quantity, -1}, {whole->quantity, 1}, {share, 1}});
  }

 private:
  static std::size_t unsaid_part(Drafting& d, const Filled& whole) {
    const Kind kind = whole.value->figure->kind;
    const std::size_t part = d.hidden("part taken", Piece::of_symbol(letter_of(kind), "part"), kind);
    d.at(part).unit = whole.value->unit;
    return part;
  }

  // Stated, given, or by what was taken of something: 25 mL of 250 mL.
  static std::optional<std::size_t> fraction_of(Drafting& d) {
    std::optional<std::size_t> fraction;
    if (const auto figure = d.figure("fraction", {quantity::dimension::plain})) {
      d.at(figure->quantity).symbol.text = "x";
      fraction = figure->quantity;
    } else {
      fraction = d.given_quantity("fraction", Kind::fraction, Piece::of_symbol("x"), "fraction");
    }
    const auto taken = d.figure("taken", {}, "taken");
    const auto from = d.figure("taken_of", {}, "all");
    if (taken.has_value() != from.has_value()) d.missing(taken ? "what it was taken from" : "what was taken");
    if (!taken || !from || !alike(d, {taken, from})) return fraction;
    if (!fraction) {
      fraction = d.hidden("fraction taken", Piece::of_symbol("x"), Kind::fraction);
      d.at(*fraction).silent = true;
    }
    d.product("the fraction and what was taken", {{*fraction, -1}, {taken->quantity, 1}, {from->quantity, -1}});
    return fraction;
  }

  static bool alike(Drafting& d, const std::vector<std::optional<Filled>>& figures) {
    const Filled* first = nullptr;
    for (const auto& f : figures) {
      if (!f) continue;
      if (first == nullptr) first = &*f;
      if (f->value->unit.dimension() == first->value->unit.dimension()) continue;
      d.missing("figures of one sort: " + f->value->name + " is " +
                with_article(quantity::name_of(f->value->unit.dimension())) + ", " + first->value->name + " " +
                with_article(quantity::name_of(first->value->unit.dimension())));
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
