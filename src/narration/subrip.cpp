#include "narration/subrip.h"

#include <algorithm>
#include <array>
#include <optional>

#include "support/text.h"

namespace sash::narration {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_blank(std::string_view line) { return trim(line).empty(); }

void skip_blanks(std::string_view s, std::size_t& at) {
  while (at < s.size() && (s[at] == ' ' || s[at] == '\t')) ++at;
}

/// Steps over one of `separators` and the blanks round it when a digit follows.
std::optional<char> take_separator(std::string_view s, std::size_t& at, std::string_view separators) {
  std::size_t p = at;
  skip_blanks(s, p);
  if (p >= s.size() || separators.find(s[p]) == std::string_view::npos) return std::nullopt;
  const char found = s[p++];
  skip_blanks(s, p);
  if (p >= s.size() || !is_digit(s[p])) return std::nullopt;
  at = p;
  return found;
}

/// "h:mm:ss,mmm" or "mm:ss,mmm" at `at`, which moves behind it. "h:mm:ss:ff" is none: nobody says how long a frame is.
std::optional<Moment> read_time(std::string_view s, std::size_t& at) {
  std::array<std::int64_t, 3> fields{};
  std::size_t count = 0;
  do {
    const std::size_t first = at;
    std::int64_t n = 0;
    while (at < s.size() && is_digit(s[at]) && at - first < 6) n = n * 10 + (s[at++] - '0');
    if (at == first) return std::nullopt;
    fields[count++] = n;
  } while (count < fields.size() && take_separator(s, at, ":"));
  if (count < 2) return std::nullopt;
  std::int64_t millis = 0;
  if (const auto mark = take_separator(s, at, count == fields.size() ? ",.;:" : ",.;")) {
    const std::size_t first = at;
    for (std::int64_t scale = 100; at < s.size() && is_digit(s[at]); ++at, scale /= 10) millis += (s[at] - '0') * scale;
    if (mark == ':' && at - first != 3) return std::nullopt;
  }
  std::int64_t seconds = 0;
  for (std::size_t i = 0; i < count; ++i) seconds = seconds * 60 + fields[i];
  return Moment::millis(seconds * 1000 + millis);
}

constexpr std::string_view arrow = "-->";

/// Length of the arrow that `s` begins with, 0 when with none: "-->", or what typing, scanning and correcting make of
/// it ("->", "-- >", "–>", "→").
std::size_t arrow_length(std::string_view s) {
  constexpr std::array<std::string_view, 3> dashes = {"-", "\u2013", "\u2014"};
  constexpr std::string_view one_sign = "\u2192";
  if (s.starts_with(one_sign)) return one_sign.size();
  std::size_t at = 0;
  for (bool more = true; more;) {
    more = false;
    for (const std::string_view dash : dashes) {
      if (!s.substr(at).starts_with(dash)) continue;
      at += dash.size();
      more = true;
    }
  }
  if (at == 0) return 0;
  skip_blanks(s, at);
  return at < s.size() && s[at] == '>' ? at + 1 : 0;
}

struct Timing {
  Moment from;
  Moment until;
};

/// The times of a timing line. Coordinates and other words may follow a proper arrow only: behind any other, a sentence
/// that happens to begin with a time would be taken for one.
std::optional<Timing> read_timing(std::string_view line) {
  const std::string_view s = trim(line);
  std::size_t at = 0;
  const auto from = read_time(s, at);
  if (!from) return std::nullopt;
  skip_blanks(s, at);
  const std::size_t length = arrow_length(s.substr(at));
  if (length == 0) return std::nullopt;
  const bool proper = s.substr(at).starts_with(arrow);
  at += length;
  skip_blanks(s, at);
  const auto until = read_time(s, at);
  if (!until || (!proper && at != s.size())) return std::nullopt;
  return Timing{*from, *until};
}

/// Whether a line with an arrow was meant as times though it cannot be read as such: nothing but a number stands before
/// the arrow, with a colon in it. "2 H2 + O2 --> 2 H2O" is text.
bool meant_as_timing(std::string_view line) {
  const std::string_view before = line.substr(0, line.find(arrow));
  return before.size() != line.size() && before.find(':') != std::string_view::npos &&
         before.find_first_not_of("0123456789:.,;- \t") == std::string_view::npos;
}

std::optional<std::int64_t> number_line(std::string_view line) {
  const std::string_view s = trim(line);
  if (s.empty() || !std::all_of(s.begin(), s.end(), is_digit)) return std::nullopt;
  return read_integer(s);
}

/// A piece of markup and what stands for it in plain text.
struct Markup {
  std::size_t length = 0;  ///< 0: there is none
  std::string_view meant;
};

/// The markup at the start of `s`: <b> <i> <u> <s> <font ...> and the like, their ends, <br>, {\an8}.
Markup tag_at(std::string_view s) {
  if (s.starts_with("{\\")) {
    const std::size_t end = s.find('}');
    return {end == std::string_view::npos || s.substr(0, end).find('\n') != std::string_view::npos ? 0 : end + 1, {}};
  }
  if (!s.starts_with('<')) return {};
  const std::size_t end = s.substr(0, 200).find('>');
  if (end == std::string_view::npos) return {};
  std::string_view inside = s.substr(1, end - 1);
  if (inside.starts_with('/')) inside.remove_prefix(1);
  const std::string name = to_lower(inside.substr(0, inside.find_first_of(" \t\n./")));
  constexpr std::array<std::string_view, 10> known = {"b", "i", "u", "s", "em", "strong", "font", "span", "c", "v"};
  if (name == "br") return {end + 1, "\n"};
  return {std::find(known.begin(), known.end(), name) != known.end() ? end + 1 : 0, {}};
}

Markup reference_at(std::string_view s) {
  struct Reference {
    std::string_view written;
    std::string_view meant;
  };
  constexpr std::array<Reference, 6> references = {
      {{"&amp;", "&"}, {"&lt;", "<"}, {"&gt;", ">"}, {"&nbsp;", "\u00A0"}, {"&quot;", "\""}, {"&#39;", "'"}}};
  for (const Reference& r : references) {
    if (s.starts_with(r.written)) return {r.written.size(), r.meant};
  }
  return {};
}

std::string plain(std::string_view s) {
  std::string out;
  out.reserve(s.size());
  for (std::size_t i = 0; i < s.size();) {
    const Markup markup = s[i] == '&' ? reference_at(s.substr(i)) : tag_at(s.substr(i));
    out += markup.length != 0 ? markup.meant : s.substr(i, 1);
    i += std::max<std::size_t>(markup.length, 1);
  }
  return out;
}

class Reader {
 public:
  void take(std::string_view line, std::size_t line_number) {
    const auto timing = read_timing(line);
    const bool refused = !timing && line.find(arrow) != std::string_view::npos &&
                         (meant_as_timing(line) || coming_number() != std::nullopt);
    if (!timing && !refused) return pending_.push_back(line);
    drop_coming_number();
    end_cue();
    if (refused) out_.refused_timings.push_back(line_number);
    const Moment after = out_.cues.empty() ? Moment() : out_.cues.back().until;
    out_.cues.push_back({timing ? timing->from : after, timing ? timing->until : after, {}, line_number});
  }

  SubRip finish() {
    end_cue();
    if (out_.cues.size() == out_.refused_timings.size()) out_.cues.clear();
    return std::move(out_);
  }

 private:
  /// How many of the pending lines there are before the number of a cue that begins now; nothing when it has none.
  /// A cue may also say nothing but a number, so a number counts only where one is due: apart from the text before, in
  /// a file that numbers its cues, or being the next in the row.
  std::optional<std::size_t> coming_number() const {
    std::size_t end = pending_.size();
    while (end > 0 && is_blank(pending_[end - 1])) --end;
    if (end == 0) return std::nullopt;
    const auto number = number_line(pending_[end - 1]);
    if (!number) return std::nullopt;
    const bool next = *number == last_number_ + 1 || *number == static_cast<std::int64_t>(out_.cues.size()) + 1;
    const bool touches = end == pending_.size();
    const bool apart = end == 1 ? out_.cues.empty() : is_blank(pending_[end - 2]);
    return next || (touches && (apart || numbered_)) ? std::optional(end - 1) : std::nullopt;
  }

  void drop_coming_number() {
    const auto place = coming_number();
    if (!place) return;
    last_number_ = *number_line(pending_[*place]);
    numbered_ = true;
    pending_.resize(*place);
  }

  void end_cue() {
    std::string joined;
    for (const std::string_view line : pending_) {
      if (is_blank(line)) continue;
      if (!joined.empty()) joined += '\n';
      joined += line;
    }
    pending_.clear();
    if (!out_.cues.empty()) out_.cues.back().text = plain(joined);
  }

  SubRip out_;
  std::vector<std::string_view> pending_;  ///< text lines of the cue being read
  bool numbered_ = false;                  ///< some cue had a number
  std::int64_t last_number_ = 0;
};

}  // namespace

SubRip parse_subrip(std::string_view text) {
  Reader reader;
  std::size_t number = 0;
  for (const std::string_view line : split_lines(text)) reader.take(line, ++number);
  return reader.finish();
}

}  // namespace sash::narration
