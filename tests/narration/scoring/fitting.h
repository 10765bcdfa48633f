#pragma once
// Fits the weights of narration's cues to labelled narrations: a softmax over the answers of each decision, with a
// penalty on large weights, by AdaGrad (Duchi, Hazan, Singer 2011). Decisions follow from earlier ones, so narrations
// are read again with what was fitted and fitted again, a few times over.

#include <filesystem>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "narration/inner/evidence.h"
#include "narration/text.h"
#include "nlohmann/json.hpp"

namespace sash::test {

struct LabelledNarration {
  std::string name;
  std::string group;  ///< narrations of one author and time, for leaving out together
  double emphasis = 1;
  nlohmann::json labels;
  narration::NarrationText text;
};

using CueWeights = std::map<std::string, double>;

narration::Weights weights_from(const CueWeights& cues);

/// Weights that leave every decision to the plain rules.
CueWeights rules_alone();

struct FittingPlan {
  int rounds = 3;         ///< reading and fitting again
  int passes = 30;        ///< over all decisions in each round
  double penalty = 0.12;  ///< per decision, on half the squared weights
  int narrations = 3;     ///< cues of fewer narrations are left out
};

CueWeights fit(std::span<const LabelledNarration* const> some, const FittingPlan& plan);

/// Decisions that have a right answer among theirs, and how many of them come out right.
struct Tally {
  int all = 0;
  int right = 0;
};
std::map<std::string, Tally> tally(std::span<const LabelledNarration* const> some, const CueWeights& weights);

}  // namespace sash::test
