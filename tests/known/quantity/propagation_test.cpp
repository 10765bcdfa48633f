// Walks propagation.csv: uncertainty budgets of the GUM, its supplement and the EURACHEM/CITAC guide, each computed
// here. Inputs are written "name=best contributions": n standard uncertainty, r rectangular and t triangular
// half-width, with
// "/degrees of freedom" where given; or "name=[readings]", which also correlates with the other lists.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "known/quantity/expression.h"
#include "quantity/monte_carlo.h"
#include "quantity/propagate.h"
#include "support/text.h"
#include "tools/table.h"

namespace sash::quantity {
namespace {

struct Problem {
  std::vector<Input> inputs;
  std::vector<std::string> names;
  Correlations correlations;

  Model model(const std::string& text) const {
    return [this, text](std::span<const double> at) { return test::evaluate(text, names, at); };
  }
};

Spread read_contribution(std::string_view text) {
  const auto parts = split(text.substr(1), '/');
  const double size = read_number(parts[0]).value();
  const std::optional<double> degrees = parts.size() > 1 ? read_number(parts[1]) : std::nullopt;
  const Meant meant = text[0] == 'n' ? Meant::one_standard : text[0] == 'r' ? Meant::limits : Meant::limits_peaked;
  return stated(size, meant, "", degrees).value();
}

Problem read_problem(const std::string& text) {
  Problem out;
  std::vector<std::vector<double>> readings;
  for (const auto piece : split(text, ';')) {
    const auto trimmed = trim(piece);
    const auto equals = trimmed.find('=');
    Input input;
    input.name = std::string(trimmed.substr(0, equals));
    const std::string_view rest = trimmed.substr(equals + 1);
    readings.emplace_back();
    if (rest.front() == '[') {
      for (const auto number : split(rest.substr(1, rest.size() - 2), ','))
        readings.back().push_back(read_number(number).value());
      const Mean mean = mean_of(readings.back()).value();
      input.best = mean.best;
      input.spread = mean.spread;
    } else {
      std::vector<Spread> parts;
      const auto words = split(rest, ' ');
      input.best = read_number(words[0]).value();
      for (std::size_t i = 1; i < words.size(); ++i) parts.push_back(read_contribution(words[i]));
      input.spread = parts.size() == 1 ? parts[0] : combined(parts);
    }
    out.names.push_back(input.name);
    out.inputs.push_back(std::move(input));
  }
  out.correlations = Correlations(out.inputs.size());
  for (std::size_t a = 0; a < readings.size(); ++a) {
    for (std::size_t b = a + 1; b < readings.size(); ++b) {
      if (!readings[a].empty() && !readings[b].empty())
        out.correlations.set(a, b, correlation_of(readings[a], readings[b]));
    }
  }
  return out;
}

/// The Monte Carlo run of a problem, made once for all the rows that ask about it.
const Checked& checked_once(const std::string& model, const std::string& inputs) {
  static std::map<std::string, Checked> runs;
  const auto [run, fresh] = runs.try_emplace(model + ";" + inputs);
  if (fresh) {
    const Problem problem = read_problem(inputs);
    MonteCarloOptions options;
    options.correlations = problem.correlations;
    options.trials = 500000;
    options.digits = 2;  // as the supplement's examples
    run->second = check_first_order(problem.model(model), problem.inputs, options).value();
  }
  return run->second;
}

double compute(const test::Row& row) {
  const Problem problem = read_problem(row.at("inputs"));
  const std::string wanted = row.at("wanted");
  if (wanted == "r") {
    const auto two = split(row.at("model"), ',');
    const std::vector<Model> models{problem.model(std::string(trim(two[0]))), problem.model(std::string(trim(two[1])))};
    return propagate_jointly(models, problem.inputs, problem.correlations).value().correlation(0, 1);
  }
  const Model model = problem.model(row.at("model"));
  if (wanted.starts_with("sampled") || wanted == "agrees") {
    const Checked& checked = checked_once(row.at("model"), row.at("inputs"));
    if (wanted == "agrees") return checked.agree ? 1 : 0;
    if (wanted == "sampled u") return checked.sampled.standard;
    if (wanted == "sampled low") return checked.sampled.low;
    if (wanted == "sampled high") return checked.sampled.high;
    if (wanted == "sampled half 95") return (checked.sampled.high - checked.sampled.low) / 2;
  }
  PropagateOptions options;
  options.correlations = problem.correlations;
  options.second_order = wanted == "u second order";
  const Propagated result = propagate(model, problem.inputs, options).value();
  if (wanted == "best") return result.best;
  if (wanted == "u" || wanted == "u second order") return result.standard;
  if (wanted == "nu") return result.degrees_of_freedom.value();
  if (wanted == "U99") return result.expanded(0.99);
  if (wanted == "half 95") return result.expanded(0.95);
  ADD_FAILURE() << "nobody computes " << wanted;
  return std::nan("");
}

TEST(KnownPropagation, EveryRowIsReproduced) {
  for (const test::Row& row : test::read_table("known/quantity/propagation.csv")) {
    EXPECT_NEAR(compute(row), row.number("expected"), row.number("tolerance"))
        << row.at("id") << " " << row.at("wanted") << ", " << row.at("source");
  }
}

}  // namespace
}  // namespace sash::quantity
