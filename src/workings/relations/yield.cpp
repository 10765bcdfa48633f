// Yield: what was isolated against what could have formed.
#include "workings/relations/species_amounts.h"

namespace sash::workings {
namespace {

using quantity::Kind;

class Yield final : public RelationKind {
 public:
  std::string_view label() const override { return "yield"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"actual", "isolated", {Kind::mass, Kind::amount}},
        {"theoretical", "theoretical yield", {Kind::mass, Kind::amount}},
        {"percent", "percent yield", {Kind::percent_yield, Kind::percent_other, Kind::fraction}},
        {"reactant", "reactant put in", {Kind::mass, Kind::amount, Kind::gas_volume}, true, true},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    const auto percent = d.figure("percent", {quantity::dimension::plain});
    const auto actual = d.figure("actual", {quantity::dimension::mass, quantity::dimension::amount}, "isolated");
    const auto theoretical =
        d.figure("theoretical", {quantity::dimension::mass, quantity::dimension::amount}, "theory");
    if (!actual) d.missing("what was isolated");
    const std::size_t share =
        percent ? percent->quantity : d.hidden("percent yield", Piece::of_symbol("Y"), Kind::percent_yield, true);
    limit_yield(d.at(share));
    d.aim(share);
    if (!actual) return;
    if (d.given("equation")) return from_equation(d, *actual, theoretical, share);
    if (!theoretical) return d.missing("the theoretical yield, or the equation and what was put in");
    if (actual->value->unit.dimension() != theoretical->value->unit.dimension()) {
      return d.missing("the equation: one yield is a mass, the other an amount");
    }
    d.product("the isolated and the theoretical yield",
              {{share, -1}, {actual->quantity, 1}, {theoretical->quantity, -1}});
  }

 private:
  // With the equation at hand the theoretical yield follows from what was put in, and forms may differ.
  static void from_equation(Drafting& d, const Filled& actual, const std::optional<Filled>& theoretical,
                            std::size_t share) {
    const auto e = equation_of(d);
    if (!e) return;
    const auto product = species_of(d, *e, d.given("product").value_or(actual.about), false);
    if (!product) return;
    const auto isolated = amount_behind(d, *e, *product, actual);
    if (!isolated) return;
    std::optional<std::size_t> expected;
    if (theoretical) expected = amount_behind(d, *e, *product, *theoretical);
    std::vector<Weighted> candidates;
    const auto limiting = d.given("limiting");
    for (const Filled& f : d.figures("reactant")) {
      const auto species = species_of(d, *e, f.about, true);
      if (!species) continue;
      if (limiting && species_of(d, *e, *limiting, true) != species) continue;
      if (const auto n = amount_behind(d, *e, *species, f)) candidates.push_back({*n, e->coefficient(*species)});
    }
    if (candidates.empty() && !expected) return d.missing("the theoretical yield, or what was put in");
    if (!candidates.empty()) {
      const std::size_t extent = d.hidden("extent of the reaction", Piece::of_symbol("ξ"), Kind::amount);
      d.at(extent).silent = true;
      d.least("the limiting reactant", extent, candidates);
      if (!expected) {
        const std::string name = e->name(*product);
        expected = d.hidden("theoretical amount of " + name, Piece::of_symbol("n", name + ", theory"), Kind::amount);
      }
      d.product("the theoretical yield", {{*expected, -1}, {extent, 1}}, e->coefficient(*product));
    }
    d.product("the isolated and the theoretical yield", {{share, -1}, {*isolated, 1}, {*expected, -1}});
  }
};

}  // namespace

const RelationKind& yield() {
  static const Yield kind;
  return kind;
}

}  // namespace sash::workings
