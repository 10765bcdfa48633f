// Quench: whether what is to destroy something suffices, and with what margin.
#include "quantity/show.h"
#include "workings/relations/species_amounts.h"

namespace sash::workings {
namespace {

using quantity::Kind;

class Quench final : public RelationKind {
 public:
  std::string_view label() const override { return "quench"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Kind> amounts{Kind::mass, Kind::amount, Kind::gas_volume};
    static const std::vector<Slot> slots{
        {"target", "to be destroyed", amounts, true, true},
        {"destroyer", "destroys it", amounts, true, true},
        {"margin", "margin", {Kind::percent_other, Kind::equivalents, Kind::fraction}},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    const auto e = d.given("equation") ? equation_of(d) : pairing(d);
    if (!e) return;
    const auto target = needed(d, *e, "target", "the amount of what must be destroyed");
    const auto destroyer = needed(d, *e, "destroyer", "the amount of what destroys it");
    const auto stated = d.figure("margin", {quantity::dimension::plain});
    if (!target || !destroyer) return;
    const std::size_t margin =
        stated ? stated->quantity
               : d.hidden("share of what is needed", Piece::of_symbol("x"), Kind::percent_other, true);
    d.at(margin).symbol.text = "x";
    d.at(margin).enough = 1;
    d.aim(margin);
    d.product("what is there against what is needed", {{margin, -1}, {*destroyer, 1}, {*target, -1}});
    d.note("100 % is just enough by the equation; practice adds a margin.");
    say_what_it_takes(d, margin);
  }

 private:
  // Of one target and one destroyer, by their equivalents.
  static std::optional<BalancedEquation> pairing(Drafting& d) {
    const auto only = [&](std::string_view slot) -> std::string {
      const auto filled = d.figures(slot);
      if (filled.size() != 1) return {};
      return filled.front().about.empty() ? filled.front().value->figure->subject : filled.front().about;
    };
    const std::string target = only("target");
    const std::string destroyer = only("destroyer");
    if (!target.empty() && !destroyer.empty()) return pairing_of(d, target, destroyer, Ways::most_demanding);
    d.missing("the equation of the reaction");
    return std::nullopt;
  }

  // How much of the destroyer is just enough, where it is not.
  static void say_what_it_takes(Drafting& d, std::size_t margin) {
    const auto destroyers = d.figures("destroyer");
    if (destroyers.size() != 1 || !destroyers.front().value->stated) return;
    const inner::FigureValue& there = *destroyers.front().value;
    const std::string what = d.at(destroyers.front().quantity).symbol.below;
    d.note_after(margin, [there, what](double times) -> std::string {
      if (!(times > 0) || times >= 1) return {};
      return "Just enough would be " +
             quantity::show_with_unit(there.from_si(there.si / times), there.unit.symbol(), 3) + " of " + what + ".";
    });
  }

  // The extent to which the figures of a slot can react, all together.
  static std::optional<std::size_t> needed(Drafting& d, const BalancedEquation& e, std::string_view slot,
                                           const std::string& what) {
    std::vector<Weighted> reach;
    for (const Filled& f : d.figures(slot)) {
      const auto species = species_of(d, e, f.about, true);
      if (!species) return std::nullopt;
      const auto amount = amount_behind(d, e, *species, f);
      if (!amount) return std::nullopt;
      reach.push_back({*amount, 1 / e.coefficient(*species)});
    }
    if (reach.empty()) {
      d.missing(what);
      return std::nullopt;
    }
    const std::string name = "reach of the " + std::string(slot);
    const std::size_t extent = d.hidden(name, Piece::of_symbol("ξ", std::string(slot)), Kind::amount);
    if (reach.size() == 1) {
      d.at(extent).silent = true;
      d.product("the " + name, {{extent, -1}, {reach.front().first, 1}}, reach.front().second);
    } else {
      reach.push_back({extent, -1});
      d.sum("the " + name, reach);
    }
    return extent;
  }
};

}  // namespace

const RelationKind& quench() {
  static const Quench kind;
  return kind;
}

}  // namespace sash::workings
