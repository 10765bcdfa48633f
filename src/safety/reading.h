#pragma once
// Reading: how long a shown text takes to read, by the named limits of publishers of captions, which do not agree with
// each other; the person chooses one. Pure.
// Sources: with each row of assets/tables/reading_limits.tsv.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sash::safety {

/// Limits for reading a shown text, named by what they are for.
struct ReadingLimits {
  std::string name;
  std::optional<double> characters_per_second;  ///< most; nothing when the publisher counts words
  std::optional<double> words_per_minute;       ///< most; nothing when the publisher counts characters
  double least_seconds = 1.0;
  double most_seconds = 7.0;
  int line_characters = 42;
  int lines = 2;
  double lead_seconds = 2.0;  ///< how long before a hazard its callout should begin
  std::string source;
};

/// The named profiles, the default ("timed text, general") among them.
const std::vector<ReadingLimits>& reading_profiles();

/// The profile of that name; the default when there is none.
const ReadingLimits& reading_profile(std::string_view name);

/// A text measured: words split at white space; characters are code points with spaces and punctuation, a line break
/// one.
struct TextSize {
  int words = 0;
  int characters = 0;
  int lines = 0;
  int longest_line = 0;
};
TextSize measure(std::string_view text);

/// Shortest time, in seconds, in which `size` may be shown under `limits` (at least limits.least_seconds).
double seconds_to_read(const TextSize& size, const ReadingLimits& limits);

/// What breaks the limits when a text of `size` is shown for `seconds`; all false when nothing does.
struct ReadingVerdict {
  bool too_fast = false;   ///< above the rate
  bool too_short = false;  ///< below the least time on screen
  bool too_long = false;   ///< above the most time on screen
  bool long_line = false;
  bool many_lines = false;
  bool passes() const { return !too_fast && !too_short && !too_long && !long_line && !many_lines; }
};
ReadingVerdict judge(const TextSize& size, double seconds, const ReadingLimits& limits);

}  // namespace sash::safety
