// Electrolysis: current and time, and what they deposit or give off; current and voltage, and the power they take.
// Source: Faraday's law with the exact constant, SI Brochure, 9th ed. (2019): F = e NA.
#include "chem/electrolysis.h"
#include "workings/relations/species_amounts.h"

namespace sash::workings {
namespace {

using quantity::Kind;
namespace dimension = quantity::dimension;

class Electrolysis final : public RelationKind {
 public:
  std::string_view label() const override { return "electrolysis"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"current", "current", {Kind::current}},
        {"duration", "time", {Kind::duration}},
        {"charge", "charge", {Kind::charge}},
        {"voltage", "voltage of the cell", {Kind::voltage}},
        {"power", "power of the cell", {Kind::power}},
        {"product", "product", {Kind::mass, Kind::amount, Kind::gas_volume}, true, true},
        {"efficiency", "current efficiency", {Kind::percent_other, Kind::fraction}},
        {"temperature", "temperature of the gas", {Kind::temperature}},
        {"pressure", "pressure of the gas", {Kind::pressure}},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    const auto products = d.figures("product", {dimension::mass, dimension::amount, dimension::volume});
    for (const Filled& f : products) d.aim(f.quantity);
    const auto charge = d.figure("charge", {dimension::charge});
    const auto current = d.figure("current", {dimension::current});
    const auto time = d.figure("duration", {dimension::time});
    if (consumes(d, current) && products.empty() && !charge && !time) return;
    const std::size_t q = charge ? charge->quantity : d.hidden("charge", Piece::of_symbol("Q"), Kind::charge);
    if (current && time) {
      d.product("the charge, the current and the time", {{q, -1}, {current->quantity, 1}, {time->quantity, 1}});
    } else if (!charge) {
      d.missing(current ? "the time" : "the current");
    }
    if (products.empty()) return;
    const auto electrons =
        d.given_quantity("electrons", Kind::count, Piece::of_symbol("z"), "electrons for one product");
    if (!electrons) return d.missing("how many electrons one particle of the product takes");
    for (const Filled& f : products) deposit(d, f, q, *electrons);
  }

 private:
  // What the cell consumes, where it is said: power, voltage and current.
  static bool consumes(Drafting& d, const std::optional<Filled>& current) {
    const auto power = d.figure("power");
    const auto voltage = d.figure("voltage");
    if (!power && !voltage) return false;
    if (!power) return true;
    d.aim(power->quantity);
    if (!voltage) d.missing("the voltage");
    if (!current) d.missing("the current");
    if (voltage && current) {
      d.product("the power, the voltage and the current",
                {{power->quantity, -1}, {voltage->quantity, 1}, {current->quantity, 1}});
    }
    return true;
  }

  static void deposit(Drafting& d, const Filled& f, std::size_t charge, std::size_t electrons) {
    const std::string name = !f.about.empty() ? f.about : d.substance().empty() ? "the product" : d.substance();
    const auto read = chem::read_formula(name);
    const std::optional<chem::Formula> formula = read ? std::optional(*read) : d.formula();
    std::size_t n = f.quantity;
    const quantity::Dimension& has = f.value->unit.dimension();
    if (has != dimension::amount) {
      n = d.hidden("amount of " + name, Piece::of_symbol("n", name), Kind::amount);
      if (has == dimension::mass) {
        d.product("the amount and mass of " + name, {{n, 1}, {f.quantity, -1}, {molar_mass_of(d, formula, name), 1}});
      } else {
        d.product("the amount and volume of " + name,
                  {{f.quantity, -1}, {n, 1}, {gas_constant(d), 1}, {temperature_of(d), 1}, {pressure_of(d), -1}});
      }
    }
    const std::size_t constant =
        d.constant("F", "Faraday constant", Piece::of_symbol("F"), Kind::other, quantity::Unit::known("C/mol"),
                   chem::faraday, 0, "SI Brochure, 9th ed. (2019), product of the exact e and NA");
    std::vector<Weighted> members{{n, -1}, {charge, 1}, {electrons, -1}, {constant, -1}};
    if (const auto efficiency = efficiency_of(d)) members.push_back({*efficiency, 1});
    d.product("the charge and the product", members);
  }

  static std::optional<std::size_t> efficiency_of(Drafting& d) {
    if (const auto figure = d.figure("efficiency", {dimension::plain})) {
      d.at(figure->quantity).symbol = Piece::of_symbol("η");
      d.at(figure->quantity).symbol.figure = d.at(figure->quantity).figure;
      d.at(figure->quantity).most = 1;
      d.at(figure->quantity).past_most = "cannot have come from this charge alone";
      return figure->quantity;
    }
    d.note("All of the current is taken to go into the product.");
    return std::nullopt;
  }
};

}  // namespace

const RelationKind& electrolysis() {
  static const Electrolysis kind;
  return kind;
}

}  // namespace sash::workings
