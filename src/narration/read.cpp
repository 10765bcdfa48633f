#include "narration/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "narration/cue_text.h"
#include "narration/inner/encoding.h"
#include "narration/inner/language.h"
#include "narration/inner/noise.h"
#include "narration/inner/raw_cue.h"
#include "narration/inner/rolling.h"
#include "narration/inner/timed_text.h"
#include "narration/subrip.h"
#include "narration/webvtt.h"
#include "support/text.h"

namespace sash::narration {

namespace {

/// Words and their times, where the tree has time tags; the words before the first tag start with the cue.
std::vector<model::Word> timed_words(const CueTree& tree, Moment from) {
  std::vector<model::Word> words;
  bool any = false;
  bool inside = false;
  std::uint32_t at = 0;
  Moment now = from;
  for (const CueNode& node : tree.nodes) {
    if (node.type == CueNode::Type::timestamp) {
      now = node.time;
      any = true;
    }
    if (node.type != CueNode::Type::text) continue;
    for (const char c : node.text) {
      const bool space = c == ' ' || c == '\n' || c == '\t';
      if (!space && !inside) words.push_back({at, 0, now});
      if (!space) ++words.back().length;
      inside = !space;
      ++at;
    }
  }
  return any ? words : std::vector<model::Word>();
}

std::string speaker_of(const CueTree& tree) {
  std::string names;
  std::string_view last;
  for (const CueNode& node : tree.nodes) {
    if (node.type != CueNode::Type::voice || node.text.empty() || node.text == last) continue;
    if (!names.empty()) names += ", ";
    names += node.text;
    last = node.text;
  }
  return names;
}

std::vector<RawCue> raw_cues(const WebVtt& file) {
  std::vector<RawCue> cues;
  cues.reserve(file.cues.size());
  for (const VttCue& cue : file.cues) {
    const CueTree tree = parse_cue_text(cue.text);
    cues.push_back({cue.from, cue.until, tree.plain(), speaker_of(tree), timed_words(tree, cue.from), cue.line});
  }
  return cues;
}

std::vector<RawCue> raw_cues(SubRip file) {
  std::vector<RawCue> cues;
  cues.reserve(file.cues.size());
  for (SubRipCue& cue : file.cues) cues.push_back({cue.from, cue.until, std::move(cue.text), {}, {}, cue.line});
  return cues;
}

std::string counted(std::size_t n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

void warn_refused(const std::vector<std::size_t>& lines, NarrationText& out) {
  if (lines.empty()) return;
  out.warnings.push_back(fmt::format("{} could not be read and {} left out, the first on line {}.",
                                     counted(lines.size(), "time line", "time lines"),
                                     lines.size() == 1 ? "was" : "were", lines.front()));
}

/// Gives every cue an end behind its start, and puts the cues in order.
void settle_times(std::vector<RawCue>& cues, NarrationText& out) {
  std::size_t short_cues = 0;
  std::size_t first_short = 0;
  for (RawCue& cue : cues) {
    if (cue.until > cue.from) continue;
    if (cue.until < cue.from && short_cues++ == 0) first_short = cue.line;
    cue.until = cue.from + spoken_length(cue.text);
  }
  if (short_cues > 0) {
    out.warnings.push_back(fmt::format("{} before {} start, the first on line {}; {} given the time the words take.",
                                       counted(short_cues, "cue ends", "cues end"), short_cues == 1 ? "its" : "their",
                                       first_short, short_cues == 1 ? "it was" : "they were"));
  }
  const auto earlier = [](const RawCue& a, const RawCue& b) { return a.from < b.from; };
  const auto step_back = std::is_sorted_until(cues.begin(), cues.end(), earlier);
  if (step_back != cues.end()) {
    out.warnings.push_back(fmt::format(
        "The times run backwards on line {}; the lines were put in the order of their times.", step_back->line));
    std::stable_sort(cues.begin(), cues.end(), earlier);
  }
}

void warn_overlaps(const std::vector<RawCue>& cues, NarrationText& out) {
  std::size_t overlaps = 0;
  std::size_t first = 0;
  Moment shown_until;
  for (const RawCue& cue : cues) {
    if (cue.from < shown_until && overlaps++ == 0) first = cue.line;
    shown_until = std::max(shown_until, cue.until);
  }
  if (overlaps == 0) return;
  out.warnings.push_back(fmt::format("{} before the one before it has ended, the first on line {}; all were kept.",
                                     counted(overlaps, "cue starts", "cues start"), first));
}

void add_line(RawCue& cue, std::size_t begin, NarrationText& out) {
  model::NarrationLine line;
  line.when = {cue.from, cue.until};
  line.text = cue.text.substr(begin);
  line.speaker = std::move(cue.speaker);
  for (const model::Word& word : cue.words) {
    if (word.begin >= begin)
      line.words.push_back({word.begin - static_cast<std::uint32_t>(begin), word.length, word.from});
  }
  out.sources.push_back({cue.from, characters(std::string_view(cue.text).substr(0, begin))});
  out.lines.push_back(std::move(line));
}

void make_lines(std::vector<RawCue> cues, NarrationText& out) {
  settle_times(cues, out);
  out.rolling = rolls(cues);
  if (!out.rolling) warn_overlaps(cues, out);
  const std::vector<std::size_t> begins = out.rolling ? new_text(cues) : std::vector<std::size_t>(cues.size(), 0);
  for (std::size_t i = 0; i < cues.size(); ++i) {
    if (begins[i] < cues[i].text.size() && !trim(cues[i].text).empty()) add_line(cues[i], begins[i], out);
  }
}

/// The times of a SubRip cue that cannot be read lose no words: they follow the cue before.
void warn_untimed(const std::vector<std::size_t>& lines, NarrationText& out) {
  if (lines.empty()) return;
  out.warnings.push_back(
      fmt::format("{} could not be read, the first on line {}; the words behind {} follow the line before.",
                  counted(lines.size(), "time line", "time lines"), lines.front(), lines.size() == 1 ? "it" : "them"));
}

/// The cues, by whichever form the text has; sets out.form.
std::vector<RawCue> cues_of(const std::string& text, std::string_view file_name, NarrationText& out) {
  if (auto vtt = parse_webvtt(text)) {
    out.form = Form::webvtt;
    warn_refused(vtt->refused_timings, out);
    return raw_cues(*vtt);
  }
  SubRip subrip = parse_subrip(text);
  if (!subrip.cues.empty()) {
    out.form = Form::subrip;
    if (to_lower(file_name).ends_with(".vtt")) {
      out.warnings.push_back(
          fmt::format("{} does not begin with the line WEBVTT, so it was read as SubRip.", file_name));
    }
    warn_untimed(subrip.refused_timings, out);
    return raw_cues(std::move(subrip));
  }
  std::vector<RawCue> cues = parse_timed_text(text);
  out.form = cues.empty() ? Form::plain_text : Form::timed_text;
  return cues.empty() ? parse_plain_text(text) : cues;
}

/// What is read of a file: all, or up to a line's end near the limit. Where no line ends there, or a character takes
/// two or four bytes (zeros are among them), no character is parted but the last one.
std::string_view beginning(std::string_view bytes) {
  constexpr std::size_t longest_line = 1u << 20;
  if (bytes.size() <= most_bytes) return bytes;
  const std::string_view head = bytes.substr(0, most_bytes & ~std::size_t{3});
  const std::string_view tail = head.substr(head.size() - longest_line);
  const auto line_end = tail.find_last_of("\n\r");
  const bool wide = tail.find('\0') != std::string_view::npos;
  return wide || line_end == std::string_view::npos ? head : head.substr(0, head.size() - tail.size() + line_end + 1);
}

/// Takes off the cue that the limit may have parted: all behind the last empty line, or behind the last line.
void drop_last_cue(std::string& text) {
  constexpr std::size_t longest_cue = 1u << 16;
  const std::size_t near = text.size() - std::min(text.size(), longest_cue);
  const std::size_t empty_line = text.rfind("\n\n");
  const bool parted_by_empty_lines = empty_line != std::string::npos && empty_line >= near;
  const std::size_t end = parted_by_empty_lines ? empty_line + 2 : text.rfind('\n') + 1;
  if (end > near) text.resize(end);
}

/// Says that nothing was read; when times were refused, which and how they are written.
Fault no_line(const NarrationText& out, std::string_view file_name) {
  std::string sentence = fmt::format("{} holds no line of narration", file_name);
  if (out.form == Form::webvtt && !out.warnings.empty()) {
    sentence += " that WebVTT allows: " + out.warnings.front();
    sentence.pop_back();
    sentence += "; WebVTT writes them like \"00:01:02.500 --> 00:01:04.000\"";
  }
  return Fault::of(Code::malformed, sentence + '.', std::string(file_name));
}

}  // namespace

std::string_view name_of(Form form) {
  switch (form) {
    case Form::subrip:
      return "SubRip";
    case Form::webvtt:
      return "WebVTT";
    case Form::timed_text:
      return "timed text";
    case Form::plain_text:
      return "plain text";
  }
  return "";
}

Outcome<NarrationText> read_narration(std::string_view bytes, std::string_view file_name, std::string_view encoding,
                                      std::optional<std::uint64_t> whole_size) {
  NarrationText out;
  const std::uint64_t full_size = std::max<std::uint64_t>(whole_size.value_or(0), bytes.size());
  const std::string_view read = beginning(bytes);
  const bool cut = read.size() < full_size;
  auto decoded = decode_text(read, file_name, encoding);
  if (!decoded) return decoded.fault();
  out.encoding = decoded->encoding;
  if (decoded->guessed) {
    out.warnings.push_back(fmt::format("{} is not UTF-8; it was read as {}, which may be wrong for accented letters.",
                                       file_name, decoded->encoding));
  }
  if (decoded->repaired) {
    out.warnings.push_back(fmt::format("{} has bytes that are no UTF-8; they are shown as \uFFFD.", file_name));
  }
  std::string text = unix_lines(std::move(decoded->utf8));
  if (cut) drop_last_cue(text);
  const auto lines_read = std::count(text.begin(), text.end(), '\n');
  make_lines(cues_of(text, file_name, out), out);
  if (out.lines.empty()) return no_line(out, file_name);
  mark_noise(out.lines);
  if (cut) {
    const std::int64_t end = out.lines.back().when.from.in_millis() / 1000;
    out.warnings.push_back(
        fmt::format("{} has {} MB, far more than a narration: its first {} MB were read, up to {}:{:02}:{:02}; what "
                    "follows its line {} was left out, and comes in when it is saved as a file of its own and added.",
                    file_name, full_size >> 20, most_bytes >> 20, end / 3600, end / 60 % 60, end % 60, lines_read));
  }
  if (!looks_english(out.lines)) {
    out.warnings.push_back(
        fmt::format("{} does not look like English; the lines are kept, but figures are recognised in English only, so "
                    "some may be missed.",
                    file_name));
  }
  return out;
}

}  // namespace sash::narration
