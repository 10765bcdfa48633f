#pragma once
// Coordinates: between the values x of a problem and what the least squares works on: z, one independent unit normal
// deviate for each measured variable, and w, one number for each wanted variable. Pure values.

#include <vector>

#include "support/outcome.h"
#include "workings/inner/problem.h"
#include "workings/inner/sparse.h"

namespace sash::workings::inner {

/// Where the search stands.
struct State {
  std::vector<double> z;
  std::vector<double> w;
};

class Coordinates {
 public:
  /// Fails: Code::out_of_range when the correlations cannot all hold at once.
  static Outcome<Coordinates> of(const Problem& problem);

  int measured_columns() const { return measured_columns_; }
  int wanted_columns() const { return wanted_columns_; }
  bool is_wanted(int node) const { return column_[static_cast<std::size_t>(node)] >= 0; }
  int wanted_column(int node) const { return column_[static_cast<std::size_t>(node)]; }
  const SparseRow& whitening(int node) const { return whitening_[static_cast<std::size_t>(node)]; }
  /// The direction in z along which this measured node alone moves, by one unit of its coordinate.
  SparseRow direction(int node) const;

  double x_of(int node, double coordinate) const;  ///< value at a coordinate (the logarithm, where logarithmic)
  double coordinate_of(int node, double x) const;
  double slope_at(int node, double x) const;                                         ///< dx / d coordinate
  double centre(int node) const { return centre_[static_cast<std::size_t>(node)]; }  ///< as measured

  std::vector<double> values(const State& state) const;
  /// Sets the wanted coordinates of `state` from `x`.
  void place(State& state, const std::vector<double>& x) const;

 private:
  bool logarithmic(int node) const { return logarithmic_[static_cast<std::size_t>(node)]; }

  std::vector<bool> logarithmic_;
  std::vector<double> centre_;
  std::vector<int> column_;           // of wanted nodes, otherwise -1
  std::vector<SparseRow> whitening_;  // coordinate = centre + whitening * z, for measured nodes
  std::vector<SparseRow> direction_;  // only for correlated nodes
  int measured_columns_ = 0;
  int wanted_columns_ = 0;
};

}  // namespace sash::workings::inner
