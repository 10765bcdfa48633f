// Prints what is gained and lost by taking relations only from a certain confidence on.
//   print_tradeoff WEIGHTS_FOLDER LABELS_FOLDER...
// Every group of narrations (one author, one time) is read with weights fitted to all the others; those weights are
// kept in WEIGHTS_FOLDER, as fitting takes minutes. For each confidence: planted mistakes found, false conflicts, and,
// of the claims the labels call sound, each made wrong in our own reading, how many are noticed. Each conflict is
// printed with what its relation was worth: "+" where a wrong figure stands in it, "-" where none does.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>

#include "narration/inner/scene.h"
#include "scoring/fitting.h"
#include "scoring/labelled.h"
#include "scoring/predictions.h"
#include "scoring/score.h"

namespace sash::test {
namespace {

using nlohmann::json;

constexpr std::array<double, 7> steps = {0.46, 0.5, 0.55, 0.6, 0.65, 0.7, 0.8};

struct Row {
  MistakeScore planted;
  int made_wrong = 0;
  int noticed = 0;
};

std::vector<LabelledNarration> narrations_in(const std::vector<std::string>& folders) {
  std::vector<LabelledNarration> all;
  for (const std::string& folder : folders) {
    for (const auto& file : label_files(folder)) {
      LabelledNarration n;
      n.group = file.stem().string().substr(0, 2);
      n.labels = labels_of(file);
      n.text = narration_of(file, n.labels);
      all.push_back(std::move(n));
    }
  }
  return all;
}

/// Fitted to all groups but that one.
narration::Weights weights_without(const std::string& group, const std::vector<LabelledNarration>& all,
                                   const std::filesystem::path& folder) {
  const std::filesystem::path file = folder / (group + ".tsv");
  if (!std::filesystem::exists(file)) {
    std::vector<const LabelledNarration*> others;
    for (const LabelledNarration& n : all) {
      if (n.group != group) others.push_back(&n);
    }
    std::ofstream out(file);
    out << "cue\tweight\tsource\n";
    for (const auto& [cue, weight] : fit(others, {})) out << fmt::format("{}\t{:.3f}\tfitted\n", cue, weight);
  }
  std::ifstream in(file);
  return narration::Weights(std::string((std::istreambuf_iterator<char>(in)), {}));
}

class Tradeoff {
 public:
  void add(const LabelledNarration& n, const narration::Weights& weights) {
    const narration::Reading own = narration::read_figures(n.text.lines, {&weights, nullptr});
    const std::map<int, int> keep = matched(n.labels, predictions(n.text, own));
    for (std::size_t s = 0; s < steps.size(); ++s) {
      const auto conflicts = conflicts_from(n, own, steps[s]);
      add_mistakes(n.labels, conflicts, keep, rows_[s].planted);
      if (s == 0) print(n, own, conflicts, n.labels, keep, "");
    }
    for (const json& claim : n.labels.value("sound_claims", json::array())) bend(n, own, keep, claim);
  }

  void print() const {
    for (std::size_t s = 0; s < steps.size(); ++s) {
      const Row& r = rows_[s];
      std::cout << fmt::format("from {:.2f} on: {}; made wrong: noticed {} of {}\n", steps[s], r.planted.line(),
                               r.noticed, r.made_wrong);
    }
  }

 private:
  static std::vector<Conflict> conflicts_from(const LabelledNarration& n, const narration::Reading& reading,
                                              double least) {
    return conflicts_of(n.text, reading, [&](const model::Relation& r) { return r.origin.confidence >= least; });
  }

  void bend(const LabelledNarration& n, const narration::Reading& own, const std::map<int, int>& keep,
            const json& claim) {
    for (Row& r : rows_) ++r.made_wrong;
    const int wrong = claim["figures"].back();
    const auto read = std::find_if(keep.begin(), keep.end(), [&](const auto& pair) { return pair.second == wrong; });
    if (read == keep.end()) return;
    narration::Reading bent = own;
    make_wrong(bent.figures[static_cast<std::size_t>(read->first)]);
    json mistaken = n.labels;
    mistaken["planted_errors"] = json::array({claim});
    for (std::size_t s = 0; s < steps.size(); ++s) {
      MistakeScore score;
      const auto conflicts = conflicts_from(n, bent, steps[s]);
      add_mistakes(mistaken, conflicts, keep, score);
      rows_[s].noticed += score.found;
      if (s == 0) print(n, bent, conflicts, mistaken, keep, claim["what"].get<std::string>());
      if (score.found == 0) break;
    }
  }

  /// Those that have a wrong figure, and, with nothing made wrong, those that have none.
  static void print(const LabelledNarration& n, const narration::Reading& reading,
                    const std::vector<Conflict>& conflicts, const json& labels, const std::map<int, int>& keep,
                    const std::string& bent) {
    for (const Conflict& c : conflicts) {
      MistakeScore score;
      add_mistakes(labels, {c}, keep, score);
      if (score.false_conflicts != 0 && !bent.empty()) continue;
      std::string figures;
      for (const std::size_t f : std::set<std::size_t>(c.figures.begin(), c.figures.end())) {
        const narration::SpokenFigure& x = reading.figures[f];
        figures += fmt::format(" | #{} {} s{:.2f} r{:.2f} t{:.2f} {}{}", f, x.text, x.subject_sure, x.role_sure,
                               x.sample_sure, x.subject, x.unit_said ? "" : " (unit unsaid)");
      }
      std::replace(figures.begin(), figures.end(), '\n', ' ');
      std::cout << fmt::format("{} {} {} {:.2f} {}{}{}{}\n",
                               score.false_conflicts != 0 ? "-"
                               : bent.empty()             ? "+"
                                                          : "*",
                               n.labels["file"].get<std::string>(), c.relation, c.confidence, c.rule, figures,
                               bent.empty() ? "" : " // ", bent);
    }
  }

  std::array<Row, steps.size()> rows_;
};

void run(const std::filesystem::path& weights_folder, const std::vector<std::string>& folders) {
  const std::vector<LabelledNarration> all = narrations_in(folders);
  std::filesystem::create_directories(weights_folder);
  std::set<std::string> groups;
  for (const LabelledNarration& n : all) groups.insert(n.group);
  Tradeoff tradeoff;
  for (const std::string& group : groups) {
    const narration::Weights weights = weights_without(group, all, weights_folder);
    for (const LabelledNarration& n : all) {
      if (n.group == group) tradeoff.add(n, weights);
    }
  }
  tradeoff.print();
}

}  // namespace
}  // namespace sash::test

int main(int count, char** arguments) {
  if (count < 3) {
    std::cerr << "print_tradeoff WEIGHTS_FOLDER LABELS_FOLDER...\n";
    return 2;
  }
  sash::test::run(arguments[1], std::vector<std::string>(arguments + 2, arguments + count));
  return 0;
}
