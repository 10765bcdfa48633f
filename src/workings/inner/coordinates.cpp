#include "workings/inner/coordinates.h"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <cmath>
#include <map>

namespace sash::workings::inner {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// Nodes that are correlated with each other, directly or through others.
std::vector<std::vector<int>> tied_groups(const Problem& problem) {
  std::map<int, int> leader;
  const auto find = [&](int i) {
    leader.try_emplace(i, i);
    while (leader[i] != i) i = leader[i];
    return i;
  };
  for (const Tie& tie : problem.ties) {
    const int a = find(tie.a);
    const int b = find(tie.b);
    leader[std::max(a, b)] = std::min(a, b);
  }
  std::map<int, std::vector<int>> groups;
  for (const auto& [node, unused] : leader) groups[find(node)].push_back(node);
  std::vector<std::vector<int>> result;
  for (auto& [first, members] : groups) result.push_back(std::move(members));
  return result;
}

}  // namespace

Outcome<Coordinates> Coordinates::of(const Problem& problem) {
  Coordinates c;
  const std::size_t n = problem.nodes.size();
  c.logarithmic_.resize(n);
  c.centre_.resize(n);
  c.column_.assign(n, -1);
  c.whitening_.resize(n);
  c.direction_.resize(n);
  std::vector<double> spread(n, 0);
  std::vector<int> z_column(n, -1);
  for (std::size_t i = 0; i < n; ++i) {
    const Node& node = problem.nodes[i];
    c.logarithmic_[i] = node.scale == Scale::logarithmic && node.status != Variable::Status::constant;
    if (node.status == Variable::Status::unmeasured) {
      c.column_[i] = c.wanted_columns_++;
      continue;
    }
    c.centre_[i] = c.logarithmic_[i] ? std::log(node.value) : node.value;
    if (node.status != Variable::Status::measured) continue;
    spread[i] = c.logarithmic_[i] ? node.spread / node.value : node.spread;
    z_column[i] = c.measured_columns_++;
    c.whitening_[i] = {{z_column[i], spread[i]}};
  }

  for (const std::vector<int>& group : tied_groups(problem)) {
    const Eigen::Index size = static_cast<Eigen::Index>(group.size());
    Eigen::MatrixXd correlation = Eigen::MatrixXd::Identity(size, size);
    std::map<int, Eigen::Index> place;
    for (Eigen::Index i = 0; i < size; ++i) place[group[static_cast<std::size_t>(i)]] = i;
    bool all_measured = true;
    for (const int node : group) all_measured = all_measured && z_column[at(node)] >= 0;
    if (!all_measured) continue;  // one of them was set free: what it said no longer counts
    for (const Tie& tie : problem.ties) {
      if (!place.contains(tie.a)) continue;
      correlation(place[tie.a], place[tie.b]) = correlation(place[tie.b], place[tie.a]) = tie.coefficient;
    }
    const Eigen::LLT<Eigen::MatrixXd> factor(correlation);
    if (factor.info() != Eigen::Success) {
      return Fault::of(Code::out_of_range, "The correlations given between figures contradict each other.");
    }
    const Eigen::MatrixXd lower = factor.matrixL();
    const Eigen::MatrixXd inverse = lower.triangularView<Eigen::Lower>().solve(Eigen::MatrixXd::Identity(size, size));
    for (Eigen::Index i = 0; i < size; ++i) {
      const std::size_t node = at(group[static_cast<std::size_t>(i)]);
      c.whitening_[node].clear();
      for (Eigen::Index j = 0; j < size; ++j) {
        const std::size_t other = at(group[static_cast<std::size_t>(j)]);
        add_to(c.whitening_[node], z_column[other], spread[node] * lower(i, j));
        add_to(c.direction_[node], z_column[other], inverse(j, i) / spread[node]);
      }
    }
  }
  return c;
}

SparseRow Coordinates::direction(int node) const {
  if (!direction_[at(node)].empty()) return direction_[at(node)];
  SparseRow row = whitening_[at(node)];
  for (Entry& e : row) e.value = 1 / e.value;
  return row;
}

double Coordinates::x_of(int node, double coordinate) const {
  return logarithmic(node) ? std::exp(coordinate) : coordinate;
}
double Coordinates::coordinate_of(int node, double x) const { return logarithmic(node) ? std::log(x) : x; }
double Coordinates::slope_at(int node, double x) const { return logarithmic(node) ? x : 1; }

std::vector<double> Coordinates::values(const State& state) const {
  std::vector<double> x(centre_.size());
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double coordinate = column_[i] >= 0 ? state.w[at(column_[i])] : centre_[i] + dot(whitening_[i], state.z);
    x[i] = x_of(static_cast<int>(i), coordinate);
  }
  return x;
}

void Coordinates::place(State& state, const std::vector<double>& x) const {
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (column_[i] >= 0) state.w[at(column_[i])] = coordinate_of(static_cast<int>(i), x[i]);
  }
}

}  // namespace sash::workings::inner
