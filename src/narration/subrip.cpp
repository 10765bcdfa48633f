#include "narration/subrip.h"

#include <array>
#include <optional>

#include "support/text.h"

namespace sash::narration {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// "h:mm:ss,mmm" or "mm:ss,mmm" at `at`, which moves behind it.
std::optional<Moment> read_time(std::string_view s, std::size_t& at) {
  std::array<std::int64_t, 3> fields{};
  std::size_t count = 0;
  for (;;) {
    const std::size_t first = at;
    std::int64_t n = 0;
    while (at < s.size() && is_digit(s[at]) && at - first < 6) n = n * 10 + (s[at++] - '0');
    if (at == first) return std::nullopt;
    fields[count++] = n;
    if (count == 3 || at >= s.size() || s[at] != ':') break;
    ++at;
  }
  if (count < 2) return std::nullopt;
  std::int64_t millis = 0;
  if (at < s.size() && (s[at] == ',' || s[at] == '.') && at + 1 < s.size() && is_digit(s[at + 1])) {
    std::int64_t scale = 100;
    for (++at; at < s.size() && is_digit(s[at]); ++at, scale /= 10) millis += (s[at] - '0') * scale;
  }
  std::int64_t seconds = 0;
  for (std::size_t i = 0; i < count; ++i) seconds = seconds * 60 + fields[i];
  return Moment::millis(seconds * 1000 + millis);
}

constexpr std::string_view arrow = "-->";

struct Timing {
  Moment from;
  Moment until;
};

std::optional<Timing> read_timing(std::string_view line) {
  const std::string_view s = trim(line);
  std::size_t at = 0;
  const auto skip = [&] {
    while (at < s.size() && (s[at] == ' ' || s[at] == '\t')) ++at;
  };
  const auto from = read_time(s, at);
  if (!from) return std::nullopt;
  skip();
  if (!s.substr(at).starts_with(arrow)) return std::nullopt;
  at += arrow.size();
  skip();
  const auto until = read_time(s, at);
  if (!until) return std::nullopt;
  return Timing{*from, *until};
}

bool is_number_line(std::string_view line) {
  const std::string_view s = trim(line);
  if (s.empty()) return false;
  for (const char c : s) {
    if (!is_digit(c)) return false;
  }
  return true;
}

/// Length of a formatting tag at the start of `s`, 0 when there is none: <b> <i> <u> <s> <font ...>, their ends,
/// {\an8}.
std::size_t tag_length(std::string_view s) {
  if (s.starts_with("{\\")) {
    const std::size_t end = s.find('}');
    return end == std::string_view::npos || s.substr(0, end).find('\n') != std::string_view::npos ? 0 : end + 1;
  }
  if (!s.starts_with('<')) return 0;
  const std::size_t end = s.substr(0, 200).find('>');
  if (end == std::string_view::npos) return 0;
  std::string_view inside = s.substr(1, end - 1);
  if (inside.starts_with('/')) inside.remove_prefix(1);
  const std::string name = to_lower(inside.substr(0, inside.find(' ')));
  const bool known = name == "b" || name == "i" || name == "u" || name == "s" || name == "font";
  return known ? end + 1 : 0;
}

struct Reference {
  std::string_view written;
  std::string_view meant;
};
constexpr std::array<Reference, 6> references = {
    {{"&amp;", "&"}, {"&lt;", "<"}, {"&gt;", ">"}, {"&nbsp;", "\u00A0"}, {"&quot;", "\""}, {"&#39;", "'"}}};

std::string plain(std::string_view s) {
  std::string out;
  out.reserve(s.size());
  for (std::size_t i = 0; i < s.size();) {
    if (const std::size_t tag = tag_length(s.substr(i)); tag != 0) {
      i += tag;
      continue;
    }
    std::string_view piece = s.substr(i, 1);
    std::size_t used = 1;
    if (s[i] == '&') {
      for (const Reference& r : references) {
        if (s.substr(i).starts_with(r.written)) {
          piece = r.meant;
          used = r.written.size();
          break;
        }
      }
    }
    out += piece;
    i += used;
  }
  return out;
}

}  // namespace

SubRip parse_subrip(std::string_view text) {
  SubRip out;
  std::vector<std::string_view> pending;  // text lines of the cue being read
  const auto finish = [&](bool before_timing) {
    if (before_timing && !pending.empty() && is_number_line(pending.back())) pending.pop_back();
    if (out.cues.empty()) {
      pending.clear();
      return;
    }
    std::string joined;
    for (const std::string_view line : pending) {
      if (trim(line).empty()) continue;
      if (!joined.empty()) joined += '\n';
      joined += line;
    }
    out.cues.back().text = plain(joined);
    pending.clear();
  };
  std::size_t number = 0;
  for (const std::string_view line : split_lines(text)) {
    ++number;
    if (line.find(arrow) == std::string_view::npos) {
      pending.push_back(line);
      continue;
    }
    if (const auto timing = read_timing(line)) {
      finish(true);
      out.cues.push_back({timing->from, timing->until, {}, number});
    } else {
      out.refused_timings.push_back(number);
    }
  }
  finish(false);
  return out;
}

}  // namespace sash::narration
