#include "flow/caption_rules.h"

#include <algorithm>
#include <optional>
#include <regex>
#include <set>

#include "support/text.h"

namespace sash::flow {
namespace {

using std::regex;
using std::regex_match;
using std::smatch;
using std::string;

// The lines of a file whose lines end in LF, CR or CRLF, without the ends.
std::vector<string> lines_of(std::string_view file) {
  std::vector<string> lines(1);
  for (std::size_t i = 0; i < file.size(); ++i) {
    if (file[i] == '\r') {
      if (i + 1 < file.size() && file[i + 1] == '\n') ++i;
      lines.emplace_back();
    } else if (file[i] == '\n') {
      lines.emplace_back();
    } else {
      lines.back() += file[i];
    }
  }
  return lines;
}

class Offences {
 public:
  void add(std::size_t line, const string& what) { list.push_back("line " + std::to_string(line + 1) + ": " + what); }
  std::vector<string> list;
};

long milliseconds(const string& hours, const string& minutes, const string& seconds, const string& thousandths) {
  const long h = hours.empty() ? 0 : std::stol(hours);
  return ((h * 60 + std::stol(minutes)) * 60 + std::stol(seconds)) * 1000 + std::stol(thousandths);
}

std::optional<long> webvtt_time(const string& text) {
  static const regex form(R"((?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3}))");
  smatch m;
  if (!regex_match(text, m, form)) return std::nullopt;
  return milliseconds(m[1], m[2], m[3], m[4]);
}

void check_settings(const string& settings, std::size_t line, Offences& offences) {
  static const regex percent(R"((\d+(\.\d+)?)%)");
  static const regex vertical("rl|lr");
  static const regex align("start|center|end|left|right");
  static const regex line_form(R"((-?\d+|\d+(\.\d+)?%)(,(start|center|end))?)");
  static const regex position(R"(\d+(\.\d+)?%(,(line-left|center|line-right))?)");
  static const regex region(R"([^\s]+)");
  static const regex words(R"([^ \t]+)");
  std::set<string> seen;
  for (std::sregex_iterator it(settings.begin(), settings.end(), words), end; it != end; ++it) {
    const string word = it->str();
    const auto colon = word.find(':');
    const string name = word.substr(0, colon);
    const string value = colon == string::npos ? "" : word.substr(colon + 1);
    const regex* form = name == "vertical"   ? &vertical
                        : name == "line"     ? &line_form
                        : name == "position" ? &position
                        : name == "size"     ? &percent
                        : name == "align"    ? &align
                        : name == "region"   ? &region
                                             : nullptr;
    if (form == nullptr || !regex_match(value, *form)) offences.add(line, "'" + word + "' is no cue setting");
    static const regex number(R"((\d+(?:\.\d+)?)%.*)");
    smatch m;
    if (regex_match(value, m, number) && std::stod(m[1]) > 100) offences.add(line, "'" + word + "' is over 100 %");
    if (!seen.insert(name).second) offences.add(line, "'" + name + "' is set twice");
  }
}

// Cue text: character references for & and <, and only the tags the rules know, closed in order.
void check_cue_text(const string& text, long from, long until, std::size_t line, Offences& offences) {
  static const regex reference(R"(&(?:[A-Za-z][A-Za-z0-9]*|#\d+|#[xX][0-9A-Fa-f]+);)");
  static const regex tag(R"((/?)(c|i|b|u|v|lang|ruby|rt)((?:\.[^\s.<>&]+)*))"
                         R"((?:[ \t]+((?:[^>&]|&(?:[A-Za-z][A-Za-z0-9]*|#\d+|#[xX][0-9A-Fa-f]+);)*))?)");
  std::vector<string> open;
  long last = from;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '&') {
      smatch m;
      const string rest = text.substr(i);
      if (!std::regex_search(rest, m, reference, std::regex_constants::match_continuous))
        offences.add(line, "a bare '&'");
    } else if (text[i] == '<') {
      const auto close = text.find('>', i);
      if (close == string::npos) {
        offences.add(line, "a '<' that opens no tag");
        return;
      }
      const string inner = text.substr(i + 1, close - i - 1);
      smatch m;
      if (const auto time = webvtt_time(inner)) {
        if (*time <= last || *time >= until) offences.add(line, "a time inside the cue out of order");
        last = *time;
      } else if (!regex_match(inner, m, tag)) {
        offences.add(line, "'<" + inner + ">' is no tag");
      } else if (m[1].length() > 0) {
        if (open.empty() || open.back() != m[2].str()) {
          offences.add(line, "'<" + inner + ">' closes what is not open");
        } else {
          open.pop_back();
        }
      } else {
        const bool needs_words = m[2] == "v" || m[2] == "lang";
        if (needs_words && trim(m[4].str()).empty()) offences.add(line, "'<" + inner + ">' names nobody");
        open.push_back(m[2]);
      }
      i = close;
    }
  }
  // A voice over the whole cue may be left open.
  if (!open.empty() && !(open.size() == 1 && open[0] == "v")) offences.add(line, "'<" + open.back() + ">' stays open");
}

}  // namespace

ReadCaptions read_webvtt_strictly(std::string_view file) {
  ReadCaptions out;
  Offences offences;
  if (!is_utf8(file)) offences.add(0, "not UTF-8");
  if (file.find('\0') != std::string_view::npos) offences.add(0, "a NUL character");
  if (file.starts_with("\xef\xbb\xbf")) file.remove_prefix(3);
  const auto lines = lines_of(file);
  static const regex signature(R"(WEBVTT([ \t].*)?)");
  if (!regex_match(lines[0], signature)) offences.add(0, "the file does not begin with WEBVTT");
  std::size_t at = 1;
  if (at < lines.size() && !lines[at].empty()) offences.add(at, "no empty line after the signature");
  static const regex timing(R"(([^ \t]+)[ \t]+-->[ \t]+([^ \t]+)(?:[ \t]+(.*))?)");
  std::set<string> identifiers;
  while (at < lines.size()) {
    if (lines[at].empty()) {
      ++at;
      continue;
    }
    if (lines[at] == "NOTE" || lines[at].starts_with("NOTE ") || lines[at].starts_with("NOTE\t") ||
        lines[at] == "STYLE" || lines[at] == "REGION") {
      if (!lines[at].starts_with("NOTE") && !out.cues.empty()) offences.add(at, "a style or region after a cue");
      for (; at < lines.size() && !lines[at].empty(); ++at) {
        if (lines[at].find("-->") != string::npos) offences.add(at, "an arrow in a comment or style");
      }
      continue;
    }
    if (lines[at].find("-->") == string::npos) {
      if (!identifiers.insert(lines[at]).second) offences.add(at, "a cue identifier twice");
      ++at;
    }
    smatch m;
    if (at >= lines.size() || !regex_match(lines[at], m, timing)) {
      offences.add(std::min(at, lines.size() - 1), "no timing line");
      while (at < lines.size() && !lines[at].empty()) ++at;
      continue;
    }
    const auto from = webvtt_time(m[1]);
    const auto until = webvtt_time(m[2]);
    if (!from || !until) {
      offences.add(at, "a malformed time");
    } else {
      if (*until <= *from) offences.add(at, "the cue ends before it begins");
      if (!out.cues.empty() && *from < out.cues.back().from_ms) offences.add(at, "the cue begins before the last one");
    }
    check_settings(m[3], at, offences);
    ReadCue cue{from.value_or(0), until.value_or(0), ""};
    const std::size_t first = ++at;
    for (; at < lines.size() && !lines[at].empty(); ++at) {
      if (lines[at].find("-->") != string::npos) offences.add(at, "an arrow in the text");
      cue.text += (cue.text.empty() ? "" : "\n") + lines[at];
    }
    check_cue_text(cue.text, cue.from_ms, cue.until_ms, first, offences);
    out.cues.push_back(std::move(cue));
  }
  out.offences = std::move(offences.list);
  return out;
}

ReadCaptions read_subrip_strictly(std::string_view file) {
  ReadCaptions out;
  Offences offences;
  if (!is_utf8(file)) offences.add(0, "not UTF-8");
  if (file.starts_with("\xef\xbb\xbf")) offences.add(0, "a byte order mark");
  const auto lines = lines_of(file);
  static const regex timing(R"((\d{2,}):([0-5]\d):([0-5]\d),(\d{3}) --> (\d{2,}):([0-5]\d):([0-5]\d),(\d{3}))");
  std::size_t at = 0;
  while (at < lines.size()) {
    if (lines[at].empty()) {
      ++at;
      continue;
    }
    const string number = std::to_string(out.cues.size() + 1);
    if (lines[at] != number) offences.add(at, "'" + lines[at] + "' where the number " + number + " belongs");
    ++at;
    smatch m;
    if (at >= lines.size() || !regex_match(lines[at], m, timing)) {
      offences.add(std::min(at, lines.size() - 1), "no timing line");
      while (at < lines.size() && !lines[at].empty()) ++at;
      continue;
    }
    ReadCue cue{milliseconds(m[1], m[2], m[3], m[4]), milliseconds(m[5], m[6], m[7], m[8]), ""};
    if (cue.until_ms <= cue.from_ms) offences.add(at, "the cue ends before it begins");
    if (!out.cues.empty() && cue.from_ms < out.cues.back().from_ms)
      offences.add(at, "the cue begins before the last one");
    for (++at; at < lines.size() && !lines[at].empty(); ++at) cue.text += (cue.text.empty() ? "" : "\n") + lines[at];
    if (cue.text.empty()) offences.add(at - 1, "a cue without text");
    out.cues.push_back(std::move(cue));
  }
  out.offences = std::move(offences.list);
  return out;
}

}  // namespace sash::flow
