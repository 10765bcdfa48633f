// A chain of reactions: the product of one step, as far as it is carried on, is the reactant of the next.
#include <map>

#include "chem/names.h"
#include "support/text.h"
#include "workings/relations/species_amounts.h"

namespace sash::workings {
namespace {

using quantity::Kind;

const std::vector<Kind> amounts{Kind::mass, Kind::amount, Kind::gas_volume};

struct ChainStep {
  BalancedEquation e;
  std::size_t from = 0;  // species
  std::size_t to = 0;
  double ratio() const { return e.coefficient(to) / e.coefficient(from); }
};

class ChainDraft {
 public:
  explicit ChainDraft(Drafting& d) : d_(d) {}

  void run() {
    const auto start = d_.figure("start", {}, "start");
    products_ = by_step("product");
    yields_ = by_step("step_yield");
    const auto overall = d_.figure("overall_yield", {quantity::dimension::plain}, "overall");
    if (!start) d_.missing("what the chain starts with");
    if (!read_steps(start)) return;
    if (!start) return;
    auto carried = amount_behind(d_, steps_.front().e, steps_.front().from, *start);
    if (!carried) return;

    const std::size_t first = *carried;
    std::vector<Weighted> whole{{first, -1}};  // overall = last / (first * ratios * shares)
    double ratios = 1;
    for (std::size_t k = 0; k < steps_.size(); ++k) {
      carried = step(k, *carried, whole);
      if (!carried) return;
      ratios *= steps_[k].ratio();
    }
    finish(overall, *carried, std::move(whole), ratios);
    for (const auto& [k, f] : products_) d_.aim(f.quantity);
  }

 private:
  std::map<std::size_t, Filled> by_step(std::string_view slot) {
    std::map<std::size_t, Filled> result;
    for (const Filled& f : d_.figures(slot)) {
      const auto number = read_integer(trim(f.about));
      if (!number || *number < 1) {
        d_.missing("the number of the step for " + f.value->name);
        continue;
      }
      d_.at(f.quantity).symbol.below = "step " + std::to_string(*number);
      result.emplace(static_cast<std::size_t>(*number), f);
    }
    return result;
  }

  bool read_steps(const std::optional<Filled>& start) {
    for (std::size_t k = 1; d_.given("equation:" + std::to_string(k)); ++k) {
      auto e = equation_of(d_, "equation:" + std::to_string(k));
      if (!e) return false;
      steps_.push_back({std::move(*e)});
    }
    if (steps_.empty()) {
      d_.missing("the equations of the steps");
      return false;
    }
    bool all = true;
    for (std::size_t k = 0; k < steps_.size(); ++k) {
      const auto from = carried_in(k, start);
      const auto to = carried_out(k);
      all = all && from && to;
      if (from) steps_[k].from = *from;
      if (to) steps_[k].to = *to;
    }
    return all;
  }

  std::optional<std::size_t> carried_in(std::size_t k, const std::optional<Filled>& start) {
    const ChainStep& s = steps_[k];
    if (const auto name = d_.given("from:" + std::to_string(k + 1))) return species_of(d_, s.e, *name, true);
    if (k == 0) {
      std::string name = start ? start->about : "";
      if (name.empty() && start) name = start->value->figure->subject;
      return species_of(d_, s.e, name, true);
    }
    for (std::size_t i = 0; i < s.e.equation.left().size(); ++i) {
      if (shared_with(steps_[k - 1], s.e.equation.all()[i].formula)) return i;
    }
    d_.missing("what step " + std::to_string(k) + " hands on to step " + std::to_string(k + 1));
    return std::nullopt;
  }

  static bool shared_with(const ChainStep& before, const chem::Formula& formula) {
    for (const chem::Species& s : before.e.equation.right()) {
      if (s.formula.same_composition(formula) && formula.plain() != "H2O") return true;
    }
    return false;
  }

  std::optional<std::size_t> carried_out(std::size_t k) {
    const ChainStep& s = steps_[k];
    const std::size_t left = s.e.equation.left().size();
    if (const auto name = d_.given("to:" + std::to_string(k + 1))) return species_of(d_, s.e, *name, false);
    if (k + 1 < steps_.size()) {
      for (std::size_t i = left; i < s.e.equation.all().size(); ++i) {
        const chem::Formula& formula = s.e.equation.all()[i].formula;
        const auto found = steps_[k + 1].e.equation.find(formula);
        if (found && steps_[k + 1].e.equation.on_left(*found) && formula.plain() != "H2O") return i;
      }
    }
    const auto product = products_.find(k + 1);
    const std::string subject = product != products_.end() ? product->second.value->figure->subject : "";
    if (subject.empty()) {
      if (const auto only = only_one_but_water(s.e)) return only;
      d_.missing("which product of step " + std::to_string(k + 1) + " is meant: give to:" + std::to_string(k + 1));
      return std::nullopt;
    }
    return species_of(d_, s.e, subject, false);
  }

  static std::optional<std::size_t> only_one_but_water(const BalancedEquation& e) {
    std::optional<std::size_t> only;
    for (std::size_t i = e.equation.left().size(); i < e.equation.all().size(); ++i) {
      if (e.equation.all()[i].formula.plain() == "H2O") continue;
      if (only) return std::nullopt;
      only = i;
    }
    return only;
  }

  // The amount isolated in a step from what was carried into it.
  std::optional<std::size_t> step(std::size_t k, std::size_t carried, std::vector<Weighted>& whole) {
    const ChainStep& s = steps_[k];
    const std::string number = std::to_string(k + 1);
    if (const auto share = d_.given_quantity("carried:" + number, Kind::fraction, Piece::of_symbol("x", number),
                                             "share carried into step " + number)) {
      whole.push_back({*share, -1});
      const std::size_t taken =
          d_.hidden("amount carried into step " + number, Piece::of_symbol("n", "into " + number), Kind::amount);
      d_.product("what is carried into step " + number, {{taken, -1}, {carried, 1}, {*share, 1}});
      carried = taken;
    }
    const auto stated = yields_.find(k + 1);
    const std::size_t yield =
        stated != yields_.end()
            ? stated->second.quantity
            : d_.hidden("yield of step " + number, Piece::of_symbol("Y", number), Kind::percent_yield, true);
    limit_yield(d_.at(yield));
    const auto product = products_.find(k + 1);
    std::optional<std::size_t> isolated;
    if (product != products_.end()) {
      isolated = amount_behind(d_, s.e, s.to, product->second);
    } else {
      isolated = d_.hidden("amount isolated in step " + number, Piece::of_symbol("n", s.e.name(s.to)), Kind::amount);
    }
    if (!isolated) return std::nullopt;
    d_.product("the yield of step " + number, {{*isolated, -1}, {yield, 1}, {carried, 1}}, s.ratio());
    step_yields_.push_back({yield, 1});
    if (stated != yields_.end()) d_.aim(yield);
    return isolated;
  }

  void finish(const std::optional<Filled>& overall, std::size_t last, std::vector<Weighted> whole, double ratios) {
    const std::size_t all =
        overall ? overall->quantity : d_.hidden("overall yield", Piece::of_symbol("Y", "overall"), Kind::percent_yield);
    limit_yield(d_.at(all));
    d_.aim(all);
    whole.push_back({all, -1});
    whole.push_back({last, 1});
    d_.product("the overall yield", whole, 1 / ratios);
    step_yields_.push_back({all, -1});
    d_.product("the yields of the steps", step_yields_);
  }

  Drafting& d_;
  std::vector<ChainStep> steps_;
  std::map<std::size_t, Filled> products_;
  std::map<std::size_t, Filled> yields_;
  std::vector<Weighted> step_yields_;
};

class Chain final : public RelationKind {
 public:
  std::string_view label() const override { return "chain of reactions"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"start", "what it starts with", amounts, false, true},
        {"product", "isolated in a step", amounts, true, true},
        {"step_yield", "yield of a step", {Kind::percent_yield, Kind::percent_other, Kind::fraction}, true, true},
        {"overall_yield", "overall yield", {Kind::percent_yield, Kind::percent_other, Kind::fraction}},
    };
    return slots;
  }
  void draft(Drafting& d) const override { ChainDraft(d).run(); }
};

}  // namespace

const RelationKind& chain() {
  static const Chain kind;
  return kind;
}

}  // namespace sash::workings
