// Equilibrium state: what was put into a solution, and what is there once everything has reacted: the pH, species, what
// precipitates, what dissolves.
#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

#include "chem/gas.h"
#include "chem/names.h"
#include "quantity/show.h"
#include "support/text.h"
#include "workings/relations/kinds.h"
#include "workings/relations/solution_answer.h"

namespace sash::workings {
namespace {

using quantity::Kind;
namespace dimension = quantity::dimension;

constexpr double usual_molarity = 0.1;  // mol/L, of what nobody states, to see which constants matter
constexpr double usual_ph = 7;
constexpr double hardly_moved = 0.05;
constexpr double shown_share = 1e-3;  // of the most plentiful: fewer are not written out

std::string molarity_text(double molar) { return quantity::show_significant(molar, 3) + " mol/L"; }

// "H⁺ 1.33 × 10⁻³ mol/L, ..." of what is there, but for traces; solids by what forms of them in a litre.
std::string what_is_there(const MassActionModel& model, const chem::Equilibrium& state) {
  double most = 0;
  for (const double m : state.molarity) most = std::max(most, m);
  std::string text;
  const auto add = [&](const std::string& item) { text += (text.empty() ? "" : ", ") + item; };
  for (std::size_t j = 0; j < state.molarity.size(); ++j) {
    if (state.molarity[j] < shown_share * most) continue;
    add(model.system().species()[j].formula.unicode() + " " + molarity_text(state.molarity[j]));
  }
  for (std::size_t s = 0; s < state.solid.size(); ++s) {
    if (state.solid[s] > 0)
      add("solid " + model.system().solids()[s].formula.unicode() + " " + molarity_text(state.solid[s]));
  }
  return text;
}

class EquilibriumDraft {
 public:
  explicit EquilibriumDraft(Drafting& d) : d_(d) {}

  void run() {
    volume_ = d_.figure("volume", {dimension::volume}, "solution");
    read_put_in();
    const auto solids = solids_named();
    if (inputs_.empty()) return d_.missing("what was put into the solution, and how much of it");
    if (!make_model(solids)) return;
    const auto ph = d_.figure("pH");
    hold(ph);
    count_constants(ph, solids);
    if (ph && !held_by_figure_) ask_ph(ph->quantity);
    ask("species", [&](const chem::Formula& f) { return model_->species(f); });
    ask("precipitate", [&](const chem::Formula& f) { return model_->solid(f, Asked::What::precipitate); });
    ask("solubility", [&](const chem::Formula& f) { return model_->solid(f, Asked::What::solubility); });
    if (!asked_ && model_->has_ph() && !held_by_figure_ && !held_) {
      const std::size_t hidden = d_.hidden("pH", Piece::of_symbol("pH"), Kind::pH);
      ask_ph(hidden);
      d_.aim(hidden);
    }
    if (!asked_) d_.missing("a pH, a species, a precipitate or a solubility to work out");
    d_.note(
        std::string("Everything is taken to have reacted; oxidation states stay as they were put in.") +
        (model_->activities() ? " Activity coefficients are by the Davies equation, good to about 0.5 mol/L." : ""));
    d_.note(std::string("Constants count with how far ") +
            (model_->activities() ? "their sources lie apart, or where there is one source with its digits"
                                  : "the digits given leave them open") +
            ". Uncertainties are carried to first order only; no Monte Carlo run checks this one.");
  }

 private:
  std::optional<chem::Formula> formula(const std::string& text) {
    const auto formula = chem::formula_of(text);
    if (formula) return *formula;
    d_.missing("a substance that is known (" + formula.fault().sentence + ")");
    return std::nullopt;
  }

  // Strengths in the mixture, by figures and as given.
  void read_put_in() {
    for (const Filled& f : d_.figures("total", {dimension::molar_concentration, dimension::amount, dimension::mass})) {
      const auto what = formula(!f.about.empty() ? f.about : f.value->figure->subject);
      if (!what) continue;
      if (f.value->stated && f.value->si <= 0) {
        d_.missing("a value of " + f.value->name + " above zero (leave out what is not there)");
        continue;
      }
      const auto strength = strength_behind(f, *what);
      if (strength) put_in(*what, *strength);
    }
    for (const auto& [key, text] : d_.relation().given) {
      constexpr std::string_view prefix = "total:";
      if (!key.starts_with(prefix)) continue;
      const auto what = formula(key.substr(prefix.size()));
      if (!what) continue;
      const std::string name = what->unicode();
      if (const auto c =
              d_.given_quantity(key, Kind::molar_concentration, Piece::of_symbol("c", name), "strength of " + name)) {
        put_in(*what, *c);
      }
    }
  }

  void put_in(const chem::Formula& what, std::size_t strength) {
    put_in_.push_back(what);
    inputs_.push_back(strength);
  }

  // mol/m3 in the mixture, from an amount or a mass and the volume.
  std::optional<std::size_t> strength_behind(const Filled& f, const chem::Formula& what) {
    const quantity::Dimension& has = f.value->unit.dimension();
    const std::string name = what.unicode();
    d_.at(f.quantity).symbol.below = name;
    if (has == dimension::molar_concentration) return f.quantity;
    if (!volume_) {
      d_.missing("the volume of the solution");
      return std::nullopt;
    }
    std::size_t amount = f.quantity;
    if (has == dimension::mass) {
      const auto molar_mass = d_.molar_mass(what);
      if (!molar_mass) return std::nullopt;
      amount = d_.hidden("amount of " + name, Piece::of_symbol("n", name), Kind::amount);
      d_.product("the amount and mass of " + name, {{amount, -1}, {f.quantity, 1}, {*molar_mass, -1}});
    }
    const std::size_t c =
        d_.hidden("strength of " + name + " put in", Piece::of_symbol("c", name), Kind::molar_concentration);
    d_.product("the strength of " + name, {{c, -1}, {amount, 1}, {volume_->quantity, -1}});
    return c;
  }

  std::vector<chem::Formula> solids_named() {
    std::vector<chem::Formula> solids;
    for (const model::Term& term : d_.relation().terms) {
      if (term.slot != "solubility" && term.slot != "precipitate") continue;
      const auto what = term.about.empty() ? std::nullopt : formula(term.about);
      if (!what) continue;
      solids.push_back(*what);
      // Of a solid that dissolves nothing else needs to be put in.
      if (term.slot == "solubility" && put_in_.empty()) {
        const quantity::Unit unit = quantity::Unit::known("mol/L");
        put_in(*what, d_.constant("none put in", "beyond the solid", Piece::of_symbol("c", "else"),
                                  Kind::molar_concentration, unit, 0, 0, "nothing else is put in"));
      }
    }
    return solids;
  }

  bool make_model(const std::vector<chem::Formula>& solids) {
    const auto constants = d_.given("constants");
    const auto given = d_.given_quantity("temperature", Kind::temperature, Piece::of_symbol("T"), "temperature");
    const double celsius = given ? d_.at(*given).value - chem::zero_celsius : 25;
    auto model = constants ? MassActionModel::from_text(*constants, put_in_)
                           : MassActionModel::from_tables(put_in_, solids, celsius);
    if (!model) {
      d_.missing("constants for this solution (" + model.fault().sentence + ")");
      return false;
    }
    model_ = std::make_shared<const MassActionModel>(*std::move(model));
    return true;
  }

  // "yes" holds the pH at its figure, a number there.
  void hold(const std::optional<Filled>& ph) {
    const auto text = d_.given("held_pH");
    if (!text || to_lower(*text) == "no") return;
    held_ = read_number(*text);
    if (held_) return;
    if (!ph) return d_.missing("the pH that is held");
    held_by_figure_ = true;
    inputs_.push_back(ph->quantity);
  }

  void ask_ph(std::size_t quantity) {
    if (!model_->has_ph()) return d_.missing("a constant with H⁺ or OH⁻ in it");
    d_.at(quantity).symbol = Piece::of_symbol("pH");
    tie(quantity, {Asked::What::ph, 0}, "the pH");
  }

  template <typename Find>
  void ask(const std::string& slot, const Find& find) {
    for (const Filled& f : d_.figures(slot, {dimension::molar_concentration, dimension::amount, dimension::mass})) {
      const auto what = formula(!f.about.empty() ? f.about : f.value->figure->subject);
      if (!what) continue;
      const auto asked = find(*what);
      if (!asked) {
        d_.missing("a place for " + what->unicode() + " (" + asked.fault().sentence + ")");
        continue;
      }
      d_.at(f.quantity).symbol.below = what->unicode();
      const quantity::Dimension& has = f.value->unit.dimension();
      if (has == dimension::molar_concentration) {
        tie(f.quantity, *asked, slot + " " + what->unicode());
      } else {
        tie_amount(f, *what, *asked);
      }
    }
  }

  // An amount or a mass is so much in each litre, times the volume. Of what does not form it is nothing.
  void tie_amount(const Filled& f, const chem::Formula& what, const Asked& asked) {
    if (!volume_) return d_.missing("the volume of the solution");
    const std::string name = what.unicode();
    const std::size_t c = d_.hidden(name + " in each litre", Piece::of_symbol("c", name), Kind::molar_concentration);
    tie(c, asked, name);
    std::vector<std::size_t> of{c, volume_->quantity};
    if (f.value->unit.dimension() == dimension::mass) {
      const auto molar_mass = d_.molar_mass(what);
      if (!molar_mass) return;
      of.push_back(*molar_mass);
    }
    d_.ratio("the amount of " + name + " in the solution", f.quantity, of);
    d_.aim(f.quantity);
  }

  void tie(std::size_t quantity, const Asked& asked, const std::string& name) {
    SolutionInputs inputs{put_in_.size(), held_by_figure_, held_, {}};
    std::vector<std::size_t> members{quantity};
    members.insert(members.end(), inputs_.begin(), inputs_.end());
    for (const std::size_t k : constants_that_matter(asked)) {
      inputs.uncertain.push_back(uncertain_[k].constant);
      members.push_back(uncertain_[k].quantity);
    }
    const auto answer = std::make_shared<const SolutionAnswer>(model_, asked, std::move(inputs));
    const LawPtr law = general_law(
        [answer](std::span<const double> x, std::span<double> slope) { return answer->residual(x, slope); });
    const Piece symbol = d_.at(quantity).symbol;
    std::vector<Piece> symbols;
    for (const std::size_t input : inputs_) symbols.push_back(d_.at(input).symbol);
    d_.special("mass action and " + name, std::move(members), law,
               [answer, symbol, symbols, told = asked_](std::size_t wanted, const std::vector<double>& x) {
                 return step(*answer, symbol, symbols, wanted, x, !told);
               });
    d_.slow();
    if (d_.at(quantity).from == Quantity::From::figure) d_.aim(quantity);
    asked_ = true;
  }

  static std::optional<Step> step(const SolutionAnswer& answer, const Piece& symbol, const std::vector<Piece>& symbols,
                                  std::size_t wanted, const std::vector<double>& x, bool say_what_is_there) {
    std::vector<double> in(x.begin() + 1, x.end());
    double value = 0;
    if (wanted == 0) {
      value = answer(in);
    } else {
      const auto found = wanted <= symbols.size() ? answer.solve(x[0], in, wanted - 1) : std::nullopt;
      if (!found) return std::nullopt;
      value = in[wanted - 1] = *found;
    }
    if (!std::isfinite(value)) return std::nullopt;
    const bool is_ph = wanted == 0 ? answer.asked().what == Asked::What::ph : symbols[wanted - 1].text == "pH";
    Line line{wanted == 0 ? symbol : symbols[wanted - 1], Piece::of_sign("="),
              is_ph ? Piece::of_number(quantity::show_at(value, -3))
                    : Piece::of_number(quantity::show_number(value / litres, 4), "mol/L")};
    if (say_what_is_there && answer.asked().what != Asked::What::solubility) {
      if (const auto state = answer.state(in)) {
        line.push_back(Piece::words("  at equilibrium: " + what_is_there(answer.model(), *state)));
      }
    }
    return Step{value, std::move(line)};
  }

  // What is put in as far as it is known, mol/m3 and a held pH; a tenth molar otherwise.
  std::vector<double> usual_inputs() const {
    std::vector<double> in;
    for (std::size_t i = 0; i < inputs_.size(); ++i) {
      const Quantity& q = d_.at(inputs_[i]);
      const auto stated = d_.stated(inputs_[i]);
      const double usual = i < put_in_.size() ? usual_molarity * litres : usual_ph;
      in.push_back(stated ? *stated : q.from == Quantity::From::constant ? q.value : usual);
    }
    return in;
  }

  // The constants behind what is there with what is stated; all that were given.
  void count_constants(const std::optional<Filled>& ph, const std::vector<chem::Formula>& solids) {
    std::vector<double> molarities = usual_inputs();
    molarities.resize(put_in_.size());
    for (double& c : molarities) c /= litres;
    const auto state = model_->settle(molarities, held_by_figure_ ? d_.stated(ph->quantity) : held_);
    if (!state) return;
    if (!state->note.empty()) d_.note(state->note);
    const quantity::Unit one = quantity::Unit::known("1");
    for (ModelConstant& c : model_->constants_behind(*state, solids)) {
      const std::string k = quantity::show_number(std::pow(10, c.log_k), 3);
      const std::size_t quantity = d_.constant("lg K " + c.equation, "lg K of " + c.equation + " (K = " + k + ")",
                                               Piece::of_symbol("lg K"), Kind::other, one, c.log_k, c.spread, c.source);
      if (c.spread > 0) uncertain_.push_back({std::move(c), quantity});
    }
  }

  // Among those that are not certain: the ones that move the answer by more than a trace of what the foremost does.
  std::vector<std::size_t> constants_that_matter(const Asked& asked) const {
    SolutionInputs all{put_in_.size(), held_by_figure_, held_, {}};
    std::vector<double> in = usual_inputs();
    for (const Uncertain& u : uncertain_) {
      all.uncertain.push_back(u.constant);
      in.push_back(u.constant.log_k);
    }
    const SolutionAnswer answer(model_, asked, std::move(all));
    const double here = answer(in);
    std::vector<double> moved;
    for (std::size_t k = 0; k < uncertain_.size(); ++k) {
      double& at = in[inputs_.size() + k];
      at += uncertain_[k].constant.spread;
      moved.push_back(std::fabs(answer(in) - here));
      at -= uncertain_[k].constant.spread;
    }
    std::vector<std::size_t> chosen;
    for (std::size_t k = 0; k < moved.size(); ++k) {
      if (moved[k] > hardly_moved * *std::max_element(moved.begin(), moved.end())) chosen.push_back(k);
    }
    return chosen;
  }

  struct Uncertain {
    ModelConstant constant;
    std::size_t quantity;
  };

  Drafting& d_;
  std::optional<Filled> volume_;
  std::vector<chem::Formula> put_in_;
  std::vector<std::size_t> inputs_;  // strengths, then a held pH
  std::shared_ptr<const MassActionModel> model_;
  std::optional<double> held_;
  bool held_by_figure_ = false;
  std::vector<Uncertain> uncertain_;
  bool asked_ = false;
};

class EquilibriumState final : public RelationKind {
 public:
  std::string_view label() const override { return "equilibrium state"; }
  std::span<const Slot> slots() const override {
    static const std::vector<Slot> slots{
        {"total", "put in", {Kind::molar_concentration, Kind::amount, Kind::mass}, true, true},
        {"volume", "volume of the solution", {Kind::volume}},
        {"pH", "pH", {Kind::pH}},
        {"species", "at equilibrium", {Kind::molar_concentration, Kind::amount, Kind::mass}, true, true},
        {"precipitate", "precipitated", {Kind::molar_concentration, Kind::amount, Kind::mass}, true, true},
        {"solubility", "dissolves", {Kind::molar_concentration, Kind::amount, Kind::mass}, true, true},
    };
    return slots;
  }
  void draft(Drafting& d) const override { EquilibriumDraft(d).run(); }
};

}  // namespace

const RelationKind& equilibrium() {
  static const EquilibriumState kind;
  return kind;
}

}  // namespace sash::workings
