#include "quantity/inner/second_order.h"

#include <vector>

namespace sash::quantity::inner {
namespace {

/// The model in steps of one uncertainty away from the best values, so that derivatives come out multiplied by them.
class Stepped {
 public:
  Stepped(const Model& model, std::span<const Input> inputs) : model_(model), inputs_(inputs) {
    for (const Input& input : inputs) at_.push_back(input.best);
  }

  double operator()(std::size_t i, double a, std::size_t j, double b) {
    at_[i] += a * inputs_[i].spread.standard;
    at_[j] += b * inputs_[j].spread.standard;
    const double out = model_(at_);
    at_[i] = inputs_[i].best;
    at_[j] = inputs_[j].best;
    return out;
  }

 private:
  const Model& model_;
  std::span<const Input> inputs_;
  std::vector<double> at_;
};

}  // namespace

double second_order_variance(const Model& model, std::span<const Input> inputs, std::span<const double> slopes) {
  Stepped f(model, inputs);
  double sum = 0;
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    if (inputs[i].spread.standard == 0) continue;
    const double first = slopes[i] * inputs[i].spread.standard;
    for (std::size_t j = 0; j < inputs.size(); ++j) {
      if (inputs[j].spread.standard == 0) continue;
      double second = 0;
      double third = 0;
      if (i == j) {
        second = f(i, 1, j, 0) - 2 * f(i, 0, j, 0) + f(i, -1, j, 0);
        third = (f(i, 2, j, 0) - 2 * f(i, 1, j, 0) + 2 * f(i, -1, j, 0) - f(i, -2, j, 0)) / 2;
      } else {
        second = (f(i, 1, j, 1) - f(i, 1, j, -1) - f(i, -1, j, 1) + f(i, -1, j, -1)) / 4;
        third = (f(i, 1, j, 1) - 2 * f(i, 1, j, 0) + f(i, 1, j, -1) -
                 (f(i, -1, j, 1) - 2 * f(i, -1, j, 0) + f(i, -1, j, -1))) /
                2;
      }
      sum += second * second / 2 + first * third;
    }
  }
  return sum;
}

}  // namespace sash::quantity::inner
