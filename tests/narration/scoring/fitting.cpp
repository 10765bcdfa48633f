#include "scoring/fitting.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <unordered_map>

#include "narration/inner/scene.h"
#include "scoring/predictions.h"
#include "scoring/score.h"

namespace sash::test {

namespace {

using narration::Decision;
using nlohmann::json;

struct Answer {
  std::vector<std::size_t> cues;
  bool right = false;
};
struct Example {
  std::string_view question;
  std::vector<Answer> answers;
  double emphasis = 1;
};

/// Cues as numbers, and how many narrations have each.
class Cues {
 public:
  std::size_t number(const std::string& cue, std::size_t narration) {
    const auto [it, added] = numbers_.try_emplace(cue, names_.size());
    if (added) {
      names_.push_back(cue);
      met_.emplace_back();
    }
    met_[it->second].insert(narration);
    return it->second;
  }
  std::size_t size() const { return names_.size(); }
  const std::string& name(std::size_t cue) const { return names_[cue]; }
  bool common(std::size_t cue, int narrations) const { return static_cast<int>(met_[cue].size()) >= narrations; }

 private:
  std::unordered_map<std::string, std::size_t> numbers_;
  std::vector<std::string> names_;
  std::vector<std::set<std::size_t>> met_;
};

/// What most figures of product are about; empty where nothing is made.
std::string main_product(const json& figures) {
  std::map<std::string, int> counts;
  for (const json& f : figures) {
    const bool made = f["role"] == "product" || f["role"] == "recovered";
    if (made && f["subject"].is_string()) ++counts[normal_subject(f["subject"])];
  }
  std::string most;
  for (const auto& [subject, count] : counts) {
    if (most.empty() || count > counts[most]) most = subject;
  }
  return most;
}

/// Whether an answer is what the labels say; `label_of` are the labels of the figures.
bool is_right(const Decision& decision, const std::string& what, const json& figures, int label,
              const std::map<int, int>& label_of) {
  if (decision.question == "product") return normal_subject(json(what)) == main_product(figures);
  const json& gold = figures[static_cast<std::size_t>(label)];
  if (decision.question == "subject") return normal_subject(gold["subject"]) == normal_subject(json(what));
  if (decision.question == "role") return gold["role"] == what;
  const bool restates = gold["same_sample_as"].is_number_integer();
  if (what == "none") return !restates;
  const auto other = label_of.find(std::stoi(what));
  return restates && other != label_of.end() && first_of(figures, other->second) == first_of(figures, label);
}

std::vector<Example> examples_of(std::span<const LabelledNarration* const> some, const narration::Weights& weights,
                                 Cues& cues) {
  std::vector<Example> all;
  for (std::size_t n = 0; n < some.size(); ++n) {
    std::vector<Decision> decisions;
    const auto reading = narration::read_figures(some[n]->text.lines, {&weights, &decisions});
    const auto label_of = matched(some[n]->labels, predictions(some[n]->text, reading));
    for (const Decision& d : decisions) {
      const bool whole = d.question == "product";
      const auto label = whole ? label_of.begin() : label_of.find(static_cast<int>(d.figure));
      if (label == label_of.end()) continue;
      Example e;
      e.question = d.question;
      e.emphasis = some[n]->emphasis;
      bool any = false;
      for (const Decision::Answer& a : d.answers) {
        Answer answer;
        answer.right = is_right(d, a.what, some[n]->labels["figures"], label->second, label_of);
        any = any || answer.right;
        for (const std::string& cue : a.cues) answer.cues.push_back(cues.number(cue, n));
        e.answers.push_back(std::move(answer));
      }
      if (any) all.push_back(std::move(e));
    }
  }
  return all;
}

/// What is known before any narration is read: chemistry that comes out right is no chance, and nobody gives the moles
/// of the water that something was dissolved in.
const CueWeights& expectations() {
  static const CueWeights known{{"product/by rule", 2},
                                {"product/masses and amounts are its own/1", 1},
                                {"product/masses and amounts are its own/2", 1.5},
                                {"product/masses and amounts are its own/3", 2},
                                {"product/masses and amounts are its own/more", 2},
                                {"product/measured out before/all its elements/in/2", 1.5},
                                {"product/measured out before/all its elements/in/3", 1.5},
                                {"product/measured out before/none", -1},
                                {"product/said to have come out", 1},
                                {"subject/by rule/percent_yield", 2},
                                {"subject/percent_yield/right after/mass/2", 2},
                                {"subject/percent_yield/right after/mass/4", 2},
                                {"subject/percent_yield/right after/mass/7", 1.5},
                                {"subject/titrating/titrant/volume/decimal", 2},
                                {"subject/titrating/indicator", -2},
                                {"subject/titrating/titrant/strength/of known strength", -0.5},
                                {"subject/amount/by its own figures/fits", 3},
                                {"subject/mass/by its own figures/fits", 2},
                                {"subject/strength/by its own figures/fits", 2},
                                {"subject/amount/by its own figures/does not fit", -0.5},
                                {"subject/amount/water", -1.5},
                                {"subject/amount/solvent", -1},
                                {"subject/amount/indicator", -2},
                                {"subject/mass/indicator", -1},
                                {"subject/strength/water", -2},
                                {"subject/expressly not", -2},
                                {"subject/strength/named before/0/same sentence", 2},
                                {"subject/amount/named before/0/same sentence", 1},
                                {"subject/mass/named before/0/same sentence", 1},
                                {"subject/nothing/mass", -1},
                                {"subject/nothing/volume", -2},
                                {"subject/nothing/gas_volume", -2},
                                {"subject/nothing/amount", -3},
                                {"subject/nothing/strength", -2},
                                {"subject/nothing/density", -2},
                                {"subject/nothing/percent_yield", -2},
                                {"subject/nothing/count", -1}};
  return known;
}

class Fitter {
 public:
  Fitter(const Cues& cues, const FittingPlan& plan) : plan_(plan), use_(cues.size()) {
    weights_.assign(cues.size(), 0);
    expected_.assign(cues.size(), 0);
    for (std::size_t c = 0; c < cues.size(); ++c) {
      use_[c] = cues.common(c, plan.narrations);
      const auto known = expectations().find(cues.name(c));
      if (known != expectations().end()) weights_[c] = expected_[c] = known->second;
    }
    slopes_.assign(cues.size(), 0);
    squares_.assign(cues.size(), 1e-6);
  }

  void pass(const std::vector<Example>& examples) {
    // A fixed shuffle: every 7919th, the thousandth prime.
    for (std::size_t k = 0; k < examples.size(); ++k) learn(examples[(k * 7919) % examples.size()]);
  }

  double weight(std::size_t cue) const { return use_[cue] ? weights_[cue] : 0; }

 private:
  void learn(const Example& e) {
    std::vector<double> share(e.answers.size());
    double most = -1e300;
    for (std::size_t a = 0; a < share.size(); ++a) {
      for (const std::size_t c : e.answers[a].cues) share[a] += weight(c);
      most = std::max(most, share[a]);
    }
    double all = 0;
    double right = 0;
    for (std::size_t a = 0; a < share.size(); ++a) {
      share[a] = std::exp(share[a] - most);
      all += share[a];
      if (e.answers[a].right) right += share[a];
    }
    touched_.clear();
    for (std::size_t a = 0; a < share.size(); ++a) {
      const double slope = (e.answers[a].right ? share[a] / right : 0) - share[a] / all;
      for (const std::size_t c : e.answers[a].cues) {
        if (!use_[c]) continue;
        if (slopes_[c] == 0) touched_.push_back(c);
        slopes_[c] += slope * e.emphasis;
      }
    }
    for (const std::size_t c : touched_) {
      const double slope = slopes_[c] - plan_.penalty * (weights_[c] - expected_[c]);
      slopes_[c] = 0;
      squares_[c] += slope * slope;
      weights_[c] += step / std::sqrt(squares_[c]) * slope;
    }
  }

  static constexpr double step = 0.15;
  FittingPlan plan_;
  std::vector<bool> use_;
  std::vector<double> weights_;
  std::vector<double> expected_;  ///< where the penalty draws the weights to
  std::vector<double> slopes_;
  std::vector<double> squares_;
  std::vector<std::size_t> touched_;
};

}  // namespace

narration::Weights weights_from(const CueWeights& cues) {
  narration::Weights weights;
  for (const auto& [cue, weight] : cues) weights.set(cue, weight);
  return weights;
}

CueWeights rules_alone() {
  CueWeights weights;
  for (const char* question : {"product", "subject", "role", "same"}) weights[std::string(question) + "/by rule"] = 3;
  return weights;
}

std::map<std::string, Tally> tally(std::span<const LabelledNarration* const> some, const CueWeights& weights) {
  Cues cues;
  const std::vector<Example> examples = examples_of(some, weights_from(weights), cues);
  std::map<std::string, Tally> found;
  for (const Example& e : examples) {
    const Answer* best = nullptr;
    double most = 0;
    for (const Answer& a : e.answers) {
      double sum = 0;
      for (const std::size_t c : a.cues) {
        const auto weight = weights.find(cues.name(c));
        sum += weight == weights.end() ? 0 : weight->second;
      }
      if (best != nullptr && sum <= most) continue;
      best = &a;
      most = sum;
    }
    Tally& to = found[std::string(e.question)];
    ++to.all;
    to.right += best->right ? 1 : 0;
  }
  return found;
}

CueWeights fit(std::span<const LabelledNarration* const> some, const FittingPlan& plan) {
  CueWeights found = rules_alone();
  for (int round = 0; round < plan.rounds; ++round) {
    Cues cues;
    const std::vector<Example> examples = examples_of(some, weights_from(found), cues);
    Fitter fitter(cues, plan);
    for (int pass = 0; pass < plan.passes; ++pass) fitter.pass(examples);
    found.clear();
    for (std::size_t c = 0; c < cues.size(); ++c) {
      constexpr double slight = 0.1;
      if (std::abs(fitter.weight(c)) >= slight) found[cues.name(c)] = fitter.weight(c);
    }
  }
  return found;
}

}  // namespace sash::test
