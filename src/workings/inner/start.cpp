#include "workings/inner/start.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <optional>

namespace sash::workings::inner {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

class Propagation {
 public:
  Propagation(const Problem& problem, const Coordinates& coordinates)
      : problem_(problem),
        coordinates_(coordinates),
        x_(problem.nodes.size(), 0),
        known_(problem.nodes.size(), false),
        unknowns_(problem.equations.size(), 0),
        equations_of_(problem.nodes.size()) {
    for (std::size_t i = 0; i < x_.size(); ++i) {
      const Node& node = problem.nodes[i];
      known_[i] = node.status != Variable::Status::unmeasured;
      x_[i] = known_[i] || node.has_start ? node.value : (node.scale == Scale::logarithmic ? 1 : 0);
    }
    for (std::size_t e = 0; e < problem.equations.size(); ++e) {
      for (const int m : problem.equations[e].members) {
        if (known_[at(m)]) continue;
        ++unknowns_[e];
        equations_of_[at(m)].push_back(static_cast<int>(e));
      }
      if (unknowns_[e] == 1) ready_.push_back(static_cast<int>(e));
    }
  }

  std::vector<double> run() {
    spread_out();
    for (std::size_t i = 0; i < x_.size(); ++i) {
      if (known_[i]) continue;  // hints first: they were given for a reason
      if (problem_.nodes[i].has_start) settle(static_cast<int>(i));
    }
    for (std::size_t i = 0; i < x_.size(); ++i) {
      if (known_[i]) continue;
      settle(static_cast<int>(i));
    }
    return std::move(x_);
  }

 private:
  void settle(int node) {
    know(node);
    spread_out();
  }

  void know(int node) {
    known_[at(node)] = true;
    for (const int e : equations_of_[at(node)]) {
      if (--unknowns_[at(e)] == 1) ready_.push_back(e);
    }
  }

  void spread_out() {
    while (!ready_.empty()) {
      const int e = ready_.front();
      ready_.pop_front();
      const auto& members = problem_.equations[at(e)].members;
      const auto it = std::find_if(members.begin(), members.end(), [&](int m) { return !known_[at(m)]; });
      if (it == members.end()) continue;
      if (const auto found = solve_for(e, *it)) {
        x_[at(*it)] = *found;
        know(*it);
      }
    }
  }

  // Newton along one coordinate, steps halved while they do not help.
  std::optional<double> solve_for(int equation, int node) {
    const Equation& eq = problem_.equations[at(equation)];
    const std::size_t place =
        static_cast<std::size_t>(std::find(eq.members.begin(), eq.members.end(), node) - eq.members.begin());
    std::vector<double> values(eq.members.size());
    std::vector<double> slope(eq.members.size());
    for (std::size_t m = 0; m < values.size(); ++m) values[m] = x_[at(eq.members[m])];
    const auto residual_at = [&](double coordinate) {
      values[place] = coordinates_.x_of(node, coordinate);
      return eq.law->residual(values, slope);
    };
    double t = coordinates_.coordinate_of(node, x_[at(node)]);
    double r = residual_at(t);
    for (int round = 0; round < 60; ++round) {
      if (!std::isfinite(r)) return std::nullopt;
      double size = 0;
      for (std::size_t m = 0; m < values.size(); ++m) size += std::fabs(slope[m] * values[m]);
      const double by = slope[place] * coordinates_.slope_at(node, values[place]);
      if (std::fabs(r) <= 1e-13 * size) return values[place];
      if (by == 0 || !std::isfinite(by)) return std::nullopt;
      double step = -r / by;
      double next = residual_at(t + step);
      for (int halves = 0; halves < 30 && !(std::fabs(next) < std::fabs(r)); ++halves) {
        step /= 2;
        next = residual_at(t + step);
      }
      if (!(std::fabs(next) < std::fabs(r))) {
        if (std::fabs(r) > 1e-9 * size) return std::nullopt;
        residual_at(t);
        return values[place];
      }
      t += step;
      r = next;
    }
    return std::nullopt;
  }

  const Problem& problem_;
  const Coordinates& coordinates_;
  std::vector<double> x_;
  std::vector<bool> known_;
  std::vector<int> unknowns_;
  std::vector<std::vector<int>> equations_of_;
  std::deque<int> ready_;
};

}  // namespace

std::vector<double> starting_values(const Problem& problem, const Coordinates& coordinates) {
  return Propagation(problem, coordinates).run();
}

}  // namespace sash::workings::inner
