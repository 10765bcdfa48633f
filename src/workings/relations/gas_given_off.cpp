// Gas: its amount or mass and the volume it takes at temperature and pressure, dry or over water.
// Source: ideal gas law with the exact gas constant, SI Brochure, 9th ed. (2019).
#include "chem/gas.h"
#include "quantity/show.h"
#include "workings/relations/species_amounts.h"
#include "workings/relations/water_vapour.h"

namespace sash::workings {
namespace {

using quantity::Kind;
namespace dimension = quantity::dimension;

class GasGivenOff final : public RelationKind {
 public:
  std::string_view label() const override { return "gas given off"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"amount", "amount of gas", {Kind::amount}},
        {"mass", "mass of gas", {Kind::mass}},
        {"volume", "volume of gas", {Kind::gas_volume, Kind::volume}},
        {"temperature", "temperature", {Kind::temperature}},
        {"pressure", "pressure", {Kind::pressure}},
        {"molar_mass", "molar mass of the gas", {Kind::molar_mass}},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    const std::string name = d.substance().empty() ? "the gas" : d.substance();
    const auto volume = d.figure("volume", {dimension::volume});
    const auto amount = d.figure("amount", {dimension::amount});
    const auto mass = d.figure("mass", {dimension::mass});
    for (const auto* f : {&volume, &amount, &mass}) {
      if (*f) d.aim((*f)->quantity);
    }
    if (!amount && !mass && !volume) return d.missing("an amount, a mass or a volume of the gas");
    const std::size_t n =
        amount ? amount->quantity : d.hidden("amount of " + name, Piece::of_symbol("n"), Kind::amount);
    if (mass) {
      const std::size_t molar_mass = molar_mass_of(d, d.formula(), name);
      d.product("the amount and mass of " + name, {{n, -1}, {mass->quantity, 1}, {molar_mass, -1}});
    }
    if (!volume) return;
    const std::size_t temperature = temperature_of(d);
    const std::size_t pressure = pressure_of(d);
    const std::size_t own = d.given("over_water") ? pressure_without_water(d, pressure, temperature) : pressure;
    d.product("the amount and volume of " + name,
              {{volume->quantity, -1}, {n, 1}, {gas_constant(d), 1}, {temperature, 1}, {own, -1}});
    d.note("The gas is taken as ideal; what dissolves in the liquid is not counted.");
    flag_dissolving(d, volume->quantity);
  }

 private:
  // Led through water, a gas that dissolves well is no measure of what was made.
  static void flag_dissolving(Drafting& d, std::size_t volume) {
    const std::string gas = d.substance();
    const auto water =
        d.given_quantity("water", Kind::volume, Piece::of_symbol("V", "water"), "water the gas is led through");
    if (gas.empty() || (!water && !d.given("over_water"))) return;
    const double litres = water ? 1000 * d.at(*water).value : 0;
    const double pascal = 1000 * d.bench().pressure_kpa;
    d.note_after(volume, [=](double cubic_metres) -> std::string {
      const auto kept = chem::dissolved_share(gas, pascal, cubic_metres, litres > 0 ? litres : 1000 * cubic_metres);
      if (!kept || !kept->considerable) return {};
      const std::string beside =
          litres > 0 ? quantity::show_with_unit(litres, "L", 3) + " of water" : "as much water as there is gas";
      constexpr double most_is_there = 0.1;
      return std::string(kept->fraction < most_is_there ? "The volume falls a little short of what was made"
                                                        : "The volume is no measure of what was made") +
             ": in balance with " + beside + ", " + quantity::show_with_unit(100 * kept->fraction, "%", 2) +
             " of the gas stays dissolved." + (kept->note.empty() ? "" : " " + kept->note);
    });
  }
};

}  // namespace

const RelationKind& gas_given_off() {
  static const GasGivenOff kind;
  return kind;
}

}  // namespace sash::workings
