// Amounts tied by a balanced equation: what each reactant could give, which one runs out first, what forms, what is
// left.
#include <map>
#include <set>

#include "chem/cell.h"
#include "chem/molar_mass.h"
#include "quantity/show.h"
#include "support/text.h"
#include "workings/relations/species_amounts.h"

namespace sash::workings {
namespace {

using quantity::Kind;

const std::vector<Kind> states_an_amount{Kind::mass, Kind::amount, Kind::gas_volume, Kind::volume};

class ReactionDraft {
 public:
  ReactionDraft(Drafting& d, const BalancedEquation& e) : d_(d), e_(e) {
    const std::string in_excess = d.given("excess").value_or("");
    for (const std::string_view text : split(in_excess, ',')) {
      if (trim(text).empty()) continue;
      if (const auto species = species_of(d, e, std::string(trim(text)), true)) in_excess_[*species] = true;
    }
    extent_ = d.hidden("extent of the reaction", Piece::of_symbol("ξ"), Kind::amount);
    d.at(extent_).silent = true;
  }

  void run() {
    const auto reactants = d_.figures("reactant");
    for (const Filled& f : reactants) {
      const auto species = species_of(d_, e_, f.about, true);
      if (!species) continue;
      const auto amount = amount_behind(d_, e_, *species, f);
      if (!amount) continue;
      put_in_.emplace(*species, *amount);
      reactants_.emplace_back(f, *species);
    }
    forms("product", false);
    forms("used", true);
    if (!put_in_.empty()) limit();
    left_over();
    equivalents();
    if (limited_) foresee();
    doubt_that_it_goes();
  }

 private:
  // A reaction that runs the other way by itself is worth a second look at what was said to react.
  void doubt_that_it_goes() {
    constexpr double clearly = -0.05;  // V; nearer to nothing strengths decide
    const auto cell = chem::cell_of(e_.equation.with(e_.coefficients));
    if (cell && cell->volts < clearly) d_.note(chem::cell_sentence(*cell));
  }

  // What forms, or is used up, goes with the extent alone.
  void forms(std::string_view slot, bool on_left) {
    for (const Filled& f : d_.figures(slot)) {
      const auto species = species_of(d_, e_, f.about, on_left);
      if (!species) continue;
      const auto amount = amount_behind(d_, e_, *species, f);
      if (!amount) continue;
      stated_.insert(*species);
      d_.product("the amount of " + e_.name(*species) + " in the reaction", {{*amount, -1}, {extent_, 1}},
                 e_.coefficient(*species));
      d_.aim(f.quantity);
    }
  }

  void limit() {
    std::vector<Weighted> candidates;
    const auto chosen = d_.given("limiting");
    const auto limiting = chosen ? species_of(d_, e_, *chosen, true) : std::nullopt;
    for (const auto& [species, amount] : put_in_) {
      if (limiting && *limiting != species) continue;
      if (!limiting && in_excess_.contains(species)) continue;
      candidates.push_back({amount, e_.coefficient(species)});
      limiting_ = amount;
    }
    if (limiting) d_.note(e_.name(*limiting) + " is said to be the limiting reactant.");
    if (candidates.empty()) {
      if (limiting) d_.missing("the amount of " + e_.name(*limiting) + ", the limiting reactant");
      if (!limiting) d_.missing("a reactant that is not in excess");
      return;
    }
    if (!limiting) note_excess();
    if (candidates.size() > 1) limiting_.reset();
    d_.least("the limiting reactant", extent_, candidates);
    limited_ = true;
  }

  void note_excess() {
    std::string names;
    for (std::size_t i = 0; i < e_.equation.left().size(); ++i) {
      if (put_in_.contains(i) && !in_excess_.contains(i)) continue;
      names += (names.empty() ? "" : ", ") + e_.name(i);
    }
    if (!names.empty())
      d_.note(names + (names.find(',') == std::string::npos ? " is" : " are") + " taken to be in excess.");
  }

  std::optional<std::size_t> put_in(std::size_t species) {
    const auto it = put_in_.find(species);
    if (it != put_in_.end()) return it->second;
    d_.missing("the amount of " + e_.name(species) + " put in");
    return std::nullopt;
  }

  void left_over() {
    for (const Filled& f : d_.figures("left_over")) {
      const auto species = species_of(d_, e_, f.about, true);
      if (!species) continue;
      const auto amount = amount_behind(d_, e_, *species, f);
      const auto before = put_in(*species);
      if (!amount || !before) continue;
      stated_.insert(*species);
      d_.at(*amount).symbol.below = "left";
      d_.sum("what is left of " + e_.name(*species),
             {{*amount, -1}, {*before, 1}, {extent_, -e_.coefficient(*species)}});
      d_.aim(f.quantity);
    }
  }

  void equivalents() {
    const auto filled = d_.figures("equivalents", {quantity::dimension::plain});
    if (filled.empty()) return;
    const auto reference_for_all = reference();
    for (const Filled& f : filled) {
      const auto species = species_of(d_, e_, f.about, true);
      const auto amount = species ? put_in(*species) : std::nullopt;
      if (!amount) continue;
      const auto base = reference_for_all ? reference_for_all : only_other(*species);
      if (!base) return d_.note("Equivalents are left out: equivalents_of says which reactant counts as one.");
      d_.at(f.quantity).symbol = Piece::of_symbol("eq", e_.name(*species));
      d_.at(f.quantity).symbol.figure = d_.at(f.quantity).figure;
      d_.product("the equivalents of " + e_.name(*species), {{f.quantity, -1}, {*amount, 1}, {*base, -1}});
      d_.aim(f.quantity);
    }
    d_.note("Equivalents are moles to one mole of the reactant that counts as one.");
  }

  // What no figure is about but a chemist asks next: the products in theory, and what is left of the reactants.
  void foresee() {
    const std::size_t left = e_.equation.left().size();
    for (std::size_t i = left; i < e_.equation.all().size(); ++i) {
      if (stated_.contains(i) || !has_mass(i)) continue;
      const std::string name = e_.name(i);
      const std::size_t n = d_.hidden("theoretical amount of " + name, Piece::of_symbol("n", name), Kind::amount);
      d_.product("the amount of " + name + " in the reaction", {{n, -1}, {extent_, 1}}, e_.coefficient(i));
      const std::size_t m = d_.hidden("theoretical mass of " + name, Piece::of_symbol("m", name), Kind::mass);
      d_.product("the amount and mass of " + name, {{m, -1}, {n, 1}, {*d_.molar_mass(formula(i)), 1}});
      d_.tell(m);
      d_.tell(n);
      d_.aim(m);
    }
    if (put_in_.size() < 2) return;
    for (const auto& [species, before] : put_in_) {
      if (stated_.contains(species) || !has_mass(species)) continue;
      const std::string below = e_.name(species) + ", left";
      const std::size_t n =
          d_.hidden("amount of " + e_.name(species) + " left over", Piece::of_symbol("n", below), Kind::amount);
      d_.sum("what is left of " + e_.name(species), {{n, -1}, {before, 1}, {extent_, -e_.coefficient(species)}});
      const std::size_t m =
          d_.hidden("mass of " + e_.name(species) + " left over", Piece::of_symbol("m", below), Kind::mass);
      weigh_left(m, before, *d_.molar_mass(formula(species)), e_.coefficient(species), below);
      d_.tell(n);
      d_.tell(m);
    }
  }

  // m = M (n - coefficient * extent), in one: of what runs out nothing is left, and a law whose terms all vanish has no
  // size to be met to.
  void weigh_left(std::size_t mass, std::size_t before, std::size_t molar_mass, double coefficient,
                  const std::string& below) {
    const LawPtr law = general_law([coefficient](std::span<const double> x, std::span<double> slope) {
      const double left = x[1] - coefficient * x[2];
      slope[0] = 1;
      slope[1] = -x[3];
      slope[2] = coefficient * x[3];
      slope[3] = -left;
      return x[0] - x[3] * left;
    });
    const Piece molar = d_.at(molar_mass).symbol;
    const Writer writer = [=](std::size_t wanted, const std::vector<double>& x) -> std::optional<Step> {
      if (wanted != 0) return std::nullopt;
      const auto number = [](Kind kind, double si) {
        const quantity::Unit unit = quantity::readable_unit(kind, si);
        return Piece::of_number(quantity::show_significant(unit.from_si(si), 4), unit.symbol());
      };
      const double left = x[1] - coefficient * x[2];
      return Step{x[3] * left,
                  {Piece::of_symbol("m", below), Piece::of_sign("="), Piece::of_symbol("n", below),
                   Piece::words("\u00A0"), molar, Piece::of_sign("="), number(Kind::amount, left), Piece::of_sign("×"),
                   number(Kind::molar_mass, x[3]), Piece::of_sign("="), number(Kind::mass, x[3] * left)}};
    };
    d_.special("the amount and mass left", {mass, before, extent_, molar_mass}, law, writer);
  }

  const chem::Formula& formula(std::size_t species) const { return e_.equation.all()[species].formula; }
  bool has_mass(std::size_t species) const { return chem::molar_mass(formula(species)).ok(); }

  // The amount that counts as one equivalent.
  std::optional<std::size_t> reference() {
    if (const auto name = d_.given("equivalents_of")) {
      const auto species = species_of(d_, e_, *name, true);
      return species ? put_in(*species) : std::nullopt;
    }
    return limiting_ ? limiting_ : running_out();
  }

  // Of two reactants, one in equivalents of the other.
  std::optional<std::size_t> only_other(std::size_t species) const {
    if (put_in_.size() != 2) return std::nullopt;
    return put_in_.begin()->first == species ? put_in_.rbegin()->second : put_in_.begin()->second;
  }

  // Of several reactants the one that runs out by what is stated of all of them.
  std::optional<std::size_t> running_out() const {
    std::optional<std::size_t> least;
    double lowest = 0;
    for (const auto& [species, amount] : put_in_) {
      const auto reach = reach_of(species);
      if (!reach) return std::nullopt;
      if (least && *reach >= lowest) continue;
      least = amount;
      lowest = *reach;
    }
    return least;
  }

  // Moles of reaction that what was put in of a species suffices for; nothing where that is not stated.
  std::optional<double> reach_of(std::size_t species) const {
    for (const auto& [filled, of] : reactants_) {
      if (of != species || !filled.value->stated) continue;
      const quantity::Dimension& has = filled.value->unit.dimension();
      if (has == quantity::dimension::amount) return filled.value->si / e_.coefficient(species);
      const auto molar_mass = chem::molar_mass(formula(species));
      if (has != quantity::dimension::mass || !molar_mass) return std::nullopt;
      return filled.value->si * 1000 / molar_mass->value / e_.coefficient(species);
    }
    return std::nullopt;
  }

  Drafting& d_;
  const BalancedEquation& e_;
  std::size_t extent_ = 0;
  std::map<std::size_t, std::size_t> put_in_;  // species to amount
  std::vector<std::pair<Filled, std::size_t>> reactants_;
  std::map<std::size_t, bool> in_excess_;
  std::optional<std::size_t> limiting_;
  std::set<std::size_t> stated_;  // species that a figure is about
  bool limited_ = false;
};

class Reaction final : public RelationKind {
 public:
  std::string_view label() const override { return "reaction"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"reactant", "reactant put in", states_an_amount, true, true},
        {"product", "product formed in theory", states_an_amount, true, true},
        {"used", "reactant used up", states_an_amount, true, true},
        {"left_over", "reactant left over", states_an_amount, true, true},
        {"equivalents", "equivalents", {Kind::equivalents}, true, true},
        {"temperature", "temperature of the gases", {Kind::temperature}},
        {"pressure", "pressure of the gases", {Kind::pressure}},
    };
    return slots;
  }

  void draft(Drafting& d) const override {
    if (const auto equation = equation_of(d)) ReactionDraft(d, *equation).run();
  }
};

}  // namespace

const RelationKind& reaction() {
  static const Reaction kind;
  return kind;
}

}  // namespace sash::workings
