// Heat: what warms or cools a mass and its vessel, from a temperature change or from what happens chemically.
// Heat capacities, enthalpies and the dew point are those of the chemistry.
#include "chem/heat.h"

#include <algorithm>

#include "chem/density.h"
#include "chem/gas.h"
#include "chem/thermochemistry.h"
#include "quantity/show.h"
#include "support/text.h"
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
    const auto change = temperature_change();
    const auto mass = warmed();
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

  // The mass that is warmed: of all portions together, a volume by its density.
  std::optional<std::size_t> warmed() {
    std::vector<Filled> masses = d_.figures("mass", {dimension::mass});
    const std::vector<Filled> volumes = d_.figures("volume", {dimension::volume});
    std::vector<std::size_t> parts;
    for (const Filled& mass : masses) parts.push_back(mass.quantity);
    for (const Filled& volume : volumes) {
      const std::size_t mass = d_.hidden("mass of " + volume.value->name, Piece::of_symbol("m"), Kind::mass);
      d_.product("the mass and volume of what is warmed", {{mass, -1}, {density(), 1}, {volume.quantity, 1}});
      parts.push_back(mass);
    }
    if (parts.size() < 2) return parts.empty() ? std::nullopt : std::optional(parts.front());
    const std::size_t all = d_.hidden("mass warmed", Piece::of_symbol("m"), Kind::mass);
    std::vector<Weighted> members{{all, -1}};
    for (std::size_t i = 0; i < parts.size(); ++i) {
      std::string& below = d_.at(parts[i]).symbol.below;
      if (below.empty()) below = std::to_string(i + 1);
      members.push_back({parts[i], 1});
    }
    d_.sum("the portions and all that is warmed", members);
    return all;
  }

  // Given, or that of what is warmed; of what no table has, that of water.
  std::size_t density() {
    if (density_) return *density_;
    const Piece symbol = Piece::of_symbol("ρ");
    density_ = d_.given_quantity("density", Kind::density, symbol, "density");
    if (density_) return *density_;
    const double celsius = before_.value_or(usual_celsius);
    std::string material = content();
    auto known = chem::density_of(material, celsius);
    if (!known) {
      d_.note("A volume is weighed as water.");
      material = "water";
      known = chem::water_density(std::clamp(celsius, 0.0, 100.0));
    }
    const quantity::Unit unit = quantity::Unit::known("g/mL");
    density_ =
        d_.constant("density " + material + " " + quantity::show_number(known->value, 6), "density of " + material,
                    symbol, Kind::density, unit, unit.to_si(known->value), unit.to_si(known->spread), known->source);
    return *density_;
  }

  std::optional<std::size_t> temperature_change() {
    const auto before = d_.figure("temperature_before", {dimension::temperature}, "1");
    const auto after = d_.figure("temperature_after", {dimension::temperature}, "2");
    const auto change = d_.figure("temperature_change", {dimension::temperature});
    if (after) d_.aim(after->quantity);
    before_ = celsius_of(before);
    after_ = celsius_of(after);
    if (const auto by = change ? d_.stated(change->quantity) : std::nullopt) {
      if (before_ && !after_) after_ = *before_ + *by;
      if (after_ && !before_) before_ = *after_ - *by;
    }
    if (after) {
      watch_for_dew(after->quantity);
      watch_for_ice(after->quantity);
    }
    if (change) d_.aim(change->quantity);
    if (!before && !after && !change) return std::nullopt;
    const std::size_t difference =
        change ? change->quantity : d_.hidden("temperature change", Piece::of_symbol("ΔT"), Kind::temperature_change);
    if (before && after) {
      d_.sum("the temperatures and their change", {{before->quantity, -1}, {difference, -1}, {after->quantity, 1}});
    } else if (!change) {
      d_.missing(before ? "the temperature after" : "the temperature before");
    }
    return difference;
  }

  static std::optional<double> celsius_of(const std::optional<Filled>& temperature) {
    if (!temperature || !temperature->value->stated) return std::nullopt;
    return temperature->value->si - chem::zero_celsius;
  }

  // J/K of all that is warmed.
  std::size_t capacity(std::size_t mass) {
    const std::size_t content = one_capacity(mass, content_capacity(), "content");
    const auto vessel = vessel_capacity();
    if (!vessel) {
      d_.note("The heat taken up by the vessel is not counted.");
      return content;
    }
    const std::size_t both = d_.hidden("heat capacity", Piece::of_symbol("C"), Kind::other);
    d_.at(both).unit = quantity::Unit::known("J/K");
    d_.sum("the heat capacities", {{both, -1}, {content, 1}, {*vessel, 1}});
    return both;
  }

  // A calorimeter is known by its heat capacity as a whole, a beaker by its mass and what it is made of.
  std::optional<std::size_t> vessel_capacity() {
    const auto vessel = d_.figure("vessel_mass", {dimension::mass}, "vessel");
    if (const auto text = d_.given("vessel_heat_capacity")) {
      const auto given =
          d_.given_quantity("vessel_heat_capacity", Kind::other, Piece::of_symbol("C", "vessel"), "its heat capacity");
      if (!given) return std::nullopt;
      const quantity::Dimension has = d_.at(*given).unit.dimension();
      if (has == quantity::Unit::known("J/K").dimension()) {
        d_.at(*given).name = "heat capacity of the vessel";
        return given;
      }
      d_.at(*given).symbol.text = "c";
      d_.at(*given).name = "specific heat capacity of the vessel";
      if (vessel && has == quantity::Unit::known("J/(g.K)").dimension()) {
        return one_capacity(vessel->quantity, *given, "vessel");
      }
      d_.missing(vessel ? "a heat capacity of the vessel in J/K or J/(g.K), not “" + *text + "”"
                        : "the mass of the vessel, or its heat capacity as a whole in J/K");
      return std::nullopt;
    }
    if (!vessel) return std::nullopt;
    return one_capacity(
        vessel->quantity,
        tabulated(d_.given("vessel").value_or("glass"), "specific heat capacity of the vessel", "vessel"), "vessel");
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

  // Beyond where water freezes or boils its heat capacity alone does not tell what happens.
  void watch_for_ice(std::size_t temperature) {
    const auto stated = d_.given("content");
    const bool water = (stated && to_lower(*stated) == "water") || (!stated && !d_.given("heat_capacity"));
    if (!water) return;
    constexpr double boiling = 100;
    d_.note_after(temperature, [](double kelvin) -> std::string {
      const double celsius = kelvin - chem::zero_celsius;
      if (celsius < 0)
        return "Below 0 °C water freezes, unless what is dissolved in it keeps it from that: the heat of freezing is "
               "not counted.";
      if (celsius > boiling) return "Above 100 °C water boils: the heat of boiling is not counted.";
      return {};
    });
  }

  // Stated, given, or that of what is warmed.
  std::size_t content_capacity() {
    const std::string name = "specific heat capacity";
    const Piece symbol = Piece::of_symbol("c");
    if (const auto given = d_.given_quantity("heat_capacity", Kind::other, symbol, name)) return *given;
    const quantity::Unit unit = quantity::Unit::known("J/(g.K)");
    if (const auto figure = d_.figure("heat_capacity", {unit.dimension()})) {
      d_.at(figure->quantity).symbol.text = "c";
      if (!figure->value->stated) d_.at(figure->quantity).unit = unit;
      return figure->quantity;
    }
    return tabulated(content(), name, "");
  }

  // J/(g K) of a material, the mean over the temperatures it goes through.
  std::size_t tabulated(const std::string& material, const std::string& name, const std::string& below) {
    const Piece symbol = Piece::of_symbol("c", below);
    const quantity::Unit unit = quantity::Unit::known("J/(g.K)");
    const double from = before_.value_or(after_.value_or(usual_celsius));
    const auto known = chem::mean_heat_capacity(material, from, after_.value_or(from));
    if (known) {
      // Water's depends on where it begins and ends: only what is equal may share a key.
      const std::string key = "c " + material + " " + quantity::show_number(known->value, 6);
      return d_.constant(key, name + " (" + material + ")", symbol, Kind::other, unit, unit.to_si(known->value),
                         unit.to_si(known->spread), known->source);
    }
    d_.note(known.fault().sentence);
    const std::size_t hidden =
        d_.asked(name + " (" + material + ")", symbol, Kind::other,
                 (below.empty() ? "heat_capacity" : "vessel_heat_capacity") + std::string(", such as 2.1 J/(g.K)"));
    d_.at(hidden).unit = unit;
    return hidden;
  }

  // What is warmed. Without a word it is water, as in most beakers.
  const std::string& content() {
    if (content_.empty()) content_ = stated_content();
    if (content_.empty()) {
      d_.note("The content is taken to have the heat capacity of water.");
      content_ = "water";
    }
    return content_;
  }

  std::string stated_content() {
    if (const auto given = d_.given("content")) return *given;
    const auto substance = d_.given("substance");
    const bool reacts =
        d_.figure("amount") || d_.figure("reacting_mass") || d_.given("process") || d_.given("equation");
    return substance && !reacts ? *substance : std::string();
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
      enthalpy = d_.asked("molar enthalpy of what happens", symbol, Kind::other, "enthalpy, such as -55.8 kJ/mol");
      d_.at(*enthalpy).unit = quantity::Unit::known("kJ/mol");
    }
    d_.ratio("the heat and the amount", heat_, {amount, *enthalpy}, -1);
  }

  Drafting& d_;
  std::size_t heat_ = 0;
  std::optional<double> before_;  // °C, where known
  std::optional<double> after_;
  std::optional<std::size_t> density_;
  std::string content_;  // what is warmed, once it is asked for
};

class Heat final : public RelationKind {
 public:
  std::string_view label() const override { return "heat"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"heat", "heat", {Kind::energy}},
        {"mass", "mass warmed", {Kind::mass}, true},
        {"volume", "volume warmed", {Kind::volume}, true},
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
