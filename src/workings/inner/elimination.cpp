#include "workings/inner/elimination.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <queue>
#include <set>
#include <utility>

namespace sash::workings::inner {
namespace {

constexpr double weak_pivot = 1e-3;  // of the largest entry in its row

// Rows still in play, and which of them hold each wanted column.
class Elimination {
 public:
  Elimination(std::vector<LinearRow> rows, int columns)
      : rows_(std::move(rows)), active_(rows_.size(), true), holders_(static_cast<std::size_t>(columns)) {
    for (std::size_t r = 0; r < rows_.size(); ++r) {
      for (const Entry& e : rows_[r].wanted) holders(e.column).push_back(static_cast<int>(r));
    }
    for (int c = 0; c < columns; ++c) queue_.insert({count(c), c});
    result_.pivot_of.assign(static_cast<std::size_t>(columns), -1);
  }

  Eliminated run() {
    // The column held by the fewest rows goes first: one that stands in a single row costs nothing.
    while (!queue_.empty()) {
      const int column = queue_.begin()->second;
      queue_.erase(queue_.begin());
      if (!holders(column).empty()) eliminate_column(column);
    }
    for (std::size_t r = 0; r < rows_.size(); ++r) {
      if (active_[r]) result_.reduced.push_back(std::move(rows_[r]));
    }
    mark_determined();
    return std::move(result_);
  }

 private:
  std::vector<int>& holders(int column) { return holders_[static_cast<std::size_t>(column)]; }
  std::size_t count(int column) { return holders(column).size(); }

  int best_row(int column) {
    int best = -1;
    bool best_strong = false;
    std::size_t best_length = 0;
    for (const int r : holders(column)) {
      const LinearRow& row = rows_[static_cast<std::size_t>(r)];
      const bool strong = std::fabs(value_at(row.wanted, column)) >= weak_pivot * largest(row.wanted);
      const std::size_t length = row.wanted.size() + row.measured.size();
      const bool better = best < 0 || (strong && !best_strong) ||
                          (strong == best_strong && (length < best_length || (length == best_length && r < best)));
      if (better) {
        best = r;
        best_strong = strong;
        best_length = length;
      }
    }
    return best;
  }

  void forget(int column, int row) {
    if (result_.pivot_of[static_cast<std::size_t>(column)] >= 0) return;
    queue_.erase({count(column), column});
    std::erase(holders(column), row);
    queue_.insert({count(column), column});
  }

  void remember(int column, int row) {
    queue_.erase({count(column), column});
    holders(column).push_back(row);
    queue_.insert({count(column), column});
  }

  void eliminate_column(int column) {
    const int chosen = best_row(column);
    LinearRow pivot = std::move(rows_[static_cast<std::size_t>(chosen)]);
    active_[static_cast<std::size_t>(chosen)] = false;
    const double by = 1 / value_at(pivot.wanted, column);
    scale(pivot.wanted, by);
    scale(pivot.measured, by);
    pivot.right *= by;
    std::erase_if(pivot.wanted, [&](const Entry& e) { return e.column == column; });

    result_.pivot_of[static_cast<std::size_t>(column)] = static_cast<int>(result_.pivots.size());
    for (const Entry& e : pivot.wanted) forget(e.column, chosen);
    for (const int r : holders(column)) {
      if (r != chosen) take_away(column, r, pivot);
    }
    holders(column).clear();
    result_.pivots.push_back({column, std::move(pivot)});
  }

  void take_away(int column, int r, const LinearRow& pivot) {
    LinearRow& row = rows_[static_cast<std::size_t>(r)];
    const double factor = value_at(row.wanted, column);
    std::erase_if(row.wanted, [&](const Entry& e) { return e.column == column; });
    const SparseRow before = std::exchange(row.wanted, subtract(row.wanted, factor, pivot.wanted));
    row.measured = subtract(row.measured, factor, pivot.measured);
    row.right -= factor * pivot.right;
    for (const Entry& e : before) {
      if (value_at(row.wanted, e.column) == 0) forget(e.column, r);
    }
    for (const Entry& e : row.wanted) {
      if (value_at(before, e.column) == 0) remember(e.column, r);
    }
  }

  // A pivot is determined unless it leans, after all cancelling, on a free column.
  void mark_determined() {
    result_.determined.assign(result_.pivot_of.size(), false);
    std::vector<SparseRow> leans(result_.pivots.size());
    for (std::size_t k = result_.pivots.size(); k-- > 0;) {
      for (const Entry& e : result_.pivots[k].row.wanted) {
        const int later = result_.pivot_of[static_cast<std::size_t>(e.column)];
        if (later < 0) {
          leans[k] = subtract(leans[k], e.value, {{e.column, 1.0}});
        } else {
          leans[k] = subtract(leans[k], e.value, leans[static_cast<std::size_t>(later)]);
        }
      }
      result_.determined[static_cast<std::size_t>(result_.pivots[k].wanted)] = leans[k].empty();
    }
  }

  std::vector<LinearRow> rows_;
  std::vector<bool> active_;
  std::vector<std::vector<int>> holders_;
  std::set<std::pair<std::size_t, int>> queue_;
  Eliminated result_;
};

}  // namespace

Eliminated eliminate(std::vector<LinearRow> rows, int wanted_columns) {
  return Elimination(std::move(rows), wanted_columns).run();
}

std::vector<double> back_substitute(const Eliminated& eliminated, const std::vector<double>& z) {
  std::vector<double> step(eliminated.pivot_of.size(), 0);
  for (auto it = eliminated.pivots.rbegin(); it != eliminated.pivots.rend(); ++it) {
    step[static_cast<std::size_t>(it->wanted)] = it->row.right - dot(it->row.measured, z) - dot(it->row.wanted, step);
  }
  return step;
}

SparseRow combination_of(const Eliminated& eliminated, int wanted) {
  std::vector<double> weight(eliminated.pivots.size(), 0);
  std::priority_queue<int, std::vector<int>, std::greater<>> open;
  const auto visit = [&](int column, double value) {
    const int pivot = eliminated.pivot_of[static_cast<std::size_t>(column)];
    if (pivot < 0) return;  // a free column whose influence cancels
    if (weight[static_cast<std::size_t>(pivot)] == 0) open.push(pivot);
    weight[static_cast<std::size_t>(pivot)] += value;
  };
  visit(wanted, 1);
  SparseRow combination;
  int last = -1;
  while (!open.empty()) {
    const int at = open.top();
    open.pop();
    if (at == last) continue;
    last = at;
    const Pivot& pivot = eliminated.pivots[static_cast<std::size_t>(at)];
    const double value = weight[static_cast<std::size_t>(at)];
    combination = subtract(combination, value, pivot.row.measured);
    for (const Entry& e : pivot.row.wanted) visit(e.column, -value * e.value);
  }
  return combination;
}

}  // namespace sash::workings::inner
