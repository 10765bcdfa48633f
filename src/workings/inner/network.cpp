#include "workings/inner/network.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <limits>
#include <utility>

namespace sash::workings::inner {
namespace {

using Shape = Equation::Shape;

bool multiplies(Shape shape) { return shape == Shape::product || shape == Shape::least; }

// A constant better known than this ties no relations together: its error, shared or not, is lost in theirs, and
// conflicts that have nothing to do with each other stay apart.
constexpr double hardly_uncertain = 1e-4;
constexpr double nowhere = std::numeric_limits<double>::quiet_NaN();

// Which member of a `least` is the least of those known; 0 where none is.
std::size_t least_of(const Equation& e, const std::vector<double>& x) {
  std::size_t least = 0;
  for (std::size_t i = 1; i < x.size(); ++i) {
    if (std::isnan(x[i])) continue;
    if (least == 0 || x[i] / e.weights[i] < x[least] / e.weights[least]) least = i;
  }
  return least;
}

double solved_product(const Equation& e, std::size_t wanted, const std::vector<double>& x) {
  double log_sum = std::log(e.constant);
  for (std::size_t i = 0; i < x.size(); ++i) {
    if (i == wanted) continue;
    if (!(x[i] > 0)) return nowhere;
    log_sum += e.weights[i] * std::log(x[i]);
  }
  return std::exp(-log_sum / e.weights[wanted]);
}

// What the equation gives for one member from the others; nothing where it gives none.
std::optional<double> solved(const Equation& e, std::size_t wanted, const std::vector<double>& x) {
  switch (e.shape) {
    case Shape::product:
      return solved_product(e, wanted, x);
    case Shape::ratio: {
      double product = e.constant;
      for (std::size_t i = 1; i < x.size(); ++i) {
        if (i != wanted) product *= x[i];
      }
      if (wanted == 0) return product;
      return product != 0 ? std::optional(x[0] / product) : std::nullopt;
    }
    case Shape::sum: {
      double sum = e.constant;
      for (std::size_t i = 0; i < x.size(); ++i) {
        if (i != wanted) sum += e.weights[i] * x[i];
      }
      return -sum / e.weights[wanted];
    }
    case Shape::least: {
      if (wanted == 0) {
        const std::size_t least = least_of(e, x);
        return least > 0 ? std::optional(x[least] / e.weights[least]) : std::nullopt;
      }
      // Backwards it only tells when there is nothing to choose from.
      return x.size() == 2 ? std::optional(x[0] * e.weights[1]) : std::nullopt;
    }
    case Shape::special: {
      const auto step = e.writer(wanted, x);
      return step ? std::optional(step->value) : std::nullopt;
    }
  }
  return std::nullopt;
}

// Values step by step: whenever all members of an equation but one are known, the last one follows.
class Following {
 public:
  explicit Following(Network& network) : n_(network), unknowns_(network.equations.size(), 0) {
    const auto& variables = n_.system.variables();
    n_.followed.resize(variables.size());
    equations_of_.resize(variables.size());
    for (std::size_t v = 0; v < variables.size(); ++v) {
      if (variables[v].status != Variable::Status::unmeasured) n_.followed[v] = variables[v].value;
    }
    for (std::size_t e = 0; e < n_.equations.size(); ++e) {
      for (const VariableIndex v : n_.equations[e].members) {
        if (n_.followed[v]) continue;
        ++unknowns_[e];
        equations_of_[v].push_back(e);
      }
      if (unknowns_[e] == 1) ready_.push_back(e);
    }
  }

  void run() {
    while (!ready_.empty()) {
      const std::size_t e = ready_.front();
      ready_.pop_front();
      const auto& members = n_.equations[e].members;
      const auto it = std::find_if(members.begin(), members.end(), [&](VariableIndex v) { return !n_.followed[v]; });
      if (it == members.end()) continue;
      const std::size_t member = static_cast<std::size_t>(it - members.begin());
      const auto value = solved(*n_.equations[e].equation, member, values_of(n_.equations[e]));
      if (!value || !std::isfinite(*value)) continue;
      n_.followed[*it] = *value;
      n_.steps.push_back({e, *it, member});
      for (const std::size_t other : equations_of_[*it]) {
        if (--unknowns_[other] == 1) ready_.push_back(other);
      }
    }
    n_.least_member.assign(n_.equations.size(), 0);
    for (std::size_t e = 0; e < n_.equations.size(); ++e) {
      const Equation& equation = *n_.equations[e].equation;
      if (equation.shape == Shape::least) n_.least_member[e] = least_of(equation, values_of(n_.equations[e]));
    }
  }

 private:
  // Unknown ones are NaN.
  std::vector<double> values_of(const NetworkEquation& eq) const {
    std::vector<double> x;
    for (const VariableIndex v : eq.members) x.push_back(n_.followed[v].value_or(nowhere));
    return x;
  }

  Network& n_;
  std::vector<int> unknowns_;
  std::vector<std::vector<std::size_t>> equations_of_;
  std::deque<std::size_t> ready_;
};

class Builder {
 public:
  Builder(const std::vector<const Draft*>& drafts, const FigureBook& book, const std::set<model::FigureId>& freed)
      : drafts_(drafts), book_(book), freed_(freed) {}

  Network run() {
    for (const Draft* draft : drafts_) {
      auto& variables = n_.variables.emplace_back();
      for (const Quantity& q : draft->quantities) variables.push_back(variable_of(q));
    }
    for (std::size_t d = 0; d < drafts_.size(); ++d) {
      for (const Equation& e : drafts_[d]->equations) {
        NetworkEquation eq{drafts_[d], &e, {}};
        for (const std::size_t m : e.members) eq.members.push_back(n_.variables[d][m]);
        n_.equations.push_back(std::move(eq));
      }
    }
    choose_scales();
    Following(n_).run();
    start_from_what_follows();
    for (std::size_t e = 0; e < n_.equations.size(); ++e) constrain(e);
    return std::move(n_);
  }

 private:
  VariableIndex variable_of(const Quantity& q) {
    if (q.from == Quantity::From::figure) {
      const auto it = n_.figures.find(q.figure);
      return it != n_.figures.end() ? it->second : n_.figures[q.figure] = add(q, figure_variable(q));
    }
    if (q.from == Quantity::From::constant) {
      const bool shared = q.spread > hardly_uncertain * std::fabs(q.value);
      const auto it = constants_.find(q.key);
      if (shared && it != constants_.end()) return it->second;
      Variable v = Variable::measured(q.name, q.value, q.spread);
      v.suspect = false;
      return constants_[q.key] = add(q, std::move(v));
    }
    return add(q, Variable::wanted(q.name));
  }

  Variable figure_variable(const Quantity& q) const {
    const FigureValue* value = book_.find(q.figure);
    if (value == nullptr || !value->stated || freed_.contains(q.figure)) return Variable::wanted(q.name);
    Variable v = Variable::measured(q.name, value->si, value->si_spread);
    v.freedom = value->shape.degrees_of_freedom;
    return v;
  }

  VariableIndex add(const Quantity& q, Variable v) {
    n_.quantities.push_back(&q);
    return n_.system.add(std::move(v));
  }

  // What is measured and only multiplies is adjusted by a factor, as is every positive unknown that multiplies.
  void choose_scales() {
    std::vector<bool> in_product(n_.quantities.size(), false);
    std::vector<bool> in_sum(n_.quantities.size(), false);
    for (const NetworkEquation& eq : n_.equations) {
      for (const VariableIndex v : eq.members) {
        (multiplies(eq.equation->shape) ? in_product : in_sum)[v] = true;
      }
    }
    for (VariableIndex v = 0; v < n_.quantities.size(); ++v) {
      Variable& variable = n_.system.variable(v);
      if (!in_product[v] || variable.status == Variable::Status::constant) continue;
      variable.positive = true;
      const bool wanted = variable.status == Variable::Status::unmeasured;
      if (wanted || !in_sum[v]) variable.scale = Scale::logarithmic;
    }
  }

  // A search from there stays where laws have a value: a table of densities knows no strength but its own.
  void start_from_what_follows() {
    for (VariableIndex v = 0; v < n_.quantities.size(); ++v) {
      Variable& variable = n_.system.variable(v);
      const auto& value = n_.followed[v];
      if (variable.status != Variable::Status::unmeasured || !value || !std::isfinite(*value)) continue;
      if (variable.positive && !(*value > 0)) continue;
      variable.value = *value;
      variable.has_start = true;
    }
  }

  void constrain(std::size_t index) {
    const NetworkEquation& eq = n_.equations[index];
    const Equation& e = *eq.equation;
    Constraint c{e.name, eq.members, nullptr};
    switch (e.shape) {
      case Shape::product:
        c.law = product_law(e.weights, e.constant);
        break;
      case Shape::ratio:
        c.law = ratio_law(e.constant);
        break;
      case Shape::sum:
        c.law = linear_law(e.weights, e.constant);
        break;
      case Shape::least: {
        const std::size_t least = std::max<std::size_t>(n_.least_member[index], 1);
        c.variables = {eq.members[0], eq.members[least]};
        c.law = product_law({-1, 1}, 1 / e.weights[least]);
        break;
      }
      case Shape::special:
        c.law = e.law;
        break;
    }
    n_.system.add(std::move(c));
  }

  const std::vector<const Draft*>& drafts_;
  const FigureBook& book_;
  const std::set<model::FigureId>& freed_;
  std::map<std::string, VariableIndex> constants_;
  Network n_;
};

}  // namespace

Network network_of(const std::vector<const Draft*>& drafts, const FigureBook& book,
                   const std::set<model::FigureId>& freed) {
  return Builder(drafts, book, freed).run();
}

double follow_again(const Network& network, VariableIndex wanted, std::vector<double>& values) {
  return follow_again(network, network.steps, wanted, values);
}

double follow_again(const Network& network, const std::vector<Given>& steps, VariableIndex wanted,
                    std::vector<double>& values) {
  std::vector<double> x;
  for (const Given& step : steps) {
    const NetworkEquation& eq = network.equations[step.equation];
    x.clear();
    for (const VariableIndex v : eq.members) x.push_back(values[v]);
    values[step.variable] = solved(*eq.equation, step.member, x).value_or(nowhere);
    if (step.variable == wanted) break;
  }
  return values[wanted];
}

std::vector<std::string> obstacles(const Draft& draft, const FigureBook& book) {
  std::vector<std::string> result;
  std::set<std::size_t> seen;
  for (const Equation& e : draft.equations) {
    if (!multiplies(e.shape)) continue;
    for (const std::size_t m : e.members) {
      const Quantity& q = draft.quantities[m];
      if (q.from != Quantity::From::figure || !seen.insert(m).second) continue;
      const FigureValue* value = book.find(q.figure);
      if (value != nullptr && value->stated && value->si <= 0) {
        result.push_back("a value of " + q.name + " above zero, not " + said_text(*value).text);
      }
    }
  }
  return result;
}

}  // namespace sash::workings::inner
