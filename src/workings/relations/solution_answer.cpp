#include "workings/relations/solution_answer.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace sash::workings {
namespace {

constexpr double slope_step = 1e-5;       // relative; the solver is good to some 1e-12
constexpr double least_molarity = 1e-12;  // where an unknown strength is looked for, mol/L
constexpr double most_molarity = 20;
constexpr int grid = 40;

template <typename Off>
double halved(const Off& off, double low, double high, double at_low) {
  for (int round = 0; round < 60; ++round) {
    const double middle = (low + high) / 2;
    if ((off(middle) <= 0) == (at_low <= 0)) {
      low = middle;
    } else {
      high = middle;
    }
  }
  return (low + high) / 2;
}

}  // namespace

SolutionAnswer::SolutionAnswer(std::shared_ptr<const MassActionModel> model, Asked asked, SolutionInputs inputs)
    : model_(std::move(model)), asked_(asked), inputs_(std::move(inputs)) {}

double SolutionAnswer::operator()(std::span<const double> in) const {
  for (const double strength : strengths(in)) {
    if (!(strength >= 0)) return std::numeric_limits<double>::quiet_NaN();
  }
  const auto shifts = shifts_in(in);
  const auto answer = shifts ? model_->shifted(*shifts).answer(asked_, molarities(in), held(in))
                             : model_->answer(asked_, molarities(in), held(in));
  if (!answer) return std::numeric_limits<double>::quiet_NaN();
  return asked_.what == Asked::What::ph ? *answer : litres * *answer;
}

double SolutionAnswer::residual(std::span<const double> x, std::span<double> slope) const {
  const Tangent tangent = tangent_at(x.subspan(1));
  slope[0] = 1;
  for (std::size_t i = 0; i < tangent.slopes.size(); ++i) slope[i + 1] = -tangent.slopes[i];
  return x[0] - tangent.here;
}

SolutionAnswer::Tangent SolutionAnswer::tangent_at(std::span<const double> where) const {
  {
    const std::lock_guard lock(guard_);
    if (std::ranges::equal(last_.in, where)) return last_;
  }
  Tangent tangent{{where.begin(), where.end()}, (*this)(where), {}};
  std::vector<double> in = tangent.in;
  for (double& at : in) {
    const double before = at;
    const double step = slope_step * std::max(std::fabs(at), least_molarity * litres);
    at += step;
    tangent.slopes.push_back(((*this)(in)-tangent.here) / step);
    at = before;
  }
  const std::lock_guard lock(guard_);
  return last_ = std::move(tangent);
}

std::optional<double> SolutionAnswer::solve(double y, std::vector<double> in, std::size_t wanted) const {
  const auto off = [&](double logarithm) {
    in[wanted] = std::pow(10, logarithm);
    return (*this)(in)-y;
  };
  double low = std::log10(least_molarity * litres);
  double before = off(low);
  const double end = std::log10(most_molarity * litres);
  const double step = (end - low) / grid;
  for (int i = 0; i < grid; ++i, low += step) {
    const double after = off(low + step);
    if (std::isfinite(before) && std::isfinite(after) && before != after && (before <= 0) != (after <= 0)) {
      return std::pow(10, halved(off, low, low + step, before));
    }
    before = after;
  }
  return std::nullopt;
}

Outcome<chem::Equilibrium> SolutionAnswer::state(std::span<const double> in) const {
  const auto shifts = shifts_in(in);
  return shifts ? model_->shifted(*shifts).settle(molarities(in), held(in)) : model_->settle(molarities(in), held(in));
}

std::vector<double> SolutionAnswer::molarities(std::span<const double> in) const {
  std::vector<double> result;
  for (const double c : strengths(in)) result.push_back(c / litres);
  return result;
}

std::optional<double> SolutionAnswer::held(std::span<const double> in) const {
  return inputs_.held_by_figure ? std::optional(in[inputs_.strengths]) : inputs_.held;
}

// Of all constants of the system; nothing where all stand as they are.
std::optional<std::vector<double>> SolutionAnswer::shifts_in(std::span<const double> in) const {
  std::vector<double> shifts(model_->system().constants().size(), 0.0);
  bool any = false;
  const auto constants = in.subspan(in.size() - inputs_.uncertain.size());
  for (std::size_t k = 0; k < constants.size(); ++k) {
    const double shift = constants[k] - inputs_.uncertain[k].log_k;
    shifts[inputs_.uncertain[k].index] = shift;
    any = any || shift != 0;
  }
  return any ? std::optional(std::move(shifts)) : std::nullopt;
}

}  // namespace sash::workings
