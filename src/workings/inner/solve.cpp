#include "workings/inner/solve.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "workings/inner/start.h"

namespace sash::workings::inner {
namespace {

constexpr int most_rounds = 80;
constexpr double step_done = 1e-10;      // of a standard deviation, or relative for a wanted variable
constexpr double equations_met = 1e-10;  // relative to the size of the terms of an equation
constexpr double unnoticed = 1e-13;      // likewise: a step of a value near zero that no equation notices
constexpr double met_by_far = 1e-7;      // good enough for a search that can go no further
constexpr double longest_log_step = 3;   // a factor of twenty in one step
constexpr double shortest_rest = 0.1;    // of a positive value in one step

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// Residuals at a point, each relative to the size of its equation's terms.
struct Misfit {
  std::vector<double> residual;
  std::vector<double> size;  // of the terms of each equation
  std::vector<double> relative;
  std::vector<std::vector<double>> slopes;  // by equation and member, over the size
  double worst = 0;
  int worst_equation = -1;
  bool meaningful = true;

  // Sum of residuals in units of `sizes`: two points compare only in the same units.
  double sum(const std::vector<double>& sizes) const {
    double total = 0;
    for (std::size_t e = 0; e < residual.size(); ++e) total += std::fabs(residual[e]) / sizes[e];
    return total;
  }
};

double equation_size(const Problem& problem, const Equation& eq, const std::vector<double>& values,
                     const std::vector<double>& slope) {
  double size = 0;
  double fallback = 0;
  for (std::size_t m = 0; m < values.size(); ++m) {
    size += std::fabs(slope[m] * values[m]);
    fallback += std::fabs(slope[m]) * std::max(problem.nodes[at(eq.members[m])].spread, 1e-12);
  }
  if (size > 0) return size;
  return fallback > 0 ? fallback : 1;
}

Misfit misfit_at(const Problem& problem, const std::vector<double>& x) {
  const std::size_t n = problem.equations.size();
  Misfit misfit{std::vector<double>(n), std::vector<double>(n), std::vector<double>(n),
                std::vector<std::vector<double>>(n)};
  std::vector<double> values;
  for (std::size_t e = 0; e < n; ++e) {
    const Equation& eq = problem.equations[e];
    values.clear();
    for (const int member : eq.members) values.push_back(x[at(member)]);
    std::vector<double>& slope = misfit.slopes[e];
    slope.assign(values.size(), 0);
    const double residual = eq.law->residual(values, slope);
    const double size = equation_size(problem, eq, values, slope);
    bool finite = std::isfinite(residual) && std::isfinite(size);
    for (double& s : slope) {
      s /= size;
      finite = finite && std::isfinite(s);
    }
    if (!finite) {
      misfit.meaningful = false;
      misfit.worst_equation = static_cast<int>(e);
      return misfit;
    }
    misfit.residual[e] = residual;
    misfit.size[e] = size;
    misfit.relative[e] = residual / size;
    const double magnitude = std::fabs(misfit.relative[e]);
    if (misfit.worst_equation < 0 || magnitude > misfit.worst) {
      misfit.worst = magnitude;
      misfit.worst_equation = static_cast<int>(e);
    }
  }
  return misfit;
}

std::vector<LinearRow> linearise(const Problem& problem, const Coordinates& c, const std::vector<double>& x,
                                 const State& state, const Misfit& misfit) {
  std::vector<LinearRow> rows(problem.equations.size());
  for (std::size_t e = 0; e < rows.size(); ++e) {
    LinearRow& row = rows[e];
    row.origin = static_cast<int>(e);
    const auto& members = problem.equations[e].members;
    for (std::size_t m = 0; m < members.size(); ++m) {
      const int node = members[m];
      const double slope = misfit.slopes[e][m] * c.slope_at(node, x[at(node)]);
      if (slope == 0) continue;
      if (c.is_wanted(node)) {
        add_to(row.wanted, c.wanted_column(node), slope);
      } else {
        for (const Entry& w : c.whitening(node)) add_to(row.measured, w.column, slope * w.value);
      }
    }
    row.right = -misfit.relative[e] + dot(row.measured, state.z);
  }
  return rows;
}

double squared(const std::vector<double>& v) {
  double sum = 0;
  for (const double a : v) sum += a * a;
  return sum;
}

class Search {
 public:
  Search(const Problem& problem, Solution& solution) : problem_(problem), s_(solution), places_(problem.nodes.size()) {
    for (std::size_t e = 0; e < problem.equations.size(); ++e) {
      const auto& members = problem.equations[e].members;
      for (std::size_t m = 0; m < members.size(); ++m) {
        const Node& node = problem.nodes[at(members[m])];
        const bool plain = node.status == Variable::Status::unmeasured && node.scale == Scale::plain;
        if (plain) places_[at(members[m])].push_back({e, m});
      }
    }
  }

  void run() {
    s_.x = s_.coordinates.values(s_.state);
    misfit_ = misfit_at(problem_, s_.x);
    for (int round = 0; round < most_rounds; ++round) {
      if (!misfit_.meaningful) return end(Solution::End::lost);
      linear_step();
      const bool met = misfit_.worst <= equations_met;
      if (step_size_ <= step_done && met) return end(Solution::End::settled);
      if (step_size_ <= step_done && round > 0) break;
      if (!advance()) break;
    }
    if (!misfit_.meaningful) return end(Solution::End::lost);
    if (misfit_.worst <= met_by_far && step_size_ <= 1e-3) return end(Solution::End::settled);
    end(step_size_ <= 1e-6 ? Solution::End::contradictory : Solution::End::lost);
  }

 private:
  void end(Solution::End how) {
    s_.end = how;
    s_.worst_equation = misfit_.worst_equation;
    s_.statistic = squared(s_.state.z);
  }

  void linear_step() {
    auto rows = linearise(problem_, s_.coordinates, s_.x, s_.state, misfit_);
    s_.eliminated = eliminate(std::move(rows), s_.coordinates.wanted_columns());
    s_.redundancy = Redundancy(s_.eliminated.reduced, s_.coordinates.measured_columns());
    step_.z = s_.redundancy.least();
    step_.w = back_substitute(s_.eliminated, step_.z);
    step_size_ = 0;
    const double scale = 1 + std::sqrt(squared(s_.state.z));
    for (std::size_t i = 0; i < step_.z.size(); ++i) {
      step_.z[i] -= s_.state.z[i];
      step_size_ = std::max(step_size_, std::fabs(step_.z[i]) / scale);
    }
    for (std::size_t i = 0; i < problem_.nodes.size(); ++i) {
      const int node = static_cast<int>(i);
      if (!s_.coordinates.is_wanted(node)) continue;
      const double w = step_.w[at(s_.coordinates.wanted_column(node))];
      const bool plain = problem_.nodes[i].scale == Scale::plain;
      const double size = plain ? std::fabs(s_.x[i]) : 1;
      const double by = std::fabs(w) / std::max(size, std::numeric_limits<double>::min());
      if (by <= step_size_ || (plain && noticed(i, w) <= unnoticed)) continue;
      step_size_ = by;
    }
  }

  // By how much, relatively, a step of a value changes the equations it stands in.
  double noticed(std::size_t node, double step) const {
    double most = 0;
    for (const auto& [e, m] : places_[node]) most = std::max(most, std::fabs(misfit_.slopes[e][m] * step));
    return most;
  }

  // How much of the step keeps logarithms in reach and positive values positive.
  double longest() const {
    double share = 1;
    for (std::size_t i = 0; i < problem_.nodes.size(); ++i) {
      const int node = static_cast<int>(i);
      const Node& n = problem_.nodes[i];
      if (n.status == Variable::Status::constant) continue;
      const double move = s_.coordinates.is_wanted(node) ? step_.w[at(s_.coordinates.wanted_column(node))]
                                                         : dot(s_.coordinates.whitening(node), step_.z);
      if (n.scale == Scale::logarithmic) {
        if (std::fabs(move) > longest_log_step) share = std::min(share, longest_log_step / std::fabs(move));
      } else if (n.positive && s_.x[i] > 0 && -move > (1 - shortest_rest) * s_.x[i]) {
        share = std::min(share, (1 - shortest_rest) * s_.x[i] / -move);
      }
    }
    return share;
  }

  // Moves along the step as far as the merit function falls. False when it cannot move.
  bool advance() {
    double along = 0;
    for (std::size_t i = 0; i < step_.z.size(); ++i) along += s_.state.z[i] * step_.z[i];
    const std::vector<double> sizes = misfit_.size;
    const double unmet = misfit_.sum(sizes);
    double penalty = 1;
    if (unmet > 0) penalty = std::max(penalty, (2 * along + squared(step_.z)) / unmet);
    const auto merit = [&](const State& state, const Misfit& misfit) {
      return squared(state.z) / 2 + penalty * misfit.sum(sizes);
    };
    const double before = merit(s_.state, misfit_);
    const double promised = along - penalty * unmet;
    double share = longest();
    for (int halves = 0; halves < 40; ++halves, share /= 2) {
      State next = s_.state;
      for (std::size_t i = 0; i < next.z.size(); ++i) next.z[i] += share * step_.z[i];
      for (std::size_t i = 0; i < next.w.size(); ++i) next.w[i] += share * step_.w[i];
      std::vector<double> x = s_.coordinates.values(next);
      Misfit misfit = misfit_at(problem_, x);
      if (!misfit.meaningful) continue;
      const bool falls = merit(next, misfit) <= before + 1e-4 * share * promised + 1e-12 * (1 + std::fabs(before));
      if (!falls) continue;
      s_.state = std::move(next);
      s_.x = std::move(x);
      misfit_ = std::move(misfit);
      return true;
    }
    return false;
  }

  const Problem& problem_;
  Solution& s_;
  std::vector<std::vector<std::pair<std::size_t, std::size_t>>> places_;  // of plain unknowns: equation, member
  Misfit misfit_;
  State step_;
  double step_size_ = 0;
};

Outcome<Solution> solve_in(const Problem& problem, const std::vector<double>* from) {
  auto coordinates = Coordinates::of(problem);
  if (!coordinates) return coordinates.fault();
  Solution solution;
  solution.coordinates = std::move(*coordinates);
  solution.state.z.assign(static_cast<std::size_t>(solution.coordinates.measured_columns()), 0);
  solution.state.w.assign(static_cast<std::size_t>(solution.coordinates.wanted_columns()), 0);
  solution.coordinates.place(solution.state, from ? *from : starting_values(problem, solution.coordinates));
  Search(problem, solution).run();
  return solution;
}

// The same problem with every positive value adjusted by a factor instead of a difference.
Problem in_logarithms(Problem problem) {
  for (Node& node : problem.nodes) {
    const bool has_value = node.status == Variable::Status::measured || node.has_start;
    if (node.positive && (!has_value || node.value > 0)) node.scale = Scale::logarithmic;
  }
  return problem;
}

// The same problem with every wanted value sought by differences.
Problem in_differences(Problem problem) {
  for (Node& node : problem.nodes) {
    if (node.status == Variable::Status::unmeasured) node.scale = Scale::plain;
  }
  return problem;
}

bool settled_with_meaning(const Problem& problem, const Outcome<Solution>& solution) {
  if (!solution || solution->end != Solution::End::settled) return false;
  for (std::size_t i = 0; i < problem.nodes.size(); ++i) {
    if (problem.nodes[i].positive && !(solution->x[i] > 0)) return false;
  }
  return true;
}

Outcome<Solution> solve_stubbornly(const Problem& problem, const std::vector<double>* from) {
  auto solution = solve_in(problem, from);
  if (!solution || solution->end == Solution::End::settled) return solution;
  // Where figures are far apart a difference can lead through zero; factors cannot. Where unknowns only add, a sum is
  // solved in one step by differences, from anywhere.
  for (const auto& variant : {in_logarithms(problem), in_differences(problem)}) {
    auto again = solve_in(variant, from);
    if (settled_with_meaning(problem, again)) return again;
  }
  return solution;
}

}  // namespace

Outcome<Solution> solve(const Problem& problem) { return solve_stubbornly(problem, nullptr); }

Outcome<Solution> solve_from(const Problem& problem, const std::vector<double>& x) {
  return solve_stubbornly(problem, &x);
}

}  // namespace sash::workings::inner
