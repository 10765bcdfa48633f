#include "quantity/inner/draws.h"

#include <cmath>
#include <numbers>

#include "quantity/student.h"

namespace sash::quantity::inner {

std::uint64_t Draws::bits() {
  state_ += 0x9E3779B97F4A7C15ULL;  // 2^64 over the golden ratio, odd
  std::uint64_t mixed = state_;
  mixed = (mixed ^ (mixed >> 30U)) * 0xBF58476D1CE4E5B9ULL;
  mixed = (mixed ^ (mixed >> 27U)) * 0x94D049BB133111EBULL;
  return mixed ^ (mixed >> 31U);
}

double Draws::uniform() {
  // The top 53 bits, set in the middle of their step so that 0 and 1 never come up.
  return (static_cast<double>(bits() >> 11U) + 0.5) * 0x1p-53;
}

double Draws::normal() {  // Box and Muller
  if (has_spare_) {
    has_spare_ = false;
    return spare_;
  }
  const double radius = std::sqrt(-2 * std::log(uniform()));
  const double angle = 2 * std::numbers::pi * uniform();
  spare_ = radius * std::sin(angle);
  has_spare_ = true;
  return radius * std::cos(angle);
}

double Draws::student(double degrees_of_freedom) {  // Bailey's form of Box and Muller
  const double n = degrees_of_freedom;
  const double radius = std::sqrt(n * std::expm1(-2 / n * std::log(uniform())));
  return radius * std::cos(2 * std::numbers::pi * uniform());
}

double Draws::of(const Input& input) {
  const Spread& spread = input.spread;
  switch (spread.shape) {
    case Shape::exact:
      return input.best;
    case Shape::rectangular:
      return input.best + spread.half_width * (2 * uniform() - 1);
    case Shape::triangular: {
      const double first = uniform();
      return input.best + spread.half_width * (first + uniform() - 1);
    }
    case Shape::student:
      if (spread.degrees_of_freedom) return input.best + spread.standard * student(*spread.degrees_of_freedom);
      break;
    case Shape::normal:
      break;
  }
  return input.best + spread.standard * normal();
}

double value_at_normal(const Input& input, double z) {
  const Spread& spread = input.spread;
  const double below = normal_below(z);
  switch (spread.shape) {
    case Shape::exact:
      return input.best;
    case Shape::rectangular:
      return input.best + spread.half_width * (2 * below - 1);
    case Shape::triangular: {
      const double side = below < 0.5 ? std::sqrt(2 * below) - 1 : 1 - std::sqrt(2 * normal_below(-z));
      return input.best + spread.half_width * side;
    }
    case Shape::student:
      if (spread.degrees_of_freedom && below > 0 && below < 1) {
        return input.best + spread.standard * student_quantile(below, *spread.degrees_of_freedom);
      }
      break;
    case Shape::normal:
      break;
  }
  return input.best + spread.standard * z;
}

Outcome<std::vector<double>> factor(const Correlations& correlations, std::size_t inputs) {
  std::vector<double> lower(inputs * inputs, 0.0);
  for (std::size_t i = 0; i < inputs; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double left = i == j ? 1 : correlations.of(i, j);
      for (std::size_t k = 0; k < j; ++k) left -= lower[i * inputs + k] * lower[j * inputs + k];
      const double pivot = lower[j * inputs + j];
      constexpr double rounding = 1e-9;
      if (i == j) {
        if (left < -rounding)
          return Fault::of(Code::impossible, "The correlations contradict each other: no inputs can have them all.");
        lower[i * inputs + i] = std::sqrt(std::max(left, 0.0));
      } else if (pivot > std::sqrt(rounding)) {
        lower[i * inputs + j] = left / pivot;
      } else if (std::abs(left) > std::sqrt(rounding)) {
        return Fault::of(Code::impossible, "The correlations contradict each other: no inputs can have them all.");
      }
    }
  }
  return lower;
}

}  // namespace sash::quantity::inner
