#pragma once
// Scores what was read from a narration against its labels, by the rules of tests/known/narration/README.md.

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "narration/text.h"
#include "nlohmann/json_fwd.hpp"
#include "scoring/checked.h"

namespace sash::test {

/// Links of one sort: how many the labels have, how many were predicted between figures that match labels, how many
/// agree.
struct LinkScore {
  int labels = 0;
  int predicted = 0;
  int right = 0;
  double recall() const { return labels == 0 ? 1 : static_cast<double>(right) / labels; }
  double precision() const { return predicted == 0 ? 1 : static_cast<double>(right) / predicted; }
};

/// Mistakes that were planted in narrations, and what the checks made of them.
struct MistakeScore {
  int narrations = 0;
  int planted = 0;
  int found = 0;            ///< a conflict names the wrong figure, or another of its sample, as the one that is wrong
  int false_conflicts = 0;  ///< conflicts in which no wrong figure stands
  std::string line() const;
};

struct Scores {
  int narrations = 0;
  int labels = 0;
  int found = 0;
  int false_alarms = 0;
  int approx_right = 0;
  int role_right = 0;
  int with_subject = 0;
  int subject_right = 0;
  LinkScore same;         ///< pairs of figures of one sample
  LinkScore other;        ///< corrected_by, attached_to, fraction_of, sum_of
  MistakeScore read;      ///< after our own reading
  MistakeScore labelled;  ///< after the reading that the labels describe

  double recall() const { return labels == 0 ? 1 : static_cast<double>(found) / labels; }
  double precision() const {
    return found + false_alarms == 0 ? 1 : static_cast<double>(found) / (found + false_alarms);
  }
  double approx() const { return found == 0 ? 1 : static_cast<double>(approx_right) / found; }
  double role() const { return found == 0 ? 1 : static_cast<double>(role_right) / found; }
  double subject() const { return with_subject == 0 ? 1 : static_cast<double>(subject_right) / with_subject; }
  std::string line() const;  ///< all of it on one line
};

/// Label files of a folder in the order of their names, or the one label file.
std::vector<std::filesystem::path> label_files(const std::filesystem::path& path);
nlohmann::json labels_of(const std::filesystem::path& file);
/// The narration that the labels are of; it lies beside them.
narration::NarrationText narration_of(const std::filesystem::path& file, const nlohmann::json& labels);

/// Without case, "solution" and words for water of crystallisation: how subjects are compared.
std::string normal_subject(const nlohmann::json& subject);
/// Whether two places, each {t0, at, text} or with parts, share a character.
bool overlap(const nlohmann::json& a, const nlohmann::json& b);
/// The first that stands of the sample that figure `i` belongs to.
int first_of(const nlohmann::json& figures, int i);

/// Every label as itself: for figures that are the labels.
std::map<int, int> every_label(const nlohmann::json& labels);
/// Which label each figure of `predicted` is.
std::map<int, int> matched(const nlohmann::json& labels, const nlohmann::json& predicted);
/// Adds what the checks made of a narration; `keep` gives the label of each figure in the conflicts.
void add_mistakes(const nlohmann::json& labels, const std::vector<Conflict>& conflicts, const std::map<int, int>& keep,
                  MistakeScore& to);
/// Adds how well a narration was read.
void add_score(const nlohmann::json& labels, const nlohmann::json& predicted, Scores& to);

/// Reads and scores all narrations of tests/known/narration/`folder`; `checked` also takes them through the checks,
/// which takes longer than all the rest.
Scores score_folder(const std::string& folder, bool checked);

}  // namespace sash::test
