#pragma once
// Exact linear algebra over whole numbers, as far as balancing needs it: the null space of a matrix, and the extreme
// rays of its non-negative part. No floating point; a number that does not fit 128 bits gives nothing. Pure.

#include <optional>
#include <vector>

#include "chem/fraction.h"

namespace sash::chem::inner {

using IntegerVector = std::vector<WideInteger>;
using Matrix = std::vector<std::vector<Fraction>>;  ///< rows, all of one length

/// A basis of all x with matrix * x = 0, each vector in smallest whole numbers with its first non-zero entry positive.
std::optional<std::vector<IntegerVector>> null_space(Matrix matrix, std::size_t columns);

/// The extreme rays of { x >= 0, matrix * x = 0 }, in smallest whole numbers: every all-positive solution is a sum of
/// them, and none of them can be split further. Nothing when a number does not fit, or beyond 512 rays.
std::optional<std::vector<IntegerVector>> positive_rays(const Matrix& matrix, std::size_t columns);

/// As many of `vectors` as are linearly independent, the ones with fewest non-zero entries first.
std::optional<std::vector<IntegerVector>> independent_among(std::vector<IntegerVector> vectors);

}  // namespace sash::chem::inner
