#include "workings/inner/bending.h"

#include <algorithm>
#include <cmath>

#include "quantity/monte_carlo.h"
#include "quantity/show.h"

namespace sash::workings::inner {
namespace {

// A product bends by about the square of its relative spread: below this that is no digit of the uncertainty.
constexpr double bends_from = 0.15;
constexpr double close_call = 3;  // standard deviations between two reactants
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

// The steps that lead to one variable, and what they rest on.
struct Chain {
  std::vector<Given> steps;
  std::vector<VariableIndex> measured;
};

Chain chain_to(const Network& network, VariableIndex wanted) {
  Chain chain;
  std::vector<bool> needed(network.quantities.size(), false);
  needed[wanted] = true;
  for (auto step = network.steps.rbegin(); step != network.steps.rend(); ++step) {
    if (!needed[step->variable]) continue;
    chain.steps.push_back(*step);
    for (const VariableIndex v : network.equations[step->equation].members) needed[v] = true;
  }
  std::reverse(chain.steps.begin(), chain.steps.end());
  for (VariableIndex v = 0; v < needed.size(); ++v) {
    if (needed[v] && network.system.variables()[v].status == Variable::Status::measured) chain.measured.push_back(v);
  }
  return chain;
}

// Whether another reactant may run out first.
bool undecided(const Network& network, const std::vector<Estimate>& estimates, const Given& step) {
  const NetworkEquation& eq = network.equations[step.equation];
  const std::size_t least = network.least_member[step.equation];
  if (eq.equation->shape != Equation::Shape::least || least == 0) return false;
  const auto share = [&](std::size_t member) {
    return network.followed[eq.members[member]].value_or(0) / eq.equation->weights[member];
  };
  const auto spread = [&](std::size_t member) {
    return estimates[eq.members[member]].spread / eq.equation->weights[member];
  };
  for (std::size_t other = 1; other < eq.members.size(); ++other) {
    if (other == least || !network.followed[eq.members[other]]) continue;
    if (share(other) - share(least) < close_call * std::hypot(spread(other), spread(least))) return true;
  }
  return false;
}

}  // namespace

std::optional<Drawn> drawn_instead(const Network& network, const std::vector<Estimate>& estimates, VariableIndex wanted,
                                   const FigureBook& book) {
  const Estimate& estimate = estimates[wanted];
  const bool wide = estimate.spread > bends_from * std::fabs(estimate.value);
  const bool chooses = std::any_of(network.least_member.begin(), network.least_member.end(),
                                   [](std::size_t member) { return member > 0; });
  if (!wide && !chooses) return std::nullopt;
  const Chain chain = chain_to(network, wanted);
  const auto any = [&](auto test) { return std::any_of(chain.steps.begin(), chain.steps.end(), test); };
  // Thousands of draws through a solver would take longer than anybody waits.
  if (chain.steps.empty() || any([&](const Given& s) { return network.equations[s.equation].equation->slow; }))
    return {};
  if (!wide && !any([&](const Given& s) { return undecided(network, estimates, s); })) return std::nullopt;
  std::vector<double> values(network.followed.size(), 0);
  for (VariableIndex v = 0; v < values.size(); ++v) values[v] = network.followed[v].value_or(0);
  std::vector<quantity::Input> inputs;
  for (const VariableIndex v : chain.measured) inputs.push_back(input_of(network, v, book));
  const quantity::Model model = [&](std::span<const double> x) {
    for (std::size_t i = 0; i < x.size(); ++i) values[chain.measured[i]] = x[i];
    return follow_again(network, chain.steps, wanted, values);
  };
  quantity::MonteCarloOptions options;
  options.trials = trials;
  const auto checked = quantity::check_first_order(model, inputs, options);
  if (!checked || checked->agree || !std::isfinite(checked->standard)) return std::nullopt;
  return Drawn{checked->best, checked->standard, checked->low, checked->high};
}

std::string told(const Drawn& drawn, const Estimate& first_order, const FigureValue& value) {
  FigureValue shown = value;
  if (!value.stated && value.figure->kind != quantity::Kind::other) {
    shown.unit = quantity::readable_unit(value.figure->kind, drawn.value);
  }
  const auto end = [&](double si) { return quantity::show_number(shown.from_si(si), 3); };
  return "First order gives " + computed_text(value, first_order.value, first_order.spread).text +
         ", a Monte Carlo run of " + std::to_string(trials) + " trials (JCGM 101, fixed seed) " +
         computed_text(value, drawn.value, drawn.spread).text + " with 95 % of them between " + end(drawn.low) +
         " and " + end(drawn.high) + (shown.unit.symbol().empty() ? "" : " " + shown.unit.symbol()) +
         ": the formula bends within the uncertainties, so the Monte Carlo result is used.";
}

}  // namespace sash::workings::inner
