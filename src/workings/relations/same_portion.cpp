// One portion in several quantities: mass and volume by density, mass and amount by molar mass and purity, or one
// quantity stated again.
#include "workings/relations/strength.h"
#include "workings/relations/table_density.h"
#include "workings/relations/usual_strength.h"

namespace sash::workings {
namespace {

using quantity::Kind;
namespace dimension = quantity::dimension;

class SamePortion final : public RelationKind {
 public:
  std::string_view label() const override { return "same portion"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"mass", "mass", {Kind::mass}, true},
        {"volume", "volume", {Kind::volume}, true},
        {"amount", "amount of substance", {Kind::amount}, true},
        {"density", "density", {Kind::density}},
        {"molar_mass", "molar mass", {Kind::molar_mass}},
        {"purity", "purity", {Kind::mass_percent, Kind::percent_other, Kind::fraction}},
        {"same", "the same quantity, stated again", {}, true},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    const auto amounts = d.figures("amount", {dimension::amount});
    const auto masses = d.figures("mass", {dimension::mass});
    const auto volumes = d.figures("volume", {dimension::volume});
    for (const auto* list : {&amounts, &masses, &volumes}) {
      for (const Filled& f : *list) d.aim(f.quantity);
    }
    const auto amount = d.one_of(amounts);
    auto mass = d.one_of(masses);
    const auto volume = d.one_of(volumes);
    restate(d);
    if (volume && (mass || amount)) {
      if (!mass) mass = d.hidden("mass of " + name_of(d), Piece::of_symbol("m"), Kind::mass);
      const std::size_t density = density_of(d);
      d.product("the mass, density and volume of " + name_of(d), {{*mass, -1}, {density, 1}, {*volume, 1}});
    }
    if (amount && mass) relate_amount(d, *mass, *amount);
    const std::size_t stated = amounts.size() + masses.size() + volumes.size();
    if (stated == 1) d.missing("a second quantity of the portion");
  }

 private:
  static std::string name_of(const Drafting& d) {
    const std::string substance = d.substance();
    return substance.empty() ? "the portion" : substance;
  }

  static void restate(Drafting& d) {
    const auto same = d.figures("same");
    for (const Filled& f : same) d.aim(f.quantity);
    if (same.size() == 1) d.missing("the figure that it restates");
    for (std::size_t i = 1; i < same.size(); ++i) {
      if (same[i].value->unit.dimension() != same[0].value->unit.dimension()) {
        d.missing("figures that can be equal: " + same[i].value->name + " is " +
                  with_article(quantity::name_of(same[i].value->unit.dimension())) + ", " + same[0].value->name + " " +
                  with_article(quantity::name_of(same[0].value->unit.dimension())));
        continue;
      }
      d.equal("one quantity stated twice", same[i].quantity, same[0].quantity);
    }
  }

  static std::size_t density_of(Drafting& d) {
    if (const auto figure = d.figure("density", {dimension::density})) return figure->quantity;
    const std::string name = "density of " + name_of(d);
    const Piece symbol = Piece::of_symbol("ρ");
    if (const auto given = d.given_quantity("density", Kind::density, symbol, name)) return *given;
    if (const auto table = density_of_substance(d, symbol, name)) return *table;
    return d.asked(name, symbol, Kind::density, "density, such as 1.05 g/mL");
  }

  static void relate_amount(Drafting& d, std::size_t mass, std::size_t amount) {
    const auto molar_mass = molar_mass_of(d, d.formula(), name_of(d));
    std::vector<Weighted> members{{amount, -1}, {mass, 1}, {molar_mass, -1}};
    if (const auto purity = purity_of(d, "purity")) {
      limit_share(d.at(*purity), "a purity");
      members.push_back({*purity, 1});
    } else if (const auto usual = usual_strength(d, {})) {
      members.push_back({usual->quantity, 1});
    }
    d.product("the amount, mass and molar mass of " + name_of(d), members);
  }
};

}  // namespace

const RelationKind& same_portion() {
  static const SamePortion kind;
  return kind;
}

}  // namespace sash::workings
