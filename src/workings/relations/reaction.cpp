// Amounts tied by a balanced equation: what each reactant could give, which one runs out first, what forms, what is
// left.
#include <map>

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
      if (amount) put_in_.emplace(*species, *amount);
    }
    forms("product", false);
    forms("used", true);
    if (!put_in_.empty()) limit();
    left_over();
    equivalents();
  }

 private:
  // What forms, or is used up, goes with the extent alone.
  void forms(std::string_view slot, bool on_left) {
    for (const Filled& f : d_.figures(slot)) {
      const auto species = species_of(d_, e_, f.about, on_left);
      if (!species) continue;
      const auto amount = amount_behind(d_, e_, *species, f);
      if (!amount) continue;
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
      d_.at(*amount).symbol.below = "left";
      d_.sum("what is left of " + e_.name(*species),
             {{*amount, -1}, {*before, 1}, {extent_, -e_.coefficient(*species)}});
      d_.aim(f.quantity);
    }
  }

  void equivalents() {
    const auto filled = d_.figures("equivalents", {quantity::dimension::plain});
    if (filled.empty()) return;
    const auto base = reference();
    if (!base) return d_.missing("which reactant counts as one equivalent");
    for (const Filled& f : filled) {
      const auto species = species_of(d_, e_, f.about, true);
      const auto amount = species ? put_in(*species) : std::nullopt;
      if (!amount) continue;
      d_.at(f.quantity).symbol = Piece::of_symbol("eq", e_.name(*species));
      d_.at(f.quantity).symbol.figure = d_.at(f.quantity).figure;
      d_.product("the equivalents of " + e_.name(*species), {{f.quantity, -1}, {*amount, 1}, {*base, -1}});
      d_.aim(f.quantity);
    }
    d_.note("Equivalents are moles to one mole of the reactant that counts as one.");
  }

  // The amount that counts as one equivalent.
  std::optional<std::size_t> reference() {
    if (const auto name = d_.given("equivalents_of")) {
      const auto species = species_of(d_, e_, *name, true);
      return species ? put_in(*species) : std::nullopt;
    }
    return limiting_;
  }

  Drafting& d_;
  const BalancedEquation& e_;
  std::size_t extent_ = 0;
  std::map<std::size_t, std::size_t> put_in_;  // species to amount
  std::map<std::size_t, bool> in_excess_;
  std::optional<std::size_t> limiting_;
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
