#pragma once
// One result of a solution at equilibrium (a pH, a species, what precipitates or dissolves) as a function of what goes
// in and of the constants that are not certain: value, slopes, and the other way round. The chemistry is
// mass_action_model.h; relations put it into laws. Private to the relations. Immutable but for the slopes asked for
// last, which it keeps, as each takes a solution to be settled; const calls are safe from any thread.

#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <vector>

#include "workings/relations/mass_action_model.h"

namespace sash::workings {

inline constexpr double litres = 1000;  ///< in a cubic metre

/// What goes into a solution, as it stands in a law: so many strengths in mol/m3, then a held pH where a figure holds
/// it, then log10 of those constants that are not certain.
struct SolutionInputs {
  std::size_t strengths = 0;
  bool held_by_figure = false;
  std::optional<double> held = {};  ///< a pH that is held as given
  std::vector<ModelConstant> uncertain = {};
};

class SolutionAnswer {
 public:
  SolutionAnswer(std::shared_ptr<const MassActionModel> model, Asked asked, SolutionInputs inputs);

  /// In SI: a pH, or mol/m3; NaN where there is none.
  double operator()(std::span<const double> in) const;

  /// The residual y - answer(in), for x = y, then in; slopes by differences.
  double residual(std::span<const double> x, std::span<double> slope) const;

  /// The strength or pH `wanted` for which the answer is `y`, between the least and the most there can be; nothing when
  /// none is.
  std::optional<double> solve(double y, std::vector<double> in, std::size_t wanted) const;

  Outcome<chem::Equilibrium> state(std::span<const double> in) const;
  const MassActionModel& model() const { return *model_; }
  const Asked& asked() const { return asked_; }

 private:
  std::span<const double> strengths(std::span<const double> in) const { return in.first(inputs_.strengths); }
  std::vector<double> molarities(std::span<const double> in) const;
  std::optional<double> held(std::span<const double> in) const;
  std::optional<std::vector<double>> shifts_in(std::span<const double> in) const;

  struct Tangent {
    std::vector<double> in;
    double here = 0;
    std::vector<double> slopes;
  };
  Tangent tangent_at(std::span<const double> in) const;

  std::shared_ptr<const MassActionModel> model_;
  Asked asked_;
  SolutionInputs inputs_;
  mutable std::mutex guard_;
  mutable Tangent last_;  // guarded by guard_
};

}  // namespace sash::workings
