#pragma once
// Law: one equation between variables, written as "residual = 0", with its slopes. The common shapes are here; a
// relation with a shape of its own derives from Law. Knows nothing of figures, units or uncertainty. Immutable after
// construction; safe from any thread.

#include <functional>
#include <memory>
#include <span>
#include <vector>

namespace sash::workings {

class Law {
 public:
  Law() = default;
  Law(const Law&) = delete;
  Law& operator=(const Law&) = delete;
  virtual ~Law() = default;

  /// The residual at `x`, and its derivative by each x in `slope` (of the same length). NaN where the law has no
  /// meaning, for instance at a negative mass under a logarithm.
  virtual double residual(std::span<const double> x, std::span<double> slope) const = 0;
};

using LawPtr = std::shared_ptr<const Law>;

/// Sum of coefficient * x, plus `constant`, is zero.
LawPtr linear_law(std::vector<double> coefficients, double constant = 0);

/// Product of x ^ exponent, times `factor`, is one. All x and the factor are positive.
/// Its residual is the logarithm of that product, so that it is linear in logarithmic variables.
LawPtr product_law(std::vector<double> exponents, double factor = 1);

/// The first x is `factor` times the product of the others, of either sign.
LawPtr ratio_law(double factor = 1);

/// Any smooth function that fills in its own slopes.
using Residual = std::function<double(std::span<const double> x, std::span<double> slope)>;
LawPtr general_law(Residual residual);

}  // namespace sash::workings
