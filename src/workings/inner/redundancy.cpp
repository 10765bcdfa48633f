#include "workings/inner/redundancy.h"

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCore>
#include <algorithm>
#include <cmath>
#include <utility>

namespace sash::workings::inner {
namespace {

constexpr double dependent = 1e-12;  // a pivot below this, of rows of length one, is rounding only

using Sparse = Eigen::SparseMatrix<double>;

// G G^T, of rows of length one.
Sparse square_of(const std::vector<const LinearRow*>& rows, int columns) {
  std::vector<Eigen::Triplet<double>> triplets;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const double length = std::sqrt(squared_norm(rows[r]->measured));
    for (const Entry& e : rows[r]->measured) triplets.emplace_back(static_cast<int>(r), e.column, e.value / length);
  }
  Sparse g(static_cast<int>(rows.size()), columns);
  g.setFromTriplets(triplets.begin(), triplets.end());
  return g * Sparse(g.transpose());
}

std::vector<int> order_of(const Sparse& square) {
  Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> permutation;
  Eigen::AMDOrdering<int>()(square, permutation);
  return {permutation.indices().data(), permutation.indices().data() + permutation.size()};
}

}  // namespace

Redundancy::Redundancy(const std::vector<LinearRow>& reduced, int measured_columns)
    : by_column_(static_cast<std::size_t>(measured_columns)) {
  std::vector<const LinearRow*> kept;
  for (const LinearRow& row : reduced) {
    if (!row.measured.empty()) kept.push_back(&row);
  }
  if (kept.empty()) return;
  for (const int r : order_of(square_of(kept, measured_columns))) {
    const LinearRow& row = *kept[static_cast<std::size_t>(r)];
    const double by = 1 / std::sqrt(squared_norm(row.measured));
    for (const Entry& e : row.measured) {
      by_column_[static_cast<std::size_t>(e.column)].push_back({static_cast<int>(rows_.size()), e.value * by});
    }
    rows_.push_back(row.measured);
    scale(rows_.back(), by);
    right_.push_back(row.right * by);
  }
  factor();
  invert();
}

void Redundancy::factor() {
  const std::size_t n = rows_.size();
  lower_.resize(n);
  inverse_diagonal_.assign(n, 0);
  parent_.assign(n, -1);
  std::vector<double> work(n, 0);
  std::vector<int> mark(n, -1);
  for (std::size_t k = 0; k < n; ++k) {
    const int row = static_cast<int>(k);
    mark[k] = row;
    // Row k of G G^T left of the diagonal, and the pattern of row k of L: all its ancestors short of k.
    std::vector<int> pattern;
    double diagonal = 0;
    for (const Entry& mine : rows_[k]) {
      for (const Entry& other : by_column_[static_cast<std::size_t>(mine.column)]) {
        if (other.column > row) break;
        if (other.column == row) {
          diagonal += mine.value * other.value;
          continue;
        }
        work[static_cast<std::size_t>(other.column)] += mine.value * other.value;
        for (int i = other.column; mark[static_cast<std::size_t>(i)] != row; i = parent_[static_cast<std::size_t>(i)]) {
          pattern.push_back(i);
          mark[static_cast<std::size_t>(i)] = row;
          if (parent_[static_cast<std::size_t>(i)] < 0) parent_[static_cast<std::size_t>(i)] = row;
        }
      }
    }
    std::sort(pattern.begin(), pattern.end());
    for (const int i : pattern) {
      const std::size_t column = static_cast<std::size_t>(i);
      const double y = std::exchange(work[column], 0);
      for (std::size_t e = 0; e < lower_[column].rows.size(); ++e) {
        work[static_cast<std::size_t>(lower_[column].rows[e])] -= lower_[column].values[e] * y;
      }
      const double l = y * inverse_diagonal_[column];
      diagonal -= l * y;
      lower_[column].rows.push_back(row);
      lower_[column].values.push_back(l);
    }
    if (diagonal > dependent) {
      inverse_diagonal_[k] = 1 / diagonal;
      ++freedom_;
    }
  }
}

std::vector<double> Redundancy::forward(std::vector<double> right) const {
  for (std::size_t k = 0; k < right.size(); ++k) {
    for (std::size_t e = 0; e < lower_[k].rows.size(); ++e) {
      right[static_cast<std::size_t>(lower_[k].rows[e])] -= lower_[k].values[e] * right[k];
    }
  }
  return right;
}

std::vector<double> Redundancy::least() const { return least_for(right_); }

std::vector<double> Redundancy::unexplained(const SparseRow& p) const {
  std::vector<double> right(rows_.size(), 0);
  for (const Entry& e : p) {
    for (const Entry& g : by_column_[static_cast<std::size_t>(e.column)]) {
      right[static_cast<std::size_t>(g.column)] += e.value * g.value;
    }
  }
  std::vector<double> left = least_for(right);
  for (double& part : left) part = -part;
  for (const Entry& e : p) left[static_cast<std::size_t>(e.column)] += e.value;
  return left;
}

// The z of least length with G z = right.
std::vector<double> Redundancy::least_for(const std::vector<double>& right) const {
  std::vector<double> multiplier = forward(right);
  for (std::size_t k = 0; k < multiplier.size(); ++k) multiplier[k] *= inverse_diagonal_[k];
  for (std::size_t k = multiplier.size(); k-- > 0;) {
    if (inverse_diagonal_[k] == 0) continue;  // a dependent row carries no load
    for (std::size_t e = 0; e < lower_[k].rows.size(); ++e) {
      multiplier[k] -= lower_[k].values[e] * multiplier[static_cast<std::size_t>(lower_[k].rows[e])];
    }
  }
  std::vector<double> z(by_column_.size(), 0);
  for (std::size_t k = 0; k < rows_.size(); ++k) {
    for (const Entry& e : rows_[k]) z[static_cast<std::size_t>(e.column)] += e.value * multiplier[k];
  }
  return z;
}

// From the last row to the first: each entry rests on entries further right that are there already.
void Redundancy::invert() {
  inverse_of_row_.assign(rows_.size(), 0);
  for (std::size_t j = rows_.size(); j-- > 0;) {
    Column& column = lower_[j];
    column.inverse.assign(column.rows.size(), 0);
    if (inverse_diagonal_[j] == 0) continue;  // a dependent row takes no part
    double diagonal = inverse_diagonal_[j];
    for (std::size_t a = 0; a < column.rows.size(); ++a) {
      double sum = 0;
      for (std::size_t b = 0; b < column.rows.size(); ++b) {
        if (column.values[b] != 0) sum -= column.values[b] * inverse_at(column.rows[a], column.rows[b]).value_or(0);
      }
      column.inverse[a] = sum;
      diagonal -= column.values[a] * sum;
    }
    inverse_of_row_[j] = diagonal;
  }
}

// The entry of the inverse; nothing where the factor has none, and it was not computed.
std::optional<double> Redundancy::inverse_at(int a, int b) const {
  if (a == b) return inverse_of_row_[static_cast<std::size_t>(a)];
  const Column& column = lower_[static_cast<std::size_t>(std::min(a, b))];
  const auto it = std::lower_bound(column.rows.begin(), column.rows.end(), std::max(a, b));
  if (it == column.rows.end() || *it != std::max(a, b)) return std::nullopt;
  return column.inverse[static_cast<std::size_t>(it - column.rows.begin())];
}

double Redundancy::explained(const SparseRow& p) const {
  std::vector<Entry> rows;  // G p
  for (const Entry& e : p) {
    for (const Entry& g : by_column_[static_cast<std::size_t>(e.column)]) rows.push_back({g.column, e.value * g.value});
  }
  const auto fast = by_inverse(rows);
  return fast ? *fast : by_path(rows);
}

// One measured variable stands in few rows, and the inverse is known between all of them.
std::optional<double> Redundancy::by_inverse(const std::vector<Entry>& rows) const {
  double sum = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      const auto entry = inverse_at(rows[i].column, rows[j].column);
      if (!entry) return std::nullopt;
      sum += (i == j ? 1 : 2) * rows[i].value * rows[j].value * *entry;
    }
  }
  return sum;
}

// Otherwise one forward substitution, along the path from those rows to the root of the elimination tree.
double Redundancy::by_path(const std::vector<Entry>& rows) const {
  std::vector<int> path;
  for (const Entry& s : rows) {
    for (int i = s.column; i >= 0; i = parent_[static_cast<std::size_t>(i)]) path.push_back(i);
  }
  std::sort(path.begin(), path.end());
  path.erase(std::unique(path.begin(), path.end()), path.end());
  const auto place = [&](int row) {
    return static_cast<std::size_t>(std::lower_bound(path.begin(), path.end(), row) - path.begin());
  };
  std::vector<double> value(path.size(), 0);
  for (const Entry& s : rows) value[place(s.column)] += s.value;
  double sum = 0;
  for (std::size_t at = 0; at < path.size(); ++at) {
    const std::size_t k = static_cast<std::size_t>(path[at]);
    for (std::size_t e = 0; e < lower_[k].rows.size(); ++e) {
      value[place(lower_[k].rows[e])] -= lower_[k].values[e] * value[at];
    }
    sum += value[at] * value[at] * inverse_diagonal_[k];
  }
  return sum;
}

}  // namespace sash::workings::inner
