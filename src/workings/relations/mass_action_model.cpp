#include "workings/relations/mass_action_model.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>
#include <utility>

#include "chem/equilibria.h"
#include "support/text.h"
#include "workings/relations/given_constants.h"

namespace sash::workings {
namespace {

constexpr double plenty = 20;        // mol/L of a solid: more than mass action can follow into solution
constexpr double most_soluble = 10;  // mol/L
constexpr double trace = 1e-6;       // of the most plentiful

const chem::Formula& proton() {
  static const chem::Formula formula = *chem::read_formula("H^+");
  return formula;
}

// Ions that only look on in most solutions.
const std::vector<chem::Formula>& onlookers() {
  static const std::vector<chem::Formula> ions = [] {
    std::vector<chem::Formula> read;
    for (const char* ion : {"Na^+", "K^+", "Li^+", "Cl^-", "Br^-", "I^-", "NO3^-", "ClO4^-", "SO4^2-"}) {
      read.push_back(*chem::read_formula(ion));
    }
    return read;
  }();
  return ions;
}

// How many of `ion` the salt of it with an onlooker holds; nothing where `salt` is no such salt.
std::optional<int> ions_in_salt(const chem::Formula& salt, const chem::Formula& ion) {
  if (salt.charge() != 0 || ion.charge() == 0) return std::nullopt;
  const std::string wanted = chem::hill_text(salt.composition(), 0);
  for (const chem::Formula& other : onlookers()) {
    if ((other.charge() > 0) == (ion.charge() > 0)) continue;
    const int common = std::lcm(ion.charge(), other.charge());
    const int ions = common / std::abs(ion.charge());
    chem::Composition sum;
    for (const chem::AtomCount& a : ion.composition()) chem::add_atoms(sum, a.what, a.count * chem::Fraction(ions));
    for (const chem::AtomCount& a : other.composition()) {
      chem::add_atoms(sum, a.what, a.count * chem::Fraction(common / std::abs(other.charge())));
    }
    if (chem::hill_text(sum, 0) == wanted) return ions;
  }
  return std::nullopt;
}

bool holds(const std::vector<chem::Formula>& list, const chem::Formula& formula) {
  return std::any_of(list.begin(), list.end(), [&](const chem::Formula& f) { return f.same_composition(formula); });
}

}  // namespace

MassActionModel::MassActionModel(chem::ChemicalSystem system, bool activities)
    : system_(std::move(system)), activities_(activities) {
  const auto at = system_.find(proton());
  if (at && *at < system_.component_count()) proton_ = *at;
}

Outcome<MassActionModel> MassActionModel::from_tables(const std::vector<chem::Formula>& put_in,
                                                      const std::vector<chem::Formula>& solids, double celsius) {
  std::vector<chem::Formula> components;
  for (const auto* list : {&put_in, &solids}) {
    for (const chem::Formula& substance : *list) {
      const auto parts = chem::in_components(substance);
      if (!parts) return parts.fault();
      for (const chem::ComponentCount& part : *parts) {
        if (!holds(components, part.component)) components.push_back(part.component);
      }
    }
  }
  chem::SystemChoice choice;
  choice.celsius = celsius;
  auto system = chem::system_of(components, choice);
  if (!system) return system.fault();
  MassActionModel model(*std::move(system), true);
  model.celsius_ = celsius;
  if (const auto split = model.split_up(put_in); !split) return split.fault();
  return model;
}

Outcome<MassActionModel> MassActionModel::from_text(std::string_view text, const std::vector<chem::Formula>& put_in) {
  auto given = read_constants(text);
  if (!given) return given.fault();
  auto system = chem::ChemicalSystem::of(given->components);
  if (!system) return system.fault();
  for (const GivenConstant& c : given->constants) {
    if (const auto added = system->add(c.equation, c.log_k); !added) return added.fault();
  }
  MassActionModel model(*std::move(system), false);
  for (const GivenConstant& c : given->constants) {
    model.given_.push_back(
        {model.given_.size(), c.equation.unicode(), c.log_k, c.spread,
         c.stated ? "given with the relation" : "ion product of water at 25 °C, rounded as in textbooks"});
  }
  if (const auto split = model.split_up(put_in); !split) return split.fault();
  return model;
}

Outcome<void> MassActionModel::split_up(const std::vector<chem::Formula>& put_in) {
  for (const chem::Formula& substance : put_in) {
    auto parts = in_components(substance);
    if (!parts) return parts.fault();
    split_.push_back(*std::move(parts));
  }
  return {};
}

Outcome<std::vector<double>> MassActionModel::in_components(const chem::Formula& formula) const {
  if (const auto at = system_.find(formula)) return system_.species()[*at].components;
  if (const auto at = system_.find_solid(formula)) return system_.solids()[*at].components;
  // With activities every ion counts for the ionic strength; with a few given constants a salt may be of one of their
  // ions, whose partner only looks on.
  if (!activities_) {
    for (const chem::DissolvedSpecies& s : system_.species()) {
      const auto ions = ions_in_salt(formula, s.formula);
      if (!ions) continue;
      std::vector<double> components = s.components;
      for (double& c : components) c *= *ions;
      return components;
    }
  }
  const auto parts = chem::in_components(formula);
  if (!parts) return parts.fault();
  std::vector<double> sum(system_.component_count(), 0.0);
  bool any = false;
  for (const chem::ComponentCount& part : *parts) {
    const auto at = system_.find(part.component);
    if (!at) continue;  // looks on, like the sodium of a hydroxide
    any = true;
    const auto& components = system_.species()[*at].components;
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += part.count * components[i];
  }
  if (!any) return Fault::of(Code::not_found, "None of the constants is about " + formula.unicode() + ".");
  return sum;
}

Outcome<Asked> MassActionModel::species(const chem::Formula& formula) const {
  const auto at = system_.find(formula);
  if (!at) return Fault::of(Code::not_found, "No constant leads to " + formula.unicode() + " here.");
  return Asked{Asked::What::species, *at};
}

Outcome<Asked> MassActionModel::solid(const chem::Formula& formula, Asked::What what) const {
  const auto at = system_.find_solid(formula);
  if (!at) return Fault::of(Code::not_found, "No solubility product is known for " + formula.unicode() + " here.");
  return Asked{what, *at};
}

std::vector<double> MassActionModel::totals_of(std::span<const double> molarities) const {
  std::vector<double> totals(system_.component_count(), 0.0);
  for (std::size_t s = 0; s < split_.size(); ++s) {
    for (std::size_t i = 0; i < totals.size(); ++i) totals[i] += split_[s][i] * molarities[s];
  }
  return totals;
}

Outcome<chem::Equilibrium> MassActionModel::settle_totals(std::vector<double> totals,
                                                          std::optional<double> held_ph) const {
  chem::Amounts amounts{std::move(totals), {}};
  if (held_ph && proton_) {
    amounts.fixed.assign(amounts.totals.size(), std::nullopt);
    amounts.fixed[*proton_] = std::pow(10, -*held_ph);
  }
  return chem::equilibrium(system_, amounts, activities_);
}

Outcome<chem::Equilibrium> MassActionModel::settle(std::span<const double> molarities,
                                                   std::optional<double> held_ph) const {
  return settle_totals(totals_of(molarities), held_ph);
}

// With plenty of the solid: what is not left of it is dissolved. Small solubilities are counted up from a part that
// only the solid brings, where there is one.
Outcome<double> MassActionModel::dissolving(const Asked& asked, std::vector<double> totals,
                                            std::optional<double> held_ph) const {
  const std::vector<double> before = totals;
  const auto& parts = system_.solids()[asked.index].components;
  for (std::size_t i = 0; i < totals.size(); ++i) totals[i] += plenty * parts[i];
  const auto state = settle_totals(std::move(totals), held_ph);
  if (!state) return state.fault();
  const double dissolved = plenty - state->solid[asked.index];
  if (dissolved > most_soluble) {
    return Fault::of(Code::out_of_range,
                     system_.solids()[asked.index].formula.unicode() + " dissolves beyond what mass action can say.");
  }
  const auto solids = std::count_if(state->solid.begin(), state->solid.end(), [](double s) { return s > 0; });
  for (std::size_t i = 0; i < parts.size() && solids == 1; ++i) {
    if (i == proton_ || parts[i] <= 0 || before[i] != 0) continue;
    double sum = 0;
    for (std::size_t j = 0; j < state->molarity.size(); ++j) {
      sum += system_.species()[j].components[i] * state->molarity[j];
    }
    return sum / parts[i];
  }
  return dissolved;
}

Outcome<double> MassActionModel::answer(const Asked& asked, std::span<const double> molarities,
                                        std::optional<double> held_ph) const {
  if (asked.what == Asked::What::solubility) return dissolving(asked, totals_of(molarities), held_ph);
  const auto state = settle(molarities, held_ph);
  if (!state) return state.fault();
  switch (asked.what) {
    case Asked::What::ph:
      return -(std::log10(state->molarity[*proton_]) + state->log_activity_coefficient[*proton_]);
    case Asked::What::species:
      return state->molarity[asked.index];
    default:
      return state->solid[asked.index];
  }
}

MassActionModel MassActionModel::shifted(std::span<const double> by) const {
  MassActionModel other = *this;
  other.system_ = system_.shifted(by);
  return other;
}

std::vector<ModelConstant> MassActionModel::constants_behind(const chem::Equilibrium& state,
                                                             const std::vector<chem::Formula>& solids) const {
  if (!given_.empty()) return given_;
  const double most = *std::max_element(state.molarity.begin(), state.molarity.end());
  // A solid and what dissolves of it as such have one formula.
  const auto is_there = [&](const chem::TyingConstant& c) {
    const auto made = c.equation.find(c.made);
    const bool is_solid = made && c.equation.all()[*made].state == std::optional(chem::State::solid);
    if (!is_solid) {
      const auto at = system_.find(c.made);
      return at && state.molarity[*at] > trace * most;
    }
    const auto solid = system_.find_solid(c.made);
    return solid && (state.solid[*solid] > 0 || holds(solids, c.made));
  };
  std::vector<ModelConstant> result;
  for (std::size_t k = 0; k < system_.constants().size(); ++k) {
    const chem::TyingConstant& c = system_.constants()[k];
    if (!is_there(c)) continue;
    std::string source;
    for (const chem::EquilibriumConstant* row : chem::constants_of(c.equation)) {
      if (row->for_solver) source = row->source;
    }
    result.push_back({k, c.equation.unicode(), c.log_k, chem::log_k_spread(system_, k, celsius_), std::move(source)});
  }
  return result;
}

}  // namespace sash::workings
