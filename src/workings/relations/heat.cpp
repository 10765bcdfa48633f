// Heat: what warms or cools a mass and its vessel, from a temperature change or from what happens chemically.
// Heat capacities, enthalpies and the dew point are those of the chemistry.
#include "chem/heat.h"
#include "chem/gas.h"
#include "chem/thermochemistry.h"
#include "quantity/show.h"
#include "workings/relations/enthalpy.h"

namespace sash::workings {
namespace {

using quantity::Kind;
namespace dimension = quantity::dimension;

constexpr double usual_celsius = 25;

class HeatDraft {
 public:
  explicit HeatDraft(Drafting& d) : d_(d) {}

  void run() {
    const auto heat = d_.figure("heat", {dimension::energy});
    const auto amount = reacting();
    const auto mass = d_.figure("mass", {dimension::mass});
    const auto change = temperature_change();
    if (heat) d_.aim(heat->quantity);
    heat_ = heat ? heat->quantity : d_.hidden("heat", Piece::of_symbol("Q"), Kind::energy);
    if (change && mass) {
      d_.ratio("the heat, heat capacity and temperature change", heat_, {capacity(*mass), *change});
    } else if (change || mass) {
      d_.missing(mass ? "the temperature change" : "the mass that is warmed");
    }
    if (amount) from_process(*amount);
    if (!heat && !amount && !(change && mass)) d_.missing("the heat, or the amount of what gives it off");
  }

 private:
  // The amount of what gives off or takes up the heat.
  std::optional<std::size_t> reacting() {
    const auto stated = d_.figure("amount", {dimension::amount});
    const auto mass = d_.figure("reacting_mass", {dimension::mass}, "reacting");
    if (!mass) return stated ? std::optional(stated->quantity) : std::nullopt;
    const std::string name = d_.substance().empty() ? "what reacts" : d_.substance();
    const std::size_t n =
        stated ? stated->quantity : d_.hidden("amount of " + name, Piece::of_symbol("n"), Kind::amount);
    const std::size_t molar_mass = molar_mass_of(d_, d_.formula(), name);
    d_.product("the amount and mass of " + name, {{n, -1}, {mass->quantity, 1}, {molar_mass, -1}});
    return n;
  }

  std::optional<std::size_t> temperature_change() {
    const auto before = d_.figure("temperature_before", {dimension::temperature}, "1");
    const auto after = d_.figure("temperature_after", {dimension::temperature}, "2");
    const auto change = d_.figure("temperature_change", {dimension::temperature});
    if (after) d_.aim(after->quantity);
    for (const auto& t : {before, after}) {
      if (t && t->value->stated) celsius_ = t->value->si - chem::zero_celsius;
    }
    if (after) watch_for_dew(after->quantity);
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

  // A cold wall gathers water from the air of the room, which then drips or weighs along.
  void watch_for_dew(std::size_t temperature) {
    const model::Bench& bench = d_.bench();
    const double room = bench.room_celsius;
    const double humidity = bench.relative_humidity;
    d_.note_after(temperature, [room, humidity](double kelvin) -> std::string {
      const double celsius = kelvin - chem::zero_celsius;
      const auto dew = chem::dew_on_wall(celsius, room, humidity);
      if (!dew || !dew->condenses) return {};
      return "The wall gathers dew: at " + quantity::show_with_unit(celsius, "°C", 3) +
             " it is colder than the dew point of the room, " + quantity::show_with_unit(dew->dew_point, "°C", 2) +
             " at " + quantity::show_with_unit(100 * humidity, "%", 2) + " relative humidity and " +
             quantity::show_with_unit(room, "°C", 3) + ".";
    });
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
    const std::string material = vessel ? d_.given("vessel").value_or("glass") : content();
    const auto known = chem::heat_capacity(material, celsius_.value_or(usual_celsius));
    if (known) {
      return d_.constant("c " + material, name + " (" + material + ")", symbol, Kind::other, unit,
                         unit.to_si(known->value), unit.to_si(known->spread), known->source);
    }
    const std::size_t hidden = d_.hidden(name + " (" + material + ")", symbol, Kind::other, true);
    d_.at(hidden).unit = unit;
    return hidden;
  }

  // What is warmed. Without a word it is water, as in most beakers.
  std::string content() {
    if (const auto given = d_.given("content")) return *given;
    const auto substance = d_.given("substance");
    const bool reacts =
        d_.figure("amount") || d_.figure("reacting_mass") || d_.given("process") || d_.given("equation");
    if (substance && !reacts) return *substance;
    d_.note("The content is taken to have the heat capacity of water.");
    return "water";
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
    if (!enthalpy) enthalpy = tabulated_enthalpy(d_, symbol);
    if (!enthalpy) {
      enthalpy = d_.hidden("molar enthalpy of what happens", symbol, Kind::other, true);
      d_.at(*enthalpy).unit = quantity::Unit::known("kJ/mol");
    }
    d_.ratio("the heat and the amount", heat_, {amount, *enthalpy}, -1);
  }

  Drafting& d_;
  std::size_t heat_ = 0;
  std::optional<double> celsius_;
};

class Heat final : public RelationKind {
 public:
  std::string_view label() const override { return "heat"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"heat", "heat", {Kind::energy}},
        {"mass", "mass warmed", {Kind::mass}},
        {"amount", "amount that reacts or dissolves", {Kind::amount}},
        {"reacting_mass", "mass that reacts or dissolves", {Kind::mass}},
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
