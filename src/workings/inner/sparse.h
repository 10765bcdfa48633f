#pragma once
// Sparse rows: sorted lists of (column, value), and the one operation elimination needs of them. Pure values.

#include <vector>

namespace sash::workings::inner {

struct Entry {
  int column;
  double value;
};

using SparseRow = std::vector<Entry>;  ///< sorted by column, each column once, no zero values

/// a - factor * b. Entries that cancel to within rounding are left out, so that what remains is real.
SparseRow subtract(const SparseRow& a, double factor, const SparseRow& b);

void scale(SparseRow& row, double factor);
double dot(const SparseRow& row, const std::vector<double>& dense);
double squared_norm(const SparseRow& row);
double largest(const SparseRow& row);                   ///< largest magnitude; 0 for an empty row
double value_at(const SparseRow& row, int column);      ///< 0 where there is no entry
void add_to(SparseRow& row, int column, double value);  ///< keeps the order; adds where there is an entry

}  // namespace sash::workings::inner
