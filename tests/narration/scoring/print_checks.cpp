// Prints what the checks make of labelled narrations: print_checks [--relations] LABELS_OR_FOLDER...
// For each: the mistakes that were planted and not found, and the conflicts in which none stands, once after our own
// reading and once after the reading that the labels describe. Then every claim that the labels call sound is made
// wrong, one at a time, in that reading: what is not found then is printed too.

#include <fmt/format.h>

#include <iostream>
#include <nlohmann/json.hpp>

#include "scoring/labelled.h"
#include "scoring/predictions.h"
#include "scoring/score.h"
#include "support/text.h"

namespace sash::test {
namespace {

using nlohmann::json;

std::string words_of(const narration::Reading& reading, const std::vector<std::size_t>& figures) {
  std::string out;
  for (const std::size_t f : figures) {
    if (f >= reading.figures.size()) continue;
    out += fmt::format("{}#{} {}", out.empty() ? "" : " | ", f, reading.figures[f].text);
  }
  return out;
}

void print_conflicts(const char* how, const narration::Reading& reading, const std::vector<Conflict>& conflicts) {
  for (const Conflict& c : conflicts) {
    std::cout << "  " << how << " " << c.relation << ": " << c.sentence
              << "\n        stand: " << words_of(reading, c.figures)
              << "\n        named: " << words_of(reading, c.named) << '\n';
  }
}

struct Sums {
  MistakeScore read;
  MistakeScore labelled;
  int made_wrong = 0;
  int noticed = 0;
};

void print_file(const std::filesystem::path& file, bool with_relations, Sums& sums) {
  const json labels = labels_of(file);
  const narration::NarrationText text = narration_of(file, labels);
  const narration::Reading own = narration::read_figures(text);
  const narration::Reading gold = labelled(labels, text);
  MistakeScore read;
  MistakeScore perfect;
  const std::vector<Conflict> by_own = conflicts_of(text, own);
  const std::vector<Conflict> by_gold = conflicts_of(text, gold);
  const std::map<int, int> keep = matched(labels, predictions(text, own));
  for (MistakeScore* to : {&read, &sums.read}) add_mistakes(labels, by_own, keep, *to);
  for (MistakeScore* to : {&perfect, &sums.labelled}) add_mistakes(labels, by_gold, every_label(labels), *to);
  std::cout << file.filename().string() << "\n  read:   " << read.line() << "\n  labels: " << perfect.line() << '\n';
  print_conflicts("read  ", own, by_own);
  print_conflicts("labels", gold, by_gold);
  if (with_relations)
    std::cout << "  relations, read:\n"
              << relations_of(text, own) << "  relations, labels:\n"
              << relations_of(text, gold);
  for (const json& claim : labels.value("sound_claims", json::array())) {
    narration::Reading bent = gold;
    make_wrong(bent.figures[claim["figures"].back()]);
    json mistaken = labels;
    mistaken["planted_errors"] = json::array({claim});
    MistakeScore score;
    add_mistakes(mistaken, conflicts_of(text, bent), every_label(labels), score);
    ++sums.made_wrong;
    sums.noticed += score.found;
    if (score.found != 0) continue;
    std::cout << "  unnoticed: " << claim["what"] << ": "
              << words_of(gold, claim["figures"].get<std::vector<std::size_t>>()) << '\n';
    if (with_relations) {
      const std::string relations = relations_of(text, bent);
      for (const std::string_view line : split_lines(relations)) {
        if (line.find(fmt::format("#{} ", claim["figures"].back().get<int>())) != std::string_view::npos)
          std::cout << "      " << line << '\n';
      }
    }
  }
}

}  // namespace
}  // namespace sash::test

int main(int count, char** arguments) {
  sash::test::Sums sums;
  bool with_relations = false;
  for (int i = 1; i < count; ++i) {
    if (std::string_view(arguments[i]) == "--relations") {
      with_relations = true;
      continue;
    }
    for (const auto& file : sash::test::label_files(arguments[i])) sash::test::print_file(file, with_relations, sums);
  }
  std::cout << "read:   " << sums.read.line() << "\nlabels: " << sums.labelled.line() << "\nmade wrong: noticed "
            << sums.noticed << " of " << sums.made_wrong << '\n';
  return 0;
}
