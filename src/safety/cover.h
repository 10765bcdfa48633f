#pragma once
// Cover: whether every hazard has a callout, early enough and long enough to be read or heard.
// It judges times and words only; whether the words are the right ones is a person's business. Screening, not approval.
// Pure; no clock. The limits and their sources are in reading.h.

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
  ends_early,    ///< the last callout ends well before the hazard does
  none,          ///< covered
};

std::string_view gap_name(Gap gap);   ///< for files: "unannounced"
std::string_view gap_label(Gap gap);  ///< for the screen: "not announced"

/// One thing found about one hazard.
struct CoverFinding {
  model::HazardId hazard;
  std::optional<model::CalloutId> callout;  ///< the one at fault, where one is
  Gap gap = Gap::none;
  std::string sentence;  ///< for the person: what, by how much, what would mend it
  Moment at;             ///< where to look, in the hazard's footage
};

struct Cover {
  std::vector<CoverFinding> findings;  ///< one or more a hazard (Gap::none when covered), worst first, then by time
  int hazards = 0;
  int covered = 0;
};

/// Judges all hazards of the record that were not refused, with the record's reading profile.
Cover check_cover(const model::Record& record);

}  // namespace sash::safety
