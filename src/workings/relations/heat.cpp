// Heat: what warms or cools a mass and its vessel, from a temperature change or from what happens chemically.
#include "workings/relations/kinds.h"

namespace sash::workings {
namespace {

using quantity::Kind;
namespace dimension = quantity::dimension;

class HeatDraft {
 public:
  explicit HeatDraft(Drafting& d) : d_(d) {}

  void run() {
    const auto heat = d_.figure("heat", {dimension::energy});
    const auto amount = d_.figure("amount", {dimension::amount});
    const auto mass = d_.figure("mass", {dimension::mass});
    const auto change = temperature_change();
    if (heat) d_.aim(heat->quantity);
    heat_ = heat ? heat->quantity : d_.hidden("heat", Piece::of_symbol("Q"), Kind::energy);
    if (change && mass) {
      d_.ratio("the heat, heat capacity and temperature change", heat_, {capacity(*mass), *change});
    } else if (change || mass) {
      d_.missing(mass ? "the temperature change" : "the mass that is warmed");
    }
    if (amount) from_process(amount->quantity);
    if (!heat && !amount && !(change && mass)) d_.missing("the heat, or the amount of what gives it off");
  }

 private:
  std::optional<std::size_t> temperature_change() {
    const auto before = d_.figure("temperature_before", {dimension::temperature}, "1");
    const auto after = d_.figure("temperature_after", {dimension::temperature}, "2");
    const auto change = d_.figure("temperature_change", {dimension::temperature});
    if (after) d_.aim(after->quantity);
    if (change) d_.aim(change->quantity);
    if (!before && !after && !change) return std::nullopt;
    const std::size_t difference =
        change ? change->quantity : d_.hidden("temperature change", Piece::of_symbol("ΔT"), Kind::temperature_change);
    if (before && after) {
      d_.sum("the temperatures and their change", {{difference, -1}, {after->quantity, 1}, {before->quantity, -1}});
    } else if (!change) {
      d_.missing(before ? "the temperature after" : "the temperature before");
    }
    return difference;
  }

  // J/K of all that is warmed.
  std::size_t capacity(const Filled& mass) {
    const std::size_t content =
        one_capacity(mass.quantity, specific("heat_capacity", "specific heat capacity"), "content");
    const auto vessel = d_.figure("vessel_mass", {dimension::mass}, "vessel");
    if (!vessel) {
      d_.note("The heat taken up by the vessel is not counted.");
      return content;
    }
    const std::size_t glass = one_capacity(
        vessel->quantity, specific("vessel_heat_capacity", "specific heat capacity of the vessel"), "vessel");
    const std::size_t both = d_.hidden("heat capacity", Piece::of_symbol("C"), Kind::other);
    d_.at(both).unit = quantity::Unit::known("J/K");
    d_.sum("the heat capacities", {{both, -1}, {content, 1}, {glass, 1}});
    return both;
  }

  std::size_t one_capacity(std::size_t mass, std::size_t specific, const std::string& below) {
    const std::size_t c = d_.hidden("heat capacity of the " + below, Piece::of_symbol("C", below), Kind::other);
    d_.at(c).unit = quantity::Unit::known("J/K");
    d_.product("the heat capacity of the " + below, {{c, -1}, {mass, 1}, {specific, 1}});
    return c;
  }

  std::size_t specific(const std::string& key, const std::string& name) {
    const bool vessel = key != "heat_capacity";
    const Piece symbol = Piece::of_symbol("c", vessel ? "vessel" : "");
    if (const auto given = d_.given_quantity(key, Kind::other, symbol, name)) return *given;
    const quantity::Unit unit = quantity::Unit::known("J/(g.K)");
    if (!vessel) {
      if (const auto figure = d_.figure(key, {unit.dimension()})) {
        d_.at(figure->quantity).symbol.text = "c";
        if (!figure->value->stated) d_.at(figure->quantity).unit = unit;
        return figure->quantity;
      }
    }
    if (vessel) {
      const std::string material = d_.given("vessel").value_or("glass");
      if (material == "glass" || material == "borosilicate glass") {
        // ISO 3585 borosilicate glass 3.3: 0.83 J/(g K) at 20 to 100 °C, as makers print it.
        return d_.constant("c glass", name, symbol, Kind::other, unit, unit.to_si(0.83), unit.to_si(0.02),
                           "borosilicate glass 3.3 (ISO 3585), maker's value, from memory");
      }
      const std::size_t hidden = d_.hidden(name, symbol, Kind::other, true);
      d_.at(hidden).unit = unit;
      return hidden;
    }
    d_.note("The content is taken to have the heat capacity of water.");
    return d_.constant("c water", name, symbol, Kind::other, unit, unit.to_si(4.184), unit.to_si(0.004),
                       "water at 20 °C, 4.184 J/(g K), IAPWS-95");
  }

  // Heat given off warms: Q = -n ΔH.
  void from_process(std::size_t amount) {
    const Piece symbol = Piece::of_symbol("ΔH");
    const quantity::Dimension molar = quantity::dimension::energy / quantity::dimension::amount;
    std::optional<std::size_t> enthalpy;
    if (const auto figure = d_.figure("enthalpy", {molar})) {
      d_.at(figure->quantity).symbol.text = "ΔH";
      if (!figure->value->stated) d_.at(figure->quantity).unit = quantity::Unit::known("kJ/mol");
      enthalpy = figure->quantity;
      d_.aim(*enthalpy);
    }
    if (!enthalpy) enthalpy = d_.given_quantity("enthalpy", Kind::other, symbol, "molar enthalpy");
    if (!enthalpy) {
      enthalpy = d_.hidden("molar enthalpy of what happens", symbol, Kind::other, true);
      d_.at(*enthalpy).unit = quantity::Unit::known("kJ/mol");
    }
    d_.ratio("the heat and the amount", heat_, {amount, *enthalpy}, -1);
  }

  Drafting& d_;
  std::size_t heat_ = 0;
};

class Heat final : public RelationKind {
 public:
  std::string_view label() const override { return "heat"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"heat", "heat", {Kind::energy}},
        {"mass", "mass warmed", {Kind::mass}},
        {"amount", "amount that reacts or dissolves", {Kind::amount}},
        {"temperature_before", "temperature before", {Kind::temperature}},
        {"temperature_after", "temperature after", {Kind::temperature}},
        {"temperature_change", "temperature change", {Kind::temperature_change}},
        {"vessel_mass", "mass of the vessel", {Kind::mass}},
        {"heat_capacity", "specific heat capacity", {}},
        {"enthalpy", "molar enthalpy", {}},
    };
    return slots;
  }
  void draft(Drafting& d) const override { HeatDraft(d).run(); }
};

}  // namespace

const RelationKind& heat() {
  static const Heat kind;
  return kind;
}

}  // namespace sash::workings
