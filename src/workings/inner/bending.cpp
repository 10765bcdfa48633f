#include "workings/inner/bending.h"

#include <algorithm>
#include <cmath>

#include "quantity/monte_carlo.h"

namespace sash::workings::inner {
namespace {

// A product bends by about the square of its relative spread: below this that is no digit of the uncertainty.
constexpr double bends_from = 0.15;
constexpr std::size_t trials = 4000;

quantity::Input input_of(const Network& network, VariableIndex v, const FigureBook& book) {
  const Variable& variable = network.system.variables()[v];
  const Quantity& q = *network.quantities[v];
  quantity::Input input{variable.name, variable.value, {}};
  const FigureValue* figure = q.from == Quantity::From::figure ? book.find(q.figure) : nullptr;
  if (figure != nullptr && figure->shape.standard > 0) {
    input.spread = figure->shape.scaled(variable.spread / figure->shape.standard);
  } else {
    input.spread.standard = variable.spread;
    input.spread.shape = quantity::Shape::normal;
  }
  return input;
}

}  // namespace

std::optional<Drawn> drawn_instead(const Network& network, const Estimate& estimate, VariableIndex wanted,
                                   const FigureBook& book) {
  if (!(estimate.spread > bends_from * std::fabs(estimate.value))) return std::nullopt;
  const auto& steps = network.steps;
  if (std::none_of(steps.begin(), steps.end(), [&](const Given& s) { return s.variable == wanted; }))
    return std::nullopt;
  std::vector<double> values(network.followed.size(), 0);
  std::vector<VariableIndex> drawn;
  std::vector<quantity::Input> inputs;
  for (VariableIndex v = 0; v < values.size(); ++v) {
    values[v] = network.followed[v].value_or(0);
    if (network.system.variables()[v].status != Variable::Status::measured) continue;
    drawn.push_back(v);
    inputs.push_back(input_of(network, v, book));
  }
  const quantity::Model model = [&](std::span<const double> x) {
    for (std::size_t i = 0; i < drawn.size(); ++i) values[drawn[i]] = x[i];
    return follow_again(network, wanted, values);
  };
  quantity::MonteCarloOptions options;
  options.trials = trials;
  const auto checked = quantity::check_first_order(model, inputs, options);
  if (!checked || checked->agree || !std::isfinite(checked->standard)) return std::nullopt;
  return Drawn{checked->best, checked->standard, checked->sentence};
}

}  // namespace sash::workings::inner
