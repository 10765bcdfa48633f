#include "workings/inner/sparse.h"

#include <algorithm>
#include <cmath>

namespace sash::workings::inner {
namespace {

constexpr double cancelled = 1e-11;  // of the larger operand; well above rounding, well below any real uncertainty

auto position_of(auto& row, int column) {
  return std::lower_bound(row.begin(), row.end(), column, [](const Entry& e, int c) { return e.column < c; });
}

}  // namespace

SparseRow subtract(const SparseRow& a, double factor, const SparseRow& b) {
  SparseRow result;
  result.reserve(a.size() + b.size());
  auto i = a.begin();
  auto j = b.begin();
  while (i != a.end() || j != b.end()) {
    if (j == b.end() || (i != a.end() && i->column < j->column)) {
      result.push_back(*i++);
    } else if (i == a.end() || j->column < i->column) {
      result.push_back({j->column, -factor * j->value});
      ++j;
    } else {
      const double taken = factor * j->value;
      const double rest = i->value - taken;
      if (std::fabs(rest) > cancelled * (std::fabs(i->value) + std::fabs(taken))) result.push_back({i->column, rest});
      ++i;
      ++j;
    }
  }
  return result;
}

void scale(SparseRow& row, double factor) {
  for (Entry& e : row) e.value *= factor;
}

double dot(const SparseRow& row, const std::vector<double>& dense) {
  double sum = 0;
  for (const Entry& e : row) sum += e.value * dense[static_cast<std::size_t>(e.column)];
  return sum;
}

double squared_norm(const SparseRow& row) {
  double sum = 0;
  for (const Entry& e : row) sum += e.value * e.value;
  return sum;
}

double largest(const SparseRow& row) {
  double most = 0;
  for (const Entry& e : row) most = std::max(most, std::fabs(e.value));
  return most;
}

double value_at(const SparseRow& row, int column) {
  const auto it = position_of(row, column);
  return it != row.end() && it->column == column ? it->value : 0;
}

void add_to(SparseRow& row, int column, double value) {
  if (value == 0) return;
  const auto it = position_of(row, column);
  if (it != row.end() && it->column == column) {
    it->value += value;
  } else {
    row.insert(it, {column, value});
  }
}

}  // namespace sash::workings::inner
