#pragma once
// The terms that the first-order law leaves out: GUM 5.1.2 note, for independent inputs spread symmetrically.

#include <span>

#include "quantity/propagate.h"

namespace sash::quantity::inner {

/// Σᵢⱼ (½ fᵢⱼ² + fᵢ fᵢⱼⱼ) u²(xᵢ) u²(xⱼ), derivatives by differences over one uncertainty. NaN where the model has no
/// value.
double second_order_variance(const Model& model, std::span<const Input> inputs, std::span<const double> slopes);

}  // namespace sash::quantity::inner
