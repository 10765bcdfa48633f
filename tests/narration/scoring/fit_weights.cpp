// Fits the weights of the cues (assets/tables/narration_weights.tsv) to labelled narrations.
//   fit_weights FOLDER...            prints the table
//   fit_weights --leave-out FOLDER... leaves each group of narrations out in turn, fits to the others, and prints how
//                                    those left out are read: what to expect of narrations nobody fitted to
//                                    (and, with --write FOLDER first, writes each reading there; --on as well)
//   fit_weights --rules FOLDER...    prints how they are read when the rules decide alone
//   fit_weights --on WEIGHED FOLDER... fits to the folders and prints how WEIGHED is read

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <iostream>
#include <set>

#include "narration/inner/scene.h"
#include "scoring/checked.h"
#include "scoring/fitting.h"
#include "scoring/predictions.h"
#include "scoring/score.h"

namespace {

using sash::test::LabelledNarration;

/// Of "FOLDER", or "FOLDER*3" for narrations that count three times.
std::vector<LabelledNarration> narrations_of(const std::string& words) {
  std::vector<LabelledNarration> all;
  const std::size_t star = words.find('*');
  for (const auto& file : sash::test::label_files(words.substr(0, star))) {
    LabelledNarration n;
    if (star != std::string::npos) n.emphasis = std::stod(words.substr(star + 1));
    n.name = file.stem().string();
    n.group = n.name.substr(0, 2);
    n.labels = sash::test::labels_of(file);
    n.text = sash::test::narration_of(file, n.labels);
    all.push_back(std::move(n));
  }
  return all;
}

void add(const LabelledNarration& n, const sash::narration::Weights& weights, sash::test::Scores& to,
         const std::filesystem::path& readings = {}) {
  const auto reading = sash::narration::read_figures(n.text.lines, {&weights, nullptr});
  const auto predicted = sash::test::predictions(n.text, reading);
  if (!readings.empty()) std::ofstream(readings / (n.name + ".json")) << predicted.dump(1) << '\n';
  sash::test::add_score(n.labels, predicted, to);
  sash::test::add_mistakes(n.labels, sash::test::conflicts_of(n.text, reading),
                           sash::test::matched(n.labels, predicted), to.read);
}

}  // namespace

int main(int count, char** arguments) {
  std::vector<std::string> words(arguments + 1, arguments + count);
  std::filesystem::path readings;
  if (words.size() > 1 && words.front() == "--write") {
    readings = words[1];
    words.erase(words.begin(), words.begin() + 2);
  }
  std::string mode;
  if (!words.empty() && words.front().starts_with("--")) {
    mode = words.front();
    words.erase(words.begin());
  }
  std::vector<LabelledNarration> other;
  if (mode == "--on" && !words.empty()) {
    other = narrations_of(words.front());
    words.erase(words.begin());
  }
  std::vector<LabelledNarration> all;
  for (const std::string& folder : words) {
    for (LabelledNarration& n : narrations_of(folder)) all.push_back(std::move(n));
  }
  std::vector<const LabelledNarration*> some;
  for (const LabelledNarration& n : all) some.push_back(&n);
  const sash::test::FittingPlan plan;
  if (mode == "--rules") {
    const auto weights = sash::test::weights_from(sash::test::rules_alone());
    sash::test::Scores scores;
    for (const LabelledNarration& n : all) add(n, weights, scores);
    for (const auto& [question, t] : sash::test::tally(some, sash::test::rules_alone()))
      std::cout << fmt::format("{}: {} of {} right\n", question, t.right, t.all);
    std::cout << scores.line() << '\n';
    return 0;
  }
  if (mode == "--leave-out") {
    std::set<std::string> groups;
    for (const LabelledNarration& n : all) groups.insert(n.group);
    sash::test::Scores total;
    std::map<std::string, sash::test::Tally> tallies;
    for (const std::string& group : groups) {
      some.clear();
      for (const LabelledNarration& n : all) {
        if (n.group != group) some.push_back(&n);
      }
      const sash::test::CueWeights found = sash::test::fit(some, plan);
      const auto weights = sash::test::weights_from(found);
      some.clear();
      for (const LabelledNarration& n : all) {
        if (n.group == group) some.push_back(&n);
      }
      for (const auto& [question, t] : sash::test::tally(some, found)) {
        tallies[question].all += t.all;
        tallies[question].right += t.right;
      }
      sash::test::Scores scores;
      for (const LabelledNarration& n : all) {
        if (n.group != group) continue;
        add(n, weights, scores, readings);
        add(n, weights, total);
      }
      std::cout << group << ": " << scores.line() << '\n';
    }
    for (const auto& [question, t] : tallies)
      std::cout << fmt::format("{}: {} of {} right\n", question, t.right, t.all);
    std::cout << "left out: " << total.line() << '\n';
    return 0;
  }
  const sash::test::CueWeights found = sash::test::fit(some, plan);
  if (mode == "--on") {
    const auto weights = sash::test::weights_from(found);
    sash::test::Scores scores;
    for (const LabelledNarration& n : other) add(n, weights, scores, readings);
    some.clear();
    for (const LabelledNarration& n : other) some.push_back(&n);
    for (const auto& [question, t] : sash::test::tally(some, found))
      std::cout << fmt::format("{}: {} of {} right\n", question, t.right, t.all);
    std::cout << scores.line() << '\n';
    return 0;
  }
  std::cout << "cue\tweight\tsource\n";
  for (const auto& [cue, weight] : found)
    std::cout << fmt::format("{}\t{:.2f}\tfitted to labelled narrations\n", cue, weight);
  return 0;
}
