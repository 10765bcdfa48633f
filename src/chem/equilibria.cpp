#include "chem/equilibria.h"

#include <algorithm>
#include <cmath>

#include "chem/inner/wording.h"

namespace sash::chem {
namespace {

constexpr double most_soluble = 10;  // mol/L

/// Substances split up once; totals follow for any strengths.
class Recipe {
 public:
  /// Fails: as in_components; Code::out_of_range.
  Outcome<void> put(std::span<const Ingredient> ingredients) {
    for (const Ingredient& i : ingredients) {
      if (!(i.molarity >= 0) || !std::isfinite(i.molarity)) {
        return Fault::of(Code::out_of_range,
                         "There cannot be " + inner::shown(i.molarity) + " mol/L of " + i.what.unicode() + ".");
      }
      const auto parts = in_components(i.what);
      if (!parts) return parts.fault();
      for (const ComponentCount& part : *parts) {
        const auto known = std::any_of(components_.begin(), components_.end(),
                                       [&](const Formula& f) { return f.same_composition(part.component); });
        if (!known) components_.push_back(part.component);
      }
      split_.push_back(*parts);
      strengths_.push_back(i.molarity);
    }
    return {};
  }

  std::span<const Formula> components() const { return components_; }

  /// Totals in the system's components, each ingredient's strength times its factor.
  Amounts amounts(const ChemicalSystem& system, std::span<const double> factors) const {
    Amounts a;
    a.totals.assign(system.component_count(), 0.0);
    for (std::size_t i = 0; i < split_.size(); ++i) {
      for (const ComponentCount& part : split_[i]) {
        a.totals[*system.find(part.component)] += part.count * strengths_[i] * factors[i];
      }
    }
    return a;
  }
  Amounts amounts(const ChemicalSystem& system) const {
    return amounts(system, std::vector<double>(split_.size(), 1.0));
  }

 private:
  std::vector<Formula> components_;
  std::vector<std::vector<ComponentCount>> split_;
  std::vector<double> strengths_;
};

double ph_in(const Equilibrium& state) {  // H+ is the first component
  return -(std::log10(state.molarity[0]) + state.log_activity_coefficient[0]);
}

void hold_ph(Amounts& amounts, const MixtureChoice& choice) {
  if (!choice.held_ph) return;
  amounts.fixed.assign(amounts.totals.size(), std::nullopt);
  amounts.fixed[0] = std::pow(10, -*choice.held_ph);
}

std::vector<SpeciesAmount> sorted(std::vector<SpeciesAmount> list) {
  std::stable_sort(list.begin(), list.end(),
                   [](const SpeciesAmount& a, const SpeciesAmount& b) { return a.molarity > b.molarity; });
  return list;
}

Mixed described(ChemicalSystem system, Equilibrium state) {
  std::vector<SpeciesAmount> dissolved, solids;
  for (std::size_t j = 0; j < state.molarity.size(); ++j) {
    if (state.molarity[j] > 0) dissolved.push_back({system.species()[j].formula, state.molarity[j]});
  }
  for (std::size_t s = 0; s < state.solid.size(); ++s) {
    if (state.solid[s] > 0) solids.push_back({system.solids()[s].formula, state.solid[s]});
  }
  const double ph = ph_in(state);
  std::string note = state.note;
  return {std::move(system),         std::move(state), ph, sorted(std::move(dissolved)),
          sorted(std::move(solids)), std::move(note)};
}

}  // namespace

Outcome<Mixed> equilibrate(std::span<const Ingredient> ingredients, const MixtureChoice& choice) {
  Recipe recipe;
  if (const auto put = recipe.put(ingredients); !put) return put.fault();
  auto system = system_of(recipe.components(), choice.system);
  if (!system) return system.fault();
  Amounts amounts = recipe.amounts(*system);
  hold_ph(amounts, choice);
  auto state = equilibrium(*system, amounts, choice.activities);
  if (!state) return state.fault();
  return described(*std::move(system), *std::move(state));
}

Outcome<double> ph_of(std::span<const Ingredient> ingredients, const MixtureChoice& choice) {
  const auto mixed = equilibrate(ingredients, choice);
  if (!mixed) return mixed.fault();
  return mixed->ph;
}

Outcome<double> solubility(const Formula& solid, std::span<const Ingredient> medium, const MixtureChoice& choice) {
  Recipe recipe;
  if (const auto put = recipe.put(medium); !put) return put.fault();
  const Ingredient plenty{solid, 2 * most_soluble};
  if (const auto put = recipe.put({&plenty, 1}); !put) return put.fault();
  const auto system = system_of(recipe.components(), choice.system);
  if (!system) return system.fault();
  const auto at = system->find_solid(solid);
  if (!at) {
    return Fault::of(Code::not_found, "No solubility product is tabulated for " + solid.unicode() + ".", solid.plain());
  }
  Amounts amounts = recipe.amounts(*system);
  std::vector<double> without(medium.size(), 1.0);
  without.push_back(0);
  const Amounts before = recipe.amounts(*system, without);
  hold_ph(amounts, choice);
  const auto state = equilibrium(*system, amounts, choice.activities);
  if (!state) return state.fault();
  const double dissolved = plenty.molarity - state->solid[*at];
  if (dissolved > most_soluble) {
    return Fault::of(Code::out_of_range, solid.unicode() + " dissolves to more than " + inner::shown(most_soluble) +
                                             " mol/L, beyond what mass action can say.");
  }
  // Small solubilities are counted up from what is dissolved of a part that only the solid brings.
  const auto& parts = system->solids()[*at].components;
  for (std::size_t i = 1; i < parts.size(); ++i) {
    if (parts[i] <= 0 || before.totals[i] != 0) continue;
    double sum = 0;
    for (std::size_t j = 0; j < state->molarity.size(); ++j) {
      sum += system->species()[j].components[i] * state->molarity[j];
    }
    const bool shared = std::count_if(state->solid.begin(), state->solid.end(), [](double s) { return s > 0; }) > 1;
    if (!shared) return sum / parts[i];
  }
  return dissolved;
}

Outcome<Sweep> sweep(std::span<const Ingredient> solution, double litres, std::span<const Ingredient> reagent,
                     std::span<const double> added, const MixtureChoice& choice) {
  if (!(litres > 0) || !std::isfinite(litres)) {
    return Fault::of(Code::out_of_range, "The volume of the solution must be above 0.");
  }
  Recipe recipe;
  if (const auto put = recipe.put(solution); !put) return put.fault();
  if (const auto put = recipe.put(reagent); !put) return put.fault();
  auto system = system_of(recipe.components(), choice.system);
  if (!system) return system.fault();
  Sweep result{*std::move(system), {}};
  for (const double volume : added) {
    if (!(volume >= 0) || !std::isfinite(volume)) {
      return Fault::of(Code::out_of_range, "The volume run in must be 0 or above.");
    }
    SweepPoint point;
    point.added = volume;
    point.litres = litres + volume;
    std::vector<double> factors(solution.size(), litres / point.litres);
    factors.resize(solution.size() + reagent.size(), volume / point.litres);
    Amounts amounts = recipe.amounts(result.system, factors);
    hold_ph(amounts, choice);
    auto state = equilibrium(result.system, amounts, choice.activities);
    if (!state) return state.fault();
    point.ph = ph_in(*state);
    point.state = *std::move(state);
    result.points.push_back(std::move(point));
  }
  return result;
}

}  // namespace sash::chem
