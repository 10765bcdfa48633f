#include <Eigen/Dense>
#include <algorithm>
#include <cmath>

#include "chem/equilibria.h"

namespace sash::chem {
namespace {

using Eigen::Index;

/// Elements of a substance, plain atoms only; nothing for isotopes and the electron.
std::vector<Nuclide> kinds_in(const Formula& formula) {
  std::vector<Nuclide> kinds;
  for (const AtomCount& a : formula.composition()) kinds.push_back(a.what);
  return kinds;
}

/// Holds carbon and hydrogen both.
bool is_organic(const Formula& formula) {
  static const Formula methane = *read_formula("CH4");
  const auto own = kinds_in(formula);
  return std::all_of(methane.composition().begin(), methane.composition().end(),
                     [&](const AtomCount& a) { return std::find(own.begin(), own.end(), a.what) != own.end(); });
}

bool holds(std::span<const Nuclide> kinds, const Nuclide& what) {
  return std::find(kinds.begin(), kinds.end(), what) != kinds.end();
}

/// Atoms of each kind, then the charge.
Eigen::VectorXd column(const Formula& formula, std::span<const Nuclide> kinds) {
  Eigen::VectorXd v(static_cast<Index>(kinds.size()) + 1);
  for (std::size_t k = 0; k < kinds.size(); ++k) v(static_cast<Index>(k)) = formula.count_of(kinds[k]).number();
  v(v.size() - 1) = formula.charge();
  return v;
}

class Splitter {
 public:
  explicit Splitter(const Formula& substance) : substance_(substance), kinds_(kinds_in(substance)) {
    for (const Formula& f : {water_, proton_}) {
      for (const Nuclide& n : kinds_in(f)) {
        if (!holds(kinds_, n)) kinds_.push_back(n);
      }
    }
    for (const Formula& component : known_components()) {
      const auto own = kinds_in(component);
      const bool fits = std::all_of(own.begin(), own.end(), [&](const Nuclide& n) { return holds(kinds_, n); });
      if (fits && !component.same_composition(proton_)) candidates_.push_back(&component);
    }
  }

  /// The fewest components that make the substance, with whole counts.
  std::optional<std::vector<ComponentCount>> split() const {
    constexpr std::size_t most = 3;
    std::vector<std::size_t> chosen;
    for (std::size_t size = 0; size <= most; ++size) {
      if (auto found = choose(chosen, 0, size)) return found;
    }
    return std::nullopt;
  }

 private:
  std::optional<std::vector<ComponentCount>> choose(std::vector<std::size_t>& chosen, std::size_t from,
                                                    std::size_t left) const {
    if (left == 0) return fit(chosen);
    for (std::size_t i = from; i < candidates_.size(); ++i) {
      chosen.push_back(i);
      auto found = choose(chosen, i + 1, left - 1);
      chosen.pop_back();
      if (found) return found;
    }
    return std::nullopt;
  }

  std::optional<std::vector<ComponentCount>> fit(std::span<const std::size_t> chosen) const {
    Eigen::MatrixXd parts(static_cast<Index>(kinds_.size()) + 1, static_cast<Index>(chosen.size()) + 2);
    parts.col(0) = column(water_, kinds_);
    parts.col(1) = column(proton_, kinds_);
    for (std::size_t i = 0; i < chosen.size(); ++i) {
      parts.col(static_cast<Index>(i) + 2) = column(*candidates_[chosen[i]], kinds_);
    }
    const Eigen::VectorXd whole = column(substance_, kinds_);
    const Eigen::VectorXd counts = parts.colPivHouseholderQr().solve(whole);
    constexpr double close = 1e-9;
    if ((parts * counts - whole).cwiseAbs().maxCoeff() > close) return std::nullopt;
    if (!believable(chosen, counts)) return std::nullopt;
    std::vector<ComponentCount> found;
    const double protons = std::round(counts(1));
    if (std::abs(counts(1) - protons) > close) return std::nullopt;
    if (protons != 0) found.push_back({proton_, protons});
    for (std::size_t i = 0; i < chosen.size(); ++i) {
      const double count = counts(static_cast<Index>(i) + 2);
      if (count < 0.5 || std::abs(count - std::round(count)) > close) return std::nullopt;
      found.push_back({*candidates_[chosen[i]], std::round(count)});
    }
    return found;
  }

  /// Sums of atoms alone would make glucose three molecules of acetic acid, and urea ammonium carbonate.
  bool believable(std::span<const std::size_t> chosen, const Eigen::VectorXd& counts) const {
    if (!is_organic(substance_)) return true;
    if (counts(0) < -0.5) return false;  // an organic molecule that would first have to take up water
    std::size_t organic = 0;
    double largest = 0;
    for (std::size_t i = 0; i < chosen.size(); ++i) {
      if (!is_organic(*candidates_[chosen[i]])) continue;
      ++organic;
      largest = std::max(largest, counts(static_cast<Index>(i) + 2));
    }
    return organic <= 1 && (chosen.size() > 1 || largest < 1.5);
  }

  const Formula& substance_;
  Formula water_ = *read_formula("H2O");
  Formula proton_ = *read_formula("H^+");
  std::vector<Nuclide> kinds_;
  std::vector<const Formula*> candidates_;
};

}  // namespace

Outcome<std::vector<ComponentCount>> in_components(const Formula& substance) {
  if (auto found = Splitter(substance).split()) return *std::move(found);
  return Fault::of(Code::not_found,
                   "No equilibrium constants are tabulated that say what " + substance.unicode() + " becomes in water.",
                   substance.plain());
}

}  // namespace sash::chem
