#include "workings/system.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "support/check.h"

namespace sash::workings {
namespace {

constexpr double enormous = 1e150;  // beyond it a square is no finite number any more

std::optional<Fault> fault_of(const Variable& v) {
  const auto fault = [&](Code code, const std::string& what) {
    return Fault::of(code, "The value of " + v.name + " " + what + ".", v.name);
  };
  const bool has_value = v.status != Variable::Status::unmeasured || v.has_start;
  if (has_value && !std::isfinite(v.value)) return fault(Code::not_finite, "is not a finite number");
  if (has_value && std::fabs(v.value) > enormous) return fault(Code::not_finite, "is too large to compute with");
  if (!std::isfinite(v.spread) || v.spread > enormous) return fault(Code::not_finite, "has no finite uncertainty");
  if (v.spread < 0) return fault(Code::out_of_range, "has a negative uncertainty");
  if (has_value && v.positive && v.value <= 0) return fault(Code::out_of_range, "must be above zero");
  return std::nullopt;
}

}  // namespace

Variable Variable::measured(std::string name, double value, double spread, Scale scale) {
  return {std::move(name), Status::measured, scale, value, spread, true, scale == Scale::logarithmic, true, {}};
}

Variable Variable::wanted(std::string name, std::optional<double> start, Scale scale) {
  return {std::move(name),
          Status::unmeasured,
          scale,
          start.value_or(0),
          0,
          start.has_value(),
          scale == Scale::logarithmic,
          true,
          {}};
}

Variable Variable::exact(std::string name, double value) {
  return {std::move(name), Status::constant, Scale::plain, value, 0, true, false, true, {}};
}

VariableIndex System::add(Variable variable) {
  if (variable.status == Variable::Status::measured && variable.spread == 0)
    variable.status = Variable::Status::constant;
  if (variable.scale == Scale::logarithmic) variable.positive = true;
  variables_.push_back(std::move(variable));
  return variables_.size() - 1;
}

ConstraintIndex System::add(Constraint constraint) {
  promise(constraint.law != nullptr, "a constraint has a law");
  auto seen = constraint.variables;
  std::sort(seen.begin(), seen.end());
  promise(seen.empty() || seen.back() < variables_.size(), "a constraint names variables that exist");
  promise(std::adjacent_find(seen.begin(), seen.end()) == seen.end(), "a constraint names a variable once");
  constraints_.push_back(std::move(constraint));
  return constraints_.size() - 1;
}

void System::correlate(VariableIndex a, VariableIndex b, double coefficient) {
  promise(a < variables_.size() && b < variables_.size() && a != b, "a correlation is between two variables");
  correlations_.push_back({a, b, coefficient});
}

Done System::sound() const {
  std::optional<Fault> first;
  for (const Variable& v : variables_) {
    auto fault = fault_of(v);
    if (!fault) continue;
    if (first) {
      first->others.push_back(v.name);
    } else {
      first = std::move(fault);
    }
  }
  if (first) return *first;
  for (const Correlation& c : correlations_) {
    if (std::isfinite(c.coefficient) && std::fabs(c.coefficient) < 1) continue;
    return Fault::of(Code::out_of_range, "The correlation of " + variables_[c.a].name + " and " + variables_[c.b].name +
                                             " must lie between -1 and 1.");
  }
  return {};
}

}  // namespace sash::workings
