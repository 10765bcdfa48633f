#pragma once
// Scores what was read from a narration against its labels, by the rules of tests/known/narration/README.md.

#include <string>

#include "nlohmann/json_fwd.hpp"

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

struct Scores {
  int narrations = 0;
  int labels = 0;
  int found = 0;
  int false_alarms = 0;
  int approx_right = 0;
  int role_right = 0;
  int with_subject = 0;
  int subject_right = 0;
  LinkScore same;   ///< pairs of figures of one sample
  LinkScore other;  ///< corrected_by, attached_to, fraction_of, sum_of
  int planted = 0;
  int planted_found = 0;
  int false_conflicts = 0;

  double recall() const { return labels == 0 ? 1 : static_cast<double>(found) / labels; }
  double precision() const {
    return found + false_alarms == 0 ? 1 : static_cast<double>(found) / (found + false_alarms);
  }
  double approx() const { return found == 0 ? 1 : static_cast<double>(approx_right) / found; }
  double role() const { return found == 0 ? 1 : static_cast<double>(role_right) / found; }
  double subject() const { return with_subject == 0 ? 1 : static_cast<double>(subject_right) / with_subject; }
  std::string line() const;  ///< all of it on one line
};

/// Adds one narration. `predicted` has "conflicts" beside the layout of the labels: figures of each, by index.
void add_score(const nlohmann::json& labels, const nlohmann::json& predicted, Scores& to);

/// Reads, takes through the checks and scores all narrations of tests/known/narration/`folder`.
Scores score_folder(const std::string& folder);

}  // namespace sash::test
