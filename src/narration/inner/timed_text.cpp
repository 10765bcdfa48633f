#include "narration/inner/timed_text.h"

#include <algorithm>
#include <optional>

#include "support/text.h"

namespace sash::narration {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// m:ss, h:mm:ss, with an optional fraction.
std::optional<Moment> read_clock(std::string_view s, std::size_t& at) {
  std::int64_t seconds = 0;
  std::size_t fields = 0;
  std::size_t p = at;
  for (;;) {
    const std::size_t first = p;
    std::int64_t n = 0;
    while (p < s.size() && is_digit(s[p]) && p - first < 4) n = n * 10 + (s[p++] - '0');
    const std::size_t digits = p - first;
    if (digits == 0 || (fields > 0 && (digits != 2 || n > 59))) return std::nullopt;
    seconds = seconds * 60 + n;
    ++fields;
    if (fields == 3 || p >= s.size() || s[p] != ':') break;
    ++p;
  }
  if (fields < 2) return std::nullopt;
  std::int64_t millis = 0;
  if (p + 1 < s.size() && (s[p] == '.' || s[p] == ',') && is_digit(s[p + 1])) {
    std::int64_t scale = 100;
    for (++p; p < s.size() && is_digit(s[p]); ++p, scale /= 10) millis += (s[p] - '0') * scale;
  }
  at = p;
  return Moment::millis(seconds * 1000 + millis);
}

struct Mark {
  std::size_t begin = 0;  ///< byte of the text
  std::size_t end = 0;
  Moment from;
  std::optional<Moment> until;
};

/// A mark in brackets, with an optional end: "[0:02]", "[00:02.0 --> 00:05.5]", "(0:02 - 0:05)".
std::optional<Mark> bracketed(std::string_view s, std::size_t begin) {
  const char close = s[begin] == '[' ? ']' : ')';
  Mark mark{begin, begin + 1, {}, {}};
  const auto skip = [&](std::string_view those) {
    while (mark.end < s.size() && those.find(s[mark.end]) != std::string_view::npos) ++mark.end;
  };
  skip(" ");
  const auto from = read_clock(s, mark.end);
  if (!from) return std::nullopt;
  mark.from = *from;
  skip(" ->");
  mark.until = read_clock(s, mark.end);
  skip(" ");
  if (mark.end >= s.size() || s[mark.end] != close) return std::nullopt;
  ++mark.end;
  return mark;
}

std::vector<Mark> bracketed_marks(std::string_view text) {
  std::vector<Mark> marks;
  for (std::size_t i = 0; (i = text.find_first_of("[(", i)) != std::string_view::npos; ++i) {
    const bool round = text[i] == '(';
    const bool line_start = i == 0 || text[i - 1] == '\n';
    if (round && !line_start) continue;  // "(0:30)" in the middle of a sentence is talk about a time
    if (auto mark = bracketed(text, i)) {
      i = mark->end - 1;
      marks.push_back(*mark);
    }
  }
  return marks;
}

/// Marks without brackets, each at the start of a line. Only a file that begins with one is such a transcript: a
/// sentence may also begin with a time.
std::vector<Mark> bare_marks(std::string_view text) {
  std::vector<Mark> marks;
  for (const std::string_view line : split_lines(text)) {
    if (trim(line).empty()) continue;
    std::size_t at = 0;
    const auto from = read_clock(line, at);
    const bool ends = at == line.size() || line[at] == ' ' || line[at] == '\t';
    if (from && ends) {
      const auto begin = static_cast<std::size_t>(line.data() - text.data());
      marks.push_back({begin, begin + at, *from, std::nullopt});
    } else if (marks.empty()) {
      return {};
    }
  }
  return marks.size() >= 2 ? marks : std::vector<Mark>();
}

std::string_view trimmed(std::string_view s) {
  const std::size_t first = s.find_first_not_of(" \t\n");
  if (first == std::string_view::npos) return {};
  return s.substr(first, s.find_last_not_of(" \t\n") - first + 1);
}

std::size_t count_lines(std::string_view s) { return static_cast<std::size_t>(std::count(s.begin(), s.end(), '\n')); }

}  // namespace

Moment spoken_length(std::string_view text) {
  std::size_t words = 0;
  bool inside = false;
  for (const char c : text) {
    const bool space = c == ' ' || c == '\n' || c == '\t';
    words += !space && !inside ? 1 : 0;
    inside = !space;
  }
  return std::max(Moment::millis(static_cast<std::int64_t>(words) * 400), Moment::millis(1000));
}

std::vector<RawCue> parse_timed_text(std::string_view text) {
  std::vector<Mark> marks = bracketed_marks(text);
  if (marks.empty()) marks = bare_marks(text);
  std::vector<RawCue> cues;
  if (marks.empty()) return cues;
  const auto add = [&](Moment from, std::optional<Moment> until, std::size_t begin, std::size_t end, std::size_t line) {
    const std::string_view inside = trimmed(text.substr(begin, end - begin));
    if (inside.empty()) return;
    cues.push_back({from, until.value_or(from + spoken_length(inside)), std::string(inside), {}, {}, line});
  };
  add(Moment(), marks[0].from, 0, marks[0].begin, 1);
  std::size_t line = 1 + count_lines(text.substr(0, marks[0].begin));
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const Mark& mark = marks[i];
    const bool last = i + 1 == marks.size();
    const std::size_t end = last ? text.size() : marks[i + 1].begin;
    auto until = mark.until;
    if (!until && !last && marks[i + 1].from > mark.from) until = marks[i + 1].from;
    add(mark.from, until, mark.end, end, line);
    line += count_lines(text.substr(mark.begin, end - mark.begin));
  }
  return cues;
}

std::vector<RawCue> parse_plain_text(std::string_view text) {
  // Paragraphs are parted by empty lines; a text without any has one on each line.
  const bool parted = text.find("\n\n") != std::string_view::npos;
  std::vector<RawCue> cues;
  Moment at;
  std::size_t line = 1;
  const auto add = [&](std::string_view paragraph) {
    const std::string_view inside = trimmed(paragraph);
    if (inside.empty()) return;
    const Moment length = spoken_length(inside);
    cues.push_back({at, at + length, std::string(inside), {}, {}, line});
    at = at + length;
  };
  std::size_t begin = 0;
  while (begin < text.size()) {
    const std::size_t found = text.find(parted ? "\n\n" : "\n", begin);
    const std::size_t end = std::min(found, text.size());
    add(text.substr(begin, end - begin));
    const std::size_t next = std::min(end + (parted ? 2u : 1u), text.size());
    line += count_lines(text.substr(begin, next - begin));
    begin = next;
  }
  return cues;
}

}  // namespace sash::narration
