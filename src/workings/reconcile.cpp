#include "workings/reconcile.h"

#include <algorithm>
#include <cmath>

#include "workings/inner/problem.h"
#include "workings/inner/solve.h"
#include "workings/inner/suspects.h"
#include "workings/statistics.h"

namespace sash::workings {
namespace {

using inner::Problem;
using inner::Solution;

constexpr double explains_nothing = 1e-9;                           // of a measured variance: less is rounding
constexpr double noticed = 1.959963984540054 + 1.6448536269514722;  // two-sided 5 % test, found in 95 % of cases

// Degrees of freedom of p * z once the constraints have taken their share, where some z have few (Welch-Satterthwaite,
// JCGM 100:2008, G.4.1).
std::optional<double> effective_freedom(const Problem& problem, const Solution& s, const inner::SparseRow& p) {
  if (!problem.few_readings) return {};
  const std::vector<double> parts = s.redundancy.unexplained(p);
  double variance = 0;
  double weighed = 0;
  std::size_t column = 0;  // measured nodes, in their order
  for (const inner::Node& node : problem.nodes) {
    if (node.status != Variable::Status::measured) continue;
    const double part = parts[column++];
    variance += part * part;
    if (node.freedom) weighed += std::pow(part, 4) / *node.freedom;
  }
  if (!(weighed > explains_nothing * variance * variance)) return {};
  return variance * variance / weighed;
}

Estimate measured_estimate(const Problem& problem, const Solution& s, int node) {
  const inner::Node& from = problem.nodes[static_cast<std::size_t>(node)];
  Estimate e;
  const double x = s.x[static_cast<std::size_t>(node)];
  const double slope = std::fabs(s.coordinates.slope_at(node, x));
  const inner::SparseRow& p = s.coordinates.whitening(node);
  const double prior = inner::squared_norm(p);
  const double taken = s.redundancy.explained(p);
  e.value = x;
  e.adjustment = x - from.value;
  e.spread = slope * std::sqrt(std::max(prior - taken, 0.0));
  e.freedom = effective_freedom(problem, s, p);
  const inner::SparseRow direction = s.coordinates.direction(node);
  const double explained = s.redundancy.explained(direction);
  if (explained <= explains_nothing * inner::squared_norm(direction)) {
    e.standing = Standing::unchecked;
    return e;
  }
  e.standing = Standing::redundant;
  e.standardised = inner::dot(direction, s.state.z) / std::sqrt(explained);
  e.noticeable = slope * noticed / std::sqrt(explained);
  return e;
}

Estimate wanted_estimate(const Problem& problem, const Solution& s, int node) {
  Estimate e;
  const int column = s.coordinates.wanted_column(node);
  if (!s.eliminated.determined[static_cast<std::size_t>(column)]) return e;
  const double x = s.x[static_cast<std::size_t>(node)];
  const inner::SparseRow p = inner::combination_of(s.eliminated, column);
  const double variance = inner::squared_norm(p) - s.redundancy.explained(p);
  e.standing = Standing::determined;
  e.value = x;
  e.spread = std::fabs(s.coordinates.slope_at(node, x)) * std::sqrt(std::max(variance, 0.0));
  e.freedom = effective_freedom(problem, s, p);
  return e;
}

std::string name_of(const System& system, const Problem& problem, int equation) {
  if (equation < 0) return "the relations";
  return system.constraints()[problem.constraints[static_cast<std::size_t>(equation)]].name;
}

Fault trouble_of(const System& system, const Problem& problem, const Solution& solution) {
  const std::string where = name_of(system, problem, solution.worst_equation);
  if (solution.end == Solution::End::contradictory) {
    return Fault::of(Code::impossible,
                     "No values can meet " + where + ": everything it rests on is exact, or set by other relations.",
                     where);
  }
  return Fault::of(Code::out_of_range, "No values were found that meet " + where + " together with the others.", where);
}

class Reconciler {
 public:
  Reconciler(const System& system, const ReconcileOptions& options) : system_(system), options_(options) {
    result_.estimates.resize(system.variables().size());
    for (std::size_t i = 0; i < result_.estimates.size(); ++i) {
      const Variable& v = system.variables()[i];
      if (v.status != Variable::Status::constant) continue;
      result_.estimates[i].standing = Standing::exact;
      result_.estimates[i].value = v.value;
    }
  }

  Reconciliation run() {
    for (const Problem& problem : inner::split(system_)) result_.parts.push_back(part_of(problem));
    for (const Part& part : result_.parts) {
      result_.test.statistic += part.test.statistic;
      result_.test.freedom += part.test.freedom;
    }
    if (result_.test.freedom > 0) {
      result_.test.probability = chi_square_tail(result_.test.statistic, result_.test.freedom);
    }
    return std::move(result_);
  }

 private:
  Part part_of(const Problem& problem) {
    Part part{problem.variables, problem.constraints, {}, {}, {}};
    const auto solved = inner::solve(problem);
    if (!solved) {
      part.trouble = solved.fault();
    } else if (solved->end != Solution::End::settled) {
      part.trouble = trouble_of(system_, problem, *solved);
    }
    if (part.trouble) {
      keep_measured(problem);
      return part;
    }
    part.test = inner::test_of(*solved);
    for (std::size_t i = 0; i < problem.nodes.size(); ++i) {
      Estimate& estimate = result_.estimates[problem.variables[i]];
      const int node = static_cast<int>(i);
      switch (problem.nodes[i].status) {
        case Variable::Status::measured:
          estimate = measured_estimate(problem, *solved, node);
          break;
        case Variable::Status::unmeasured:
          estimate = wanted_estimate(problem, *solved, node);
          break;
        case Variable::Status::constant:
          break;
      }
    }
    if (options_.find_suspects && part.test.fails(options_.level)) {
      part.suspicion = inner::find_suspects(problem, *solved, options_.level);
    }
    return part;
  }

  // Where a part could not be reconciled, what was measured stands as it is.
  void keep_measured(const Problem& problem) {
    for (std::size_t i = 0; i < problem.nodes.size(); ++i) {
      if (problem.nodes[i].status != Variable::Status::measured) continue;
      Estimate& estimate = result_.estimates[problem.variables[i]];
      estimate.standing = Standing::unchecked;
      estimate.value = problem.nodes[i].value;
      estimate.spread = problem.nodes[i].spread;
    }
  }

  const System& system_;
  const ReconcileOptions& options_;
  Reconciliation result_;
};

}  // namespace

Outcome<Reconciliation> reconcile(const System& system, const ReconcileOptions& options) {
  if (const Done sound = system.sound(); !sound) return sound.fault();
  return Reconciler(system, options).run();
}

}  // namespace sash::workings
