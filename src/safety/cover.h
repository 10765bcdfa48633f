#pragma once
// Cover: whether every hazard has a callout, early enough and long enough to be read or heard.
// It judges times and words only; whether the words are the right ones is a person's business. Screening, not approval.
// Pure; no clock. Sources stand with each limit (assets/tables/reading_limits.tsv).

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/record.h"

namespace sash::safety {

/// What is wrong with a hazard's cover, worst first.
enum class Gap {
  unannounced,   ///< no callout is tied to the hazard
  late,          ///< the first callout starts after the hazard does
  short_notice,  ///< it starts before, but too shortly before to be acted on
  unreadable,    ///< shown too briefly for its text
  too_long,      ///< more text than a callout should carry
  ends_early,    ///< the last callout ends well before the hazard does
  none,          ///< covered
};

std::string_view gap_name(Gap gap);   ///< for files: "unannounced"
std::string_view gap_label(Gap gap);  ///< for the screen: "not announced"

/// Limits for reading a shown text, named by their publisher.
struct ReadingLimits {
  std::string name;
  double characters_per_second = 17;
  std::optional<double> words_per_minute;
  double least_seconds = 1.0;
  double most_seconds = 7.0;
  int line_characters = 42;
  int lines = 2;
  double lead_seconds = 2.0;  ///< how long before the hazard its callout should begin (common practice, no source)
  std::string source;
};

/// The named profiles, the default first.
const std::vector<ReadingLimits>& reading_profiles();

/// One thing found about one hazard.
struct CoverFinding {
  model::HazardId hazard;
  std::optional<model::CalloutId> callout;  ///< the one at fault, where one is
  Gap gap = Gap::none;
  std::string sentence;                     ///< for the person: what, by how much, what would mend it
  Moment at;                                ///< where to look, in the hazard's footage
};

struct Cover {
  std::vector<CoverFinding> findings;  ///< one or more a hazard (Gap::none when covered), worst first, then by time
  int hazards = 0;
  int covered = 0;
};

/// Judges all hazards of the record that were not refused, with the record's reading profile.
Cover check_cover(const model::Record& record);

}  // namespace sash::safety
