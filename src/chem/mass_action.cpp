#include "chem/mass_action.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>

#include "chem/balance.h"
#include "chem/inner/convex_equilibrium.h"
#include "chem/inner/wording.h"
#include "support/check.h"

namespace sash::chem {
namespace {

constexpr double ln10 = std::numbers::ln10;

bool is_solvent(const Formula& formula) {
  static const Formula water = *read_formula("H2O");
  return formula.same_composition(water);
}

void add_times(std::vector<double>& to, double times, const std::vector<double>& what) {
  for (std::size_t i = 0; i < std::min(to.size(), what.size()); ++i) to[i] += times * what[i];
}

bool is_zero(const std::vector<double>& row) {
  return std::all_of(row.begin(), row.end(), [](double v) { return std::abs(v) < 1e-9; });
}

double signed_count(const Equation& equation, std::size_t i) {
  const double count = equation.all()[i].coefficient.value_or(Fraction(1)).number();
  return equation.on_left(i) ? -count : count;
}

/// log10 of the Davies activity coefficient of an ion of this charge. Beyond 0.5 mol/L its value there is kept.
double davies(int charge, double ionic_strength) {
  constexpr double a = 0.509;
  const double root = std::sqrt(ionic_strength);
  return -a * charge * charge * (root / (1 + root) - 0.3 * ionic_strength);
}
constexpr double davies_limit = 0.5;

}  // namespace

Outcome<ChemicalSystem> ChemicalSystem::of(std::span<const Formula> components) {
  ChemicalSystem system;
  system.component_count_ = components.size();
  for (std::size_t i = 0; i < components.size(); ++i) {
    if (is_solvent(components[i]) || system.find(components[i])) {
      return Fault::of(Code::wrong_use,
                       components[i].unicode() + " cannot be a component here: it is water or given twice.",
                       components[i].plain());
    }
    std::vector<double> row(components.size(), 0.0);
    row[i] = 1;
    system.species_.push_back({components[i], std::move(row), 0});
  }
  return system;
}

std::optional<std::size_t> ChemicalSystem::find(const Formula& formula) const {
  const auto at = std::find_if(species_.begin(), species_.end(),
                               [&](const DissolvedSpecies& s) { return s.formula.same_composition(formula); });
  if (at == species_.end()) return std::nullopt;
  return static_cast<std::size_t>(at - species_.begin());
}

std::optional<std::size_t> ChemicalSystem::find_solid(const Formula& formula) const {
  const auto at = std::find_if(solids_.begin(), solids_.end(),
                               [&](const FormingSolid& s) { return s.formula.same_composition(formula); });
  if (at == solids_.end()) return std::nullopt;
  return static_cast<std::size_t>(at - solids_.begin());
}

Outcome<void> ChemicalSystem::add(std::string_view equation, double log_k) {
  const auto read = read_equation(equation);
  if (!read) return read.fault();
  return add(*read, log_k);
}

Outcome<void> ChemicalSystem::add(const Equation& equation, double log_k) {
  std::optional<std::size_t> fresh;
  std::vector<double> sum(component_count_, 0.0);
  double log_sum = log_k;  // of the new species times its count
  std::vector<double> rests_on(constants_.size() + 1, 0.0);
  rests_on.back() = 1;
  const Fault wrong =
      Fault::of(Code::wrong_use, "Exactly one species of " + equation.unicode() + " must be new to the system.",
                equation.plain());
  for (std::size_t i = 0; i < equation.all().size(); ++i) {
    const Species& s = equation.all()[i];
    if (is_solvent(s.formula)) continue;
    const auto known = s.state == State::solid ? std::nullopt : find(s.formula);
    if (!known) {
      if (fresh) return wrong;
      fresh = i;
      continue;
    }
    // K = product of activities to their counts, so log c_new * n = log K - sum of the others.
    const double count = signed_count(equation, i);
    add_times(sum, -count, species_[*known].components);
    log_sum -= count * species_[*known].log_beta;
    add_times(rests_on, -count, species_[*known].rests_on);
  }
  if (!fresh) return wrong;
  if (const auto checked = verify(equation); !checked || !checked->balanced) {
    return Fault::of(Code::impossible, equation.unicode() + " is not balanced.", equation.plain());
  }
  const double count = signed_count(equation, *fresh);
  const Species& made = equation.all()[*fresh];
  for (double& part : sum) part /= count;
  for (double& part : rests_on) part /= made.state == State::solid ? -count : count;
  constants_.push_back({equation, log_k, made.formula});
  if (made.state == State::solid) {
    // Its own activity is 1: the product of the components at saturation is what K leaves.
    solids_.push_back({made.formula, std::move(sum), -log_sum / count, std::move(rests_on)});
  } else {
    species_.push_back({made.formula, std::move(sum), log_sum / count, std::move(rests_on)});
  }
  return {};
}

ChemicalSystem ChemicalSystem::shifted(std::span<const double> by) const {
  promise(by.size() == constants_.size(), "each constant has its shift");
  const auto moved = [by](const std::vector<double>& rests_on) {
    return std::inner_product(rests_on.begin(), rests_on.end(), by.begin(), 0.0);
  };
  ChemicalSystem other = *this;
  for (DissolvedSpecies& s : other.species_) s.log_beta += moved(s.rests_on);
  for (FormingSolid& s : other.solids_) s.log_solubility += moved(s.rests_on);
  for (std::size_t k = 0; k < by.size(); ++k) other.constants_[k].log_k += by[k];
  return other;
}

Outcome<double> ChemicalSystem::log_k(const Equation& equation) const {
  std::vector<double> sum(component_count_, 0.0);
  double log_k = 0;
  for (std::size_t i = 0; i < equation.all().size(); ++i) {
    const Species& s = equation.all()[i];
    if (is_solvent(s.formula)) continue;
    const double count = signed_count(equation, i);
    if (s.state == State::solid) {
      const auto at = find_solid(s.formula);
      if (!at) return Fault::of(Code::not_found, "The solid " + s.formula.unicode() + " is not in the system.");
      add_times(sum, count, solids_[*at].components);
      log_k -= count * solids_[*at].log_solubility;
      continue;
    }
    const auto at = find(s.formula);
    if (!at) return Fault::of(Code::not_found, s.formula.unicode() + " is not in the system.");
    add_times(sum, count, species_[*at].components);
    log_k += count * species_[*at].log_beta;
  }
  if (!is_zero(sum)) return Fault::of(Code::impossible, equation.unicode() + " is not balanced.", equation.plain());
  return log_k;
}

namespace {

/// The part of a system that can be there: components without a total, and all made of them, are left out.
struct Reduced {
  std::vector<std::size_t> components, species, solids;
};

Reduced reduce(const ChemicalSystem& system, const Amounts& amounts) {
  const std::size_t n = system.component_count();
  std::vector<bool> absent(n, false);
  for (std::size_t i = 0; i < n; ++i) {
    const bool fixed = i < amounts.fixed.size() && amounts.fixed[i];
    const bool can_be_negative = std::any_of(system.species().begin(), system.species().end(),
                                             [&](const DissolvedSpecies& s) { return s.components[i] < 0; });
    absent[i] = !fixed && amounts.totals[i] == 0 && !can_be_negative;
  }
  const auto there = [&](const std::vector<double>& parts) {
    for (std::size_t i = 0; i < n; ++i) {
      if (absent[i] && parts[i] != 0) return false;
    }
    return true;
  };
  Reduced r;
  for (std::size_t i = 0; i < n; ++i) {
    if (!absent[i]) r.components.push_back(i);
  }
  for (std::size_t j = 0; j < system.species().size(); ++j) {
    if (there(system.species()[j].components)) r.species.push_back(j);
  }
  for (std::size_t s = 0; s < system.solids().size(); ++s) {
    if (there(system.solids()[s].components)) r.solids.push_back(s);
  }
  return r;
}

std::optional<Fault> check(const ChemicalSystem& system, const Amounts& amounts) {
  promise(amounts.totals.size() == system.component_count(), "a total is given for each component");
  for (std::size_t i = 0; i < amounts.totals.size(); ++i) {
    const std::string name = system.species()[i].formula.unicode();
    if (!std::isfinite(amounts.totals[i]))
      return Fault::of(Code::not_finite, "The total of " + name + " is no number.");
    if (i < amounts.fixed.size() && amounts.fixed[i]) {
      if (!(*amounts.fixed[i] > 0) || !std::isfinite(*amounts.fixed[i])) {
        return Fault::of(Code::out_of_range, "The concentration of " + name + " must be above 0 to be held.");
      }
      continue;
    }
    const bool can_be_negative = std::any_of(system.species().begin(), system.species().end(),
                                             [&](const DissolvedSpecies& s) { return s.components[i] < 0; });
    if (amounts.totals[i] < 0 && !can_be_negative) {
      return Fault::of(Code::impossible, "There cannot be less than no " + name + ".", name);
    }
  }
  return std::nullopt;
}

class Run {
 public:
  Run(const ChemicalSystem& system, const Amounts& amounts)
      : system_(system), part_(reduce(system, amounts)), gamma_(system.species().size(), 0.0) {
    const auto n = static_cast<Eigen::Index>(part_.components.size());
    problem_.species = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(part_.species.size()), n);
    problem_.solids = Eigen::MatrixXd::Zero(static_cast<Eigen::Index>(part_.solids.size()), n);
    problem_.totals = Eigen::VectorXd::Zero(n);
    for (Eigen::Index i = 0; i < n; ++i) {
      const std::size_t c = part_.components[static_cast<std::size_t>(i)];
      for (std::size_t j = 0; j < part_.species.size(); ++j) {
        problem_.species(static_cast<Eigen::Index>(j), i) = system.species()[part_.species[j]].components[c];
      }
      for (std::size_t s = 0; s < part_.solids.size(); ++s) {
        problem_.solids(static_cast<Eigen::Index>(s), i) = system.solids()[part_.solids[s]].components[c];
      }
      const bool held = c < amounts.fixed.size() && amounts.fixed[c];
      problem_.fixed.push_back(held ? std::optional(std::log(*amounts.fixed[c])) : std::nullopt);
      problem_.totals(i) = held ? 0 : amounts.totals[c];
    }
  }

  bool solve() {
    constants();
    answer_ = inner::solve(problem_, answer_.x);
    steps_ += answer_.steps;
    return answer_.settled;
  }

  double ionic_strength() const {
    const Eigen::VectorXd c = concentrations();
    double sum = 0;
    for (std::size_t j = 0; j < part_.species.size(); ++j) {
      const int z = system_.species()[part_.species[j]].formula.charge();
      sum += 0.5 * z * z * c(static_cast<Eigen::Index>(j));
    }
    return sum;
  }

  void set_activities(double ionic_strength) {
    for (const std::size_t j : part_.species) {
      gamma_[j] = davies(system_.species()[j].formula.charge(), std::min(ionic_strength, davies_limit));
    }
  }

  Equilibrium result() const {
    Equilibrium e;
    e.molarity.assign(system_.species().size(), 0.0);
    e.solid.assign(system_.solids().size(), 0.0);
    e.log_saturation.assign(system_.solids().size(), -std::numeric_limits<double>::infinity());
    const Eigen::VectorXd c = concentrations();
    for (std::size_t j = 0; j < part_.species.size(); ++j)
      e.molarity[part_.species[j]] = c(static_cast<Eigen::Index>(j));
    const Eigen::VectorXd over = problem_.solids * answer_.x - problem_.ln_solubility;
    for (std::size_t s = 0; s < part_.solids.size(); ++s) {
      e.solid[part_.solids[s]] = answer_.solids(static_cast<Eigen::Index>(s));
      e.log_saturation[part_.solids[s]] = over(static_cast<Eigen::Index>(s)) / ln10;
    }
    e.log_activity_coefficient = gamma_;
    e.ionic_strength = ionic_strength();
    e.steps = steps_;
    return e;
  }

 private:
  /// Constants in terms of concentrations: the activity coefficients go into them.
  void constants() {
    const auto shift = [&](const std::vector<double>& parts) {
      double sum = 0;
      for (std::size_t i = 0; i < parts.size(); ++i) sum += parts[i] * gamma_[i];  // components are the first species
      return sum;
    };
    problem_.ln_beta = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(part_.species.size()));
    for (std::size_t j = 0; j < part_.species.size(); ++j) {
      const DissolvedSpecies& s = system_.species()[part_.species[j]];
      problem_.ln_beta(static_cast<Eigen::Index>(j)) =
          ln10 * (s.log_beta + shift(s.components) - gamma_[part_.species[j]]);
    }
    problem_.ln_solubility = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(part_.solids.size()));
    for (std::size_t s = 0; s < part_.solids.size(); ++s) {
      const FormingSolid& solid = system_.solids()[part_.solids[s]];
      problem_.ln_solubility(static_cast<Eigen::Index>(s)) = ln10 * (solid.log_solubility - shift(solid.components));
    }
  }
  Eigen::VectorXd concentrations() const { return (problem_.ln_beta + problem_.species * answer_.x).array().exp(); }

  const ChemicalSystem& system_;
  Reduced part_;
  inner::ConvexEquilibrium problem_;
  inner::ConvexAnswer answer_;
  std::vector<double> gamma_;  // log10, of all species
  int steps_ = 0;
};

}  // namespace

Outcome<Equilibrium> equilibrium(const ChemicalSystem& system, const Amounts& amounts, bool activities) {
  if (auto fault = check(system, amounts)) return *std::move(fault);
  const Fault unsettled = Fault::of(
      Code::unsupported, "The equilibrium does not settle; an amount may be far outside what a solution can hold.");
  Run run(system, amounts);
  if (!run.solve()) return unsettled;
  if (!activities) return run.result();
  double strength = run.ionic_strength();
  constexpr int most_rounds = 100;
  constexpr double close = 1e-10;
  bool settled = false;
  for (int i = 0; i < most_rounds && !settled; ++i) {
    run.set_activities(strength);
    if (!run.solve()) return unsettled;
    const double next = run.ionic_strength();
    settled = std::abs(next - strength) <= close * (next + strength);
    // Halfway keeps the rounds from swinging where activity and dissolution drive each other.
    strength = i < 5 ? next : (strength + next) / 2;
  }
  if (!settled) return unsettled;
  Equilibrium result = run.result();
  if (result.ionic_strength > davies_limit) {
    result.note = "The ionic strength of " + inner::shown(std::round(100 * result.ionic_strength) / 100) +
                  " mol/L is beyond the 0.5 mol/L the Davies equation is good for.";
  }
  return result;
}

}  // namespace sash::chem
