#include "safety/reading.h"

#include <algorithm>

#include "embedded/reading_limits.h"
#include "support/check.h"
#include "support/text.h"

namespace sash::safety {
namespace {

// Rates are compared with a little room, so that a duration written in whole milliseconds does not break a limit it
// meets.
constexpr double rate_room = 1e-6;

std::vector<ReadingLimits> read_limits() {
  std::vector<ReadingLimits> out;
  const auto rows = split_lines(embedded::reading_limits);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const auto cell = split(rows[i], '\t');
    promise(cell.size() == 9, "nine columns in reading_limits.tsv");
    const auto number = [&](std::size_t c) { return read_number(cell[c]); };
    const auto whole = [&](std::size_t c) { return static_cast<int>(read_integer(cell[c]).value_or(0)); };
    out.push_back({std::string(cell[0]), number(1), number(2), number(3).value_or(1), number(4).value_or(7), whole(5),
                   whole(6), number(7).value_or(2), std::string(cell[8])});
  }
  return out;
}

}  // namespace

const std::vector<ReadingLimits>& reading_profiles() {
  static const std::vector<ReadingLimits> profiles = read_limits();
  return profiles;
}

const ReadingLimits& reading_profile(std::string_view name) {
  const auto& all = reading_profiles();
  const auto named = [&](std::string_view wanted) {
    return std::find_if(all.begin(), all.end(), [&](const ReadingLimits& l) { return l.name == wanted; });
  };
  const auto it = named(name);
  return it != all.end() ? *it : *named("timed text, general");
}

TextSize measure(std::string_view text) {
  TextSize size;
  if (trim(text).empty()) return size;
  int line = 0;
  bool in_word = false;
  size.lines = 1;
  for (std::size_t at = 0; at < text.size();) {
    const auto [c, length] = code_point_at(text, at);
    at += length;
    if (c == '\r') continue;
    ++size.characters;
    if (c == '\n') {
      ++size.lines;
      line = 0;
    } else {
      size.longest_line = std::max(size.longest_line, ++line);
    }
    const bool space = c == ' ' || c == '\t' || c == '\n' || c == 0xA0;
    if (!space && !in_word) ++size.words;
    in_word = !space;
  }
  return size;
}

double seconds_to_read(const TextSize& size, const ReadingLimits& limits) {
  double seconds = limits.least_seconds;
  if (limits.characters_per_second) seconds = std::max(seconds, size.characters / *limits.characters_per_second);
  if (limits.words_per_minute) seconds = std::max(seconds, size.words * 60.0 / *limits.words_per_minute);
  return seconds;
}

ReadingVerdict judge(const TextSize& size, double seconds, const ReadingLimits& limits) {
  ReadingVerdict verdict;
  const auto above = [&](double count, std::optional<double> rate, double per) {
    return rate && count * per > *rate * seconds * (1 + rate_room);
  };
  verdict.too_fast =
      above(size.characters, limits.characters_per_second, 1) || above(size.words, limits.words_per_minute, 60);
  verdict.too_short = seconds < limits.least_seconds;
  verdict.too_long = seconds > limits.most_seconds;
  verdict.long_line = size.longest_line > limits.line_characters;
  verdict.many_lines = size.lines > limits.lines;
  return verdict;
}

}  // namespace sash::safety
