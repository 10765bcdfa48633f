// Solute and solution: how much of what is in how much, by a strength in any convention.
// Source: IUPAC Green Book, 3rd ed. (2007), 2.10 (mass fraction, volume fraction, mass and amount concentration,
// molality).
#include <algorithm>

#include "workings/relations/density_law.h"
#include "workings/relations/strength.h"
#include "workings/relations/table_density.h"
#include "workings/relations/usual_strength.h"

namespace sash::workings {
namespace {

using quantity::Kind;
namespace dimension = quantity::dimension;

// The quantities of one solution, made only when something asks for them.
class Solution {
 public:
  explicit Solution(Drafting& d)
      : d_(d), strengths_(d.figures("strength")), name_(d.solute().empty() ? "the solute" : d.solute()) {
    amount_ = slot("solute_amount", dimension::amount, "n");
    solute_mass_ = slot("solute_mass", dimension::mass, "m");
    solute_volume_ = slot("solute_volume", dimension::volume, "V");
    volume_ = slot("solution_volume", dimension::volume, "V", "solution");
    mass_ = slot("solution_mass", dimension::mass, "m", "solution");
    solvent_mass_ = slot("solvent_mass", dimension::mass, "m", "solvent");
    weigh_solvent();
    for (const Filled& f : d.figures("density", {dimension::density}, "solution")) read_density(f, false);
    for (const Filled& s : strengths_) {
      if (is_density(s)) read_density(s, s.value->unit.code().starts_with("["));
    }
    if (of_unknown_strength()) {
      if (const auto usual = usual_strength(d_, short_name())) {
        strengths_.push_back(*usual);
        by_name_ = true;
      }
    }
    const bool some = amount_ || solute_mass_ || solute_volume_ || volume_ || mass_ || solvent_mass_;
    if (!some && (strengths_.size() > 1 || density_)) take_a_basis();
  }

  void relate_all() {
    for (const Filled& strength : strengths_) relate(strength);
    connect();
    for (const Filled& strength : strengths_) {
      if (d_.at(strength.quantity).from == Quantity::From::figure) d_.aim(strength.quantity);
    }
  }

 private:
  // Whether nothing but a trade name can tell how strong it is.
  bool of_unknown_strength() const {
    const auto stated = [&](std::initializer_list<std::optional<std::size_t>> some) {
      return std::any_of(some.begin(), some.end(), [&](const auto& q) { return q && d_.stated(*q); });
    };
    const bool by_strength =
        std::any_of(strengths_.begin(), strengths_.end(), [](const Filled& s) { return s.value->stated; });
    const bool by_parts = stated({amount_, solute_mass_, solute_volume_}) && stated({volume_, mass_, solvent_mass_});
    return !by_strength && !by_parts;
  }

  void relate(const Filled& strength) {
    if (is_density(strength)) return;
    const std::size_t s = strength.quantity;
    const double counted = 1 / counted_over_solute(d_, strength);
    limit_share(d_.at(s), "a share of a solution");
    d_.at(s).symbol.below = d_.at(s).symbol.below.empty() ? short_name() : d_.at(s).symbol.below;
    switch (strength.value->figure->kind) {
      case Kind::molar_concentration:
        check_volume_strength(strength);
        return d_.product("the strength, amount and volume of the solution", {{amount(), -1}, {s, 1}, {volume(), 1}});
      case Kind::molality:
        return d_.product("the molality, amount and mass of solvent", {{amount(), -1}, {s, 1}, {solvent_mass(), 1}});
      case Kind::volume_percent:
        return d_.product("the volume fraction and the volumes", {{solute_volume(), -1}, {s, 1}, {volume(), 1}});
      case Kind::mass_concentration:
      case Kind::mass_volume_percent:
        return d_.product("the strength, mass and volume", {{solute_mass(), -1}, {s, 1}, {volume(), 1}}, counted);
      default:
        break;
    }
    const quantity::Dimension& has = strength.value->unit.dimension();
    if (has == dimension::plain) {  // a percentage without a word: by mass
      if (strength.value->figure->kind != Kind::mass_percent) d_.note("The percentage is taken as one by mass.");
      return d_.product("the mass fraction and the masses", {{solute_mass(), -1}, {s, 1}, {mass(), 1}}, counted);
    }
    if (has == dimension::density) {
      return d_.product("the strength, mass and volume", {{solute_mass(), -1}, {s, 1}, {volume(), 1}}, counted);
    }
    if (has == dimension::molar_concentration) {
      check_volume_strength(strength);
      return d_.product("the strength, amount and volume of the solution", {{amount(), -1}, {s, 1}, {volume(), 1}});
    }
    d_.missing("a strength that is one: " + strength.value->name + " is " + with_article(quantity::name_of(has)));
  }

  // Ties whatever was asked for to each other.
  void connect() {
    tell_strength_from_density();
    if (solvent_mass_ && (mass_ || volume_)) {
      d_.sum("the masses of solute, solvent and solution", {{mass(), -1}, {solute_mass(), 1}, {*solvent_mass_, 1}});
    }
    if (amount_ && (solute_mass_ || solute_volume_)) {
      const std::size_t molar_mass = molar_mass_of(d_, d_.formula(), name_);
      d_.product("the amount and mass of " + name_, {{*amount_, -1}, {solute_mass(), 1}, {molar_mass, -1}});
    }
    if (solute_volume_ && solute_mass_) {
      d_.product("the mass and volume of " + name_,
                 {{*solute_mass_, -1},
                  {density("solute_density", "density of " + name_, short_name()), 1},
                  {*solute_volume_, 1}});
    }
    if (mass_ && volume_) {
      d_.product("the mass and volume of the solution",
                 {{*mass_, -1}, {density("density", "density of the solution", "solution"), 1}, {*volume_, 1}});
    }
  }

  void read_density(const Filled& density, bool hydrometer) {
    if (density_) return d_.equal("the density, stated twice", density.quantity, *density_);
    density_ = density.quantity;
    hydrometer_ = hydrometer;
    d_.at(*density_).symbol = Piece::of_symbol("ρ", "solution");
    d_.at(*density_).symbol.figure = d_.at(*density_).figure;
  }

  // Where a table knows the solute, its density tells how strong it is, or has to fit.
  void tell_strength_from_density() {
    const bool stated = std::any_of(strengths_.begin(), strengths_.end(),
                                    [](const Filled& s) { return s.value->stated && !is_density(s); });
    std::optional<std::size_t> density = density_;
    if (!density && !stated) {
      density =
          d_.given_quantity("density", Kind::density, Piece::of_symbol("ρ", "solution"), "density of the solution");
    }
    if (!density || by_name_ || !(amount_ || solute_mass_)) return;
    const auto wanted = std::find_if(strengths_.begin(), strengths_.end(), [](const Filled& s) {
      return s.value->figure->kind == Kind::mass_percent && s.value->figure->subject.empty();
    });
    if (wanted != strengths_.end()) {
      tie_density_to_strength(d_, *density, wanted->quantity, {hydrometer_, !stated});
      return;
    }
    const std::size_t w =
        d_.hidden("mass fraction of " + name_, Piece::of_symbol("w", short_name()), Kind::mass_percent);
    limit_share(d_.at(w), "a share of a solution");
    if (!tie_density_to_strength(d_, *density, w, {hydrometer_, !stated})) return;
    d_.product("the mass fraction and the masses", {{solute_mass(), -1}, {w, 1}, {mass(), 1}});
  }

  // So many volumes of oxygen from one of the solution.
  void check_volume_strength(const Filled& strength) {
    if (strength.value->unit.code() != "[vol]") return;
    static const chem::Formula peroxide = *chem::read_formula("H2O2");
    const auto formula = d_.formula();
    if (!formula || !formula->same_composition(peroxide)) d_.missing("hydrogen peroxide, to which volumes refer");
    d_.note("Volume strength is mL of oxygen, at 0 °C and 101.325 kPa, from 1 mL.");
  }

  // A volume of solvent is one of water, which is what people measure out by volume without saying more.
  void weigh_solvent() {
    const auto volume = slot("solvent_volume", dimension::volume, "V", "solvent");
    if (!volume) return;
    const quantity::Unit unit = quantity::Unit::known("g/mL");
    const std::size_t density =
        d_.constant("density of water", "density of water", Piece::of_symbol("ρ", "solvent"), Kind::density, unit,
                    unit.to_si(0.998), unit.to_si(0.002), "water at 20 °C and some degrees around, IAPWS-95");
    d_.note("The solvent is taken to be water.");
    d_.product("the mass and volume of the solvent", {{solvent_mass(), -1}, {density, 1}, {*volume, 1}});
  }

  // Strengths alone do not say how much solution there is, nor need they: any amount will do.
  void take_a_basis() {
    const bool by_volume = std::any_of(strengths_.begin(), strengths_.end(), [](const Filled& s) {
      const Kind kind = s.value->figure->kind;
      return kind == Kind::molar_concentration || kind == Kind::mass_concentration ||
             kind == Kind::mass_volume_percent || kind == Kind::volume_percent;
    });
    const Kind kind = by_volume ? Kind::volume : Kind::mass;
    const quantity::Unit unit = quantity::Unit::known(by_volume ? "L" : "kg");
    (by_volume ? volume_ : mass_) = d_.constant(
        by_volume ? "basis 1 L" : "basis 1 kg", by_volume ? "one litre of solution" : "one kilogram of solution",
        Piece::of_symbol(letter_of(kind), "solution"), kind, unit, unit.to_si(1), 0, "basis of the computation");
  }

  std::string short_name() const {
    const auto formula = d_.formula();
    return formula ? formula->unicode() : std::string();
  }

  std::optional<std::size_t> slot(std::string_view name, const quantity::Dimension& dim, const std::string& letter,
                                  const std::string& below = {}) {
    const auto filled = d_.figures(name, {dim}, below.empty() ? short_name() : below);
    for (const Filled& f : filled) {
      d_.aim(f.quantity);
      d_.at(f.quantity).symbol.text = letter;
    }
    return d_.one_of(filled);
  }

  std::size_t made(std::optional<std::size_t>& quantity, const std::string& name, Piece symbol, Kind kind) {
    if (!quantity) quantity = d_.hidden(name, std::move(symbol), kind);
    return *quantity;
  }
  std::size_t amount() {
    return made(amount_, "amount of " + name_, Piece::of_symbol("n", short_name()), Kind::amount);
  }
  std::size_t solute_mass() {
    return made(solute_mass_, "mass of " + name_, Piece::of_symbol("m", short_name()), Kind::mass);
  }
  std::size_t solute_volume() {
    return made(solute_volume_, "volume of " + name_, Piece::of_symbol("V", short_name()), Kind::volume);
  }
  std::size_t volume() {
    return made(volume_, "volume of the solution", Piece::of_symbol("V", "solution"), Kind::volume);
  }
  std::size_t mass() { return made(mass_, "mass of the solution", Piece::of_symbol("m", "solution"), Kind::mass); }
  std::size_t solvent_mass() {
    return made(solvent_mass_, "mass of the solvent", Piece::of_symbol("m", "solvent"), Kind::mass);
  }

  std::size_t density(const std::string& key, const std::string& name, const std::string& below) {
    if (key == "density" && density_) return *density_;
    const Piece symbol = Piece::of_symbol("ρ", below);
    if (const auto given = d_.given_quantity(key, Kind::density, symbol, name)) return *given;
    for (const Filled& strength : key == "density" ? strengths_ : std::vector<Filled>{}) {
      if (const auto table = density_of_solution(d_, strength, symbol, name)) return *table;
    }
    return d_.asked(name, symbol, Kind::density, key + ", such as 1.05 g/mL");
  }

  Drafting& d_;
  std::vector<Filled> strengths_;
  std::string name_;
  std::optional<std::size_t> amount_;
  std::optional<std::size_t> solute_mass_;
  std::optional<std::size_t> solute_volume_;
  std::optional<std::size_t> volume_;
  std::optional<std::size_t> mass_;
  std::optional<std::size_t> solvent_mass_;
  std::optional<std::size_t> density_;
  bool hydrometer_ = false;
  bool by_name_ = false;  // its strength is what a trade name means
};

class InSolution final : public RelationKind {
 public:
  std::string_view label() const override { return "in solution"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"strength",
         "strength",
         {Kind::molar_concentration, Kind::mass_concentration, Kind::molality, Kind::mass_percent, Kind::volume_percent,
          Kind::mass_volume_percent, Kind::density},
         true},
        {"solution_volume", "volume of solution", {Kind::volume}, true},
        {"solution_mass", "mass of solution", {Kind::mass}, true},
        {"solute_amount", "amount of solute", {Kind::amount}, true},
        {"solute_mass", "mass of solute", {Kind::mass}, true},
        {"solute_volume", "volume of solute", {Kind::volume}, true},
        {"solvent_mass", "mass of solvent", {Kind::mass}},
        {"solvent_volume", "volume of solvent", {Kind::volume}},
        {"density", "density of the solution", {Kind::density}},
        {"molar_mass", "molar mass of the solute", {Kind::molar_mass}},
    };
    return slots;
  }

  void draft(Drafting& d) const override { Solution(d).relate_all(); }
};

}  // namespace

const RelationKind& in_solution() {
  static const InSolution kind;
  return kind;
}

}  // namespace sash::workings
