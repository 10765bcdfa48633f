#pragma once
// Reproducible draws from the distributions of JCGM 101:2008 6.4. One object a run; not shared between threads.

#include <cstdint>
#include <span>
#include <vector>

#include "quantity/propagate.h"
#include "support/outcome.h"

namespace sash::quantity::inner {

class Draws {
 public:
  explicit Draws(std::uint64_t seed) : state_(seed) {}

  /// 64 bits, all values as likely: the split-mix generator.
  /// Source: Steele, Lea, Flood, Fast splittable pseudorandom number generators, OOPSLA 2014.
  std::uint64_t bits();

  double uniform();  ///< strictly between 0 and 1
  double normal();   ///< mean 0, standard deviation 1
  /// One draw of `input` by itself.
  double of(const Input& input);

 private:
  double student(double degrees_of_freedom);

  std::uint64_t state_;
  double spare_ = 0;  // the second of a pair of normal draws
  bool has_spare_ = false;
};

/// The value of `input` that has the share Φ(z) below it: ties correlated inputs together (Gaussian copula).
double value_at_normal(const Input& input, double z);

/// Lower triangle L with L·Lᵀ the correlation matrix, row by row; columns of no weight are zero.
/// Fails: Code::impossible when the matrix is no correlation matrix.
Outcome<std::vector<double>> factor(const Correlations& correlations, std::size_t inputs);

}  // namespace sash::quantity::inner
