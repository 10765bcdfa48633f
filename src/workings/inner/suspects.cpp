#include "workings/inner/suspects.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "workings/statistics.h"

namespace sash::workings::inner {
namespace {

constexpr std::size_t tried_exactly = 12;  // candidates solved for again, not only estimated
constexpr std::size_t paired = 8;          // candidates that are tried in pairs
constexpr std::size_t kept = 6;            // suspects reported
constexpr std::size_t small_enough = 400;  // nodes; beyond it the linear estimate has to do
constexpr double no_difference = 1e-6;     // of the statistic: suspects this close cannot be told apart
constexpr double explains_nothing = 1e-9;  // share of a deviate that the constraints explain

// A measured node and how much the statistic would fall if it were unknown.
struct Candidate {
  int node;
  double gain;
  double bias;  // of its coordinate: what has to be added to what was measured
};

std::vector<Candidate> ranked(const Problem& problem, const Solution& s) {
  std::vector<Candidate> result;
  for (std::size_t i = 0; i < problem.nodes.size(); ++i) {
    if (problem.nodes[i].status != Variable::Status::measured || !problem.nodes[i].suspect) continue;
    const int node = static_cast<int>(i);
    const SparseRow direction = s.coordinates.direction(node);
    const double explained = s.redundancy.explained(direction);
    if (explained <= explains_nothing * squared_norm(direction)) continue;
    const double along = dot(direction, s.state.z);
    result.push_back({node, along * along / explained, along / explained});
  }
  std::stable_sort(result.begin(), result.end(), [](const auto& a, const auto& b) { return a.gain > b.gain; });
  return result;
}

double spread_of(const Solution& s, int node, double x) {
  const SparseRow combination = combination_of(s.eliminated, s.coordinates.wanted_column(node));
  const double variance = squared_norm(combination) - s.redundancy.explained(combination);
  return std::fabs(s.coordinates.slope_at(node, x)) * std::sqrt(std::max(variance, 0.0));
}

std::optional<Suspect> without(const Problem& problem, const Solution& s, const std::vector<Candidate>& freed,
                               double level) {
  Problem relaxed = problem;
  std::vector<double> x = s.x;
  for (const Candidate& c : freed) {
    Node& node = relaxed.nodes[static_cast<std::size_t>(c.node)];
    x[static_cast<std::size_t>(c.node)] = s.coordinates.x_of(c.node, s.coordinates.centre(c.node) + c.bias);
    node.status = Variable::Status::unmeasured;
  }
  auto solution = solve_from(relaxed, x);
  if (!solution || solution->end != Solution::End::settled) solution = solve(relaxed);
  if (!solution || solution->end != Solution::End::settled) return std::nullopt;
  Suspect suspect;
  for (const Candidate& c : freed) {
    const int column = solution->coordinates.wanted_column(c.node);
    if (!solution->eliminated.determined[static_cast<std::size_t>(column)]) return std::nullopt;
    const double value = solution->x[static_cast<std::size_t>(c.node)];
    suspect.values.push_back(
        {problem.variables[static_cast<std::size_t>(c.node)], value, spread_of(*solution, c.node, value)});
  }
  suspect.rest = test_of(*solution);
  suspect.settles = !suspect.rest.fails(level);
  return suspect;
}

// The same from the linear estimate alone.
Suspect estimated_without(const Problem& problem, const Solution& s, const Candidate& c, double level) {
  const SparseRow direction = s.coordinates.direction(c.node);
  const double value = s.coordinates.x_of(c.node, s.coordinates.centre(c.node) + c.bias);
  const double variance = 1 / s.redundancy.explained(direction) - squared_norm(s.coordinates.whitening(c.node));
  Suspect suspect;
  suspect.values.push_back({problem.variables[static_cast<std::size_t>(c.node)], value,
                            std::fabs(s.coordinates.slope_at(c.node, value)) * std::sqrt(std::max(variance, 0.0))});
  suspect.rest.statistic = std::max(s.statistic - c.gain, 0.0);
  suspect.rest.freedom = s.freedom() - 1;
  if (suspect.rest.freedom > 0) {
    suspect.rest.probability = chi_square_tail(suspect.rest.statistic, suspect.rest.freedom);
  }
  suspect.settles = !suspect.rest.fails(level);
  return suspect;
}

Suspicion ordered(std::vector<Suspect> suspects, double whole) {
  std::stable_sort(suspects.begin(), suspects.end(),
                   [](const Suspect& a, const Suspect& b) { return a.rest.statistic < b.rest.statistic; });
  Suspicion suspicion;
  for (Suspect& s : suspects) {
    const bool as_good = suspicion.suspects.empty() ||
                         s.rest.statistic - suspicion.suspects.front().rest.statistic <= no_difference * (1 + whole);
    if (as_good) {
      ++suspicion.tied;
    } else if (suspicion.suspects.size() >= kept) {
      break;
    }
    suspicion.suspects.push_back(std::move(s));
  }
  return suspicion;
}

}  // namespace

GlobalTest test_of(const Solution& solution) {
  GlobalTest test{solution.statistic, solution.freedom(), 1};
  if (test.freedom > 0) test.probability = chi_square_tail(test.statistic, test.freedom);
  return test;
}

Suspicion find_suspects(const Problem& problem, const Solution& solution, double level) {
  const std::vector<Candidate> candidates = ranked(problem, solution);
  const bool small = problem.nodes.size() <= small_enough;
  std::vector<Suspect> single;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    if (small && i < tried_exactly) {
      if (auto suspect = without(problem, solution, {candidates[i]}, level)) single.push_back(std::move(*suspect));
    } else if (!small) {
      single.push_back(estimated_without(problem, solution, candidates[i], level));
    }
  }
  Suspicion alone = ordered(std::move(single), solution.statistic);
  const bool one_suffices = !alone.suspects.empty() && alone.suspects.front().settles;
  if (one_suffices || !small || solution.freedom() < 2) return alone;

  std::vector<Suspect> pairs;
  for (std::size_t i = 0; i < std::min(paired, candidates.size()); ++i) {
    for (std::size_t j = i + 1; j < std::min(paired, candidates.size()); ++j) {
      auto suspect = without(problem, solution, {candidates[i], candidates[j]}, level);
      if (suspect && suspect->settles) pairs.push_back(std::move(*suspect));
    }
  }
  return pairs.empty() ? alone : ordered(std::move(pairs), solution.statistic);
}

}  // namespace sash::workings::inner
