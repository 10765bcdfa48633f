#pragma once
// The reduced problem: constraints among measured variables only, G z = g, z independent with unit variance. Solves it
// with the least z, and says how much of any combination of z the constraints explain. Pure; const calls are safe from
// any thread.
// Source: F. Madron, Process Plant Performance (1992), ch. 3; T. A. Davis, Direct Methods for Sparse Linear Systems
// (2006), ch. 4 (up-looking factorisation along the elimination tree); K. Takahashi, J. Fagan, M.-S. Chin, PICA (1973)
// (entries of the inverse where the factor has entries).

#include <optional>
#include <vector>

#include "workings/inner/elimination.h"

namespace sash::workings::inner {

class Redundancy {
 public:
  Redundancy() = default;
  Redundancy(const std::vector<LinearRow>& reduced, int measured_columns);

  int freedom() const { return freedom_; }  ///< number of independent constraints
  std::vector<double> least() const;        ///< the z of least length that meets the constraints
  /// Variance of the adjustment of p * z: p^T G^T (G G^T)^-1 G p.
  double explained(const SparseRow& p) const;
  /// What is left of p once the constraints have taken what they explain: p - G^T (G G^T)^-1 G p. One for each column.
  std::vector<double> unexplained(const SparseRow& p) const;

 private:
  struct Column {
    std::vector<int> rows;  // below the diagonal, ascending
    std::vector<double> values;
    std::vector<double> inverse;  // of G G^T, at the same places
  };
  void factor();
  void invert();
  std::optional<double> inverse_at(int a, int b) const;
  std::optional<double> by_inverse(const std::vector<Entry>& rows) const;
  double by_path(const std::vector<Entry>& rows) const;
  std::vector<double> forward(std::vector<double> right) const;
  std::vector<double> least_for(const std::vector<double>& right) const;

  std::vector<SparseRow> rows_;                // G, rows of length one, in the order of the factorisation
  std::vector<double> right_;                  // g, likewise
  std::vector<std::vector<Entry>> by_column_;  // G by measured column: (row, value)
  std::vector<Column> lower_;                  // unit lower triangle of G G^T = L D L^T
  std::vector<double> inverse_diagonal_;       // 1/D; 0 for a row that depends on others
  std::vector<double> inverse_of_row_;         // the diagonal of the inverse
  std::vector<int> parent_;                    // elimination tree
  int freedom_ = 0;
};

}  // namespace sash::workings::inner
