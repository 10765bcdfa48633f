#include "narration/webvtt.h"

#include <algorithm>

#include "narration/cue_text.h"
#include "narration/inner/encoding.h"
#include "narration/inner/vtt_settings.h"

namespace sash::narration {

namespace {

constexpr std::string_view arrow = "-->";

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\f' || c == '\r'; }

bool is_keyword(std::string_view buffer, std::string_view word) {
  return buffer.starts_with(word) &&
         std::all_of(buffer.begin() + static_cast<std::ptrdiff_t>(word.size()), buffer.end(), is_space);
}

/// The parser algorithm of the standard. Steps keep its order; names keep its words.
class Parser {
 public:
  explicit Parser(std::string_view input) : input_(input) {}

  Outcome<WebVtt> run() {
    constexpr std::string_view signature = "WEBVTT";
    const bool signed_here =
        input_.starts_with(signature) && (input_.size() == signature.size() || input_[signature.size()] == ' ' ||
                                          input_[signature.size()] == '\t' || input_[signature.size()] == '\n');
    if (!signed_here) {
      return Fault::of(Code::malformed, "This is no WebVTT file: its first line has to begin with WEBVTT.",
                       std::string(input_.substr(0, std::min<std::size_t>(input_.size(), 40))));
    }
    line();
    if (at_end()) return std::move(file_);
    if (input_[at_] != '\n') {
      block(true);
    } else {
      ++at_;
      ++line_;
    }
    skip_blank_lines();
    while (!at_end()) {
      block(false);
      skip_blank_lines();
    }
    return std::move(file_);
  }

 private:
  bool at_end() const { return at_ >= input_.size(); }

  /// The rest of the line; moves behind its end.
  std::string_view line() {
    const std::size_t end = std::min(input_.find('\n', at_), input_.size());
    const std::string_view found = input_.substr(at_, end - at_);
    at_ = std::min(end + 1, input_.size());
    ++line_;
    return found;
  }

  void skip_blank_lines() {
    while (!at_end() && input_[at_] == '\n') {
      ++at_;
      ++line_;
    }
  }

  void block(bool in_header) {
    enum class What { nothing, cue, style, region };
    What what = What::nothing;
    VttCue cue;
    std::string buffer;
    std::size_t line_count = 0;
    bool seen_arrow = false;
    for (;;) {
      const std::size_t previous = at_;
      const std::size_t previous_line = line_;
      const bool last = input_.find('\n', at_) == std::string_view::npos;
      const std::string_view text = line();
      ++line_count;
      if (text.find(arrow) != std::string_view::npos) {
        if (in_header || !(line_count == 1 || (line_count == 2 && !seen_arrow))) {
          at_ = previous;
          line_ = previous_line;
          break;
        }
        seen_arrow = true;
        cue = VttCue();
        cue.id = buffer;
        cue.line = previous_line;
        if (read_timing(text, cue)) {
          what = What::cue;
          seen_cue_ = true;
          buffer.clear();
        } else {
          what = What::nothing;
          file_.refused_timings.push_back(previous_line);
        }
      } else if (text.empty()) {
        break;
      } else {
        if (!in_header && line_count == 2 && !seen_cue_) {
          if (is_keyword(buffer, "STYLE")) {
            what = What::style;
            buffer.clear();
          } else if (is_keyword(buffer, "REGION")) {
            what = What::region;
            buffer.clear();
          }
        }
        if (!buffer.empty()) buffer += '\n';
        buffer += text;
      }
      if (last) break;
    }
    if (what == What::cue) {
      cue.text = std::move(buffer);
      file_.cues.push_back(std::move(cue));
    } else if (what == What::style) {
      file_.style_sheets.push_back(std::move(buffer));
    } else if (what == What::region) {
      file_.regions.push_back(read_region(buffer));
    }
  }

  bool read_timing(std::string_view text, VttCue& cue) const {
    std::size_t at = 0;
    const auto skip = [&] {
      while (at < text.size() && is_space(text[at])) ++at;
    };
    skip();
    const auto from = collect_timestamp(text, at);
    if (!from) return false;
    skip();
    if (!text.substr(at).starts_with(arrow)) return false;
    at += arrow.size();
    skip();
    const auto until = collect_timestamp(text, at);
    if (!until) return false;
    cue.from = *from;
    cue.until = *until;
    cue.settings = read_settings(text.substr(at), file_.regions);
    return true;
  }

  std::string_view input_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;  ///< the line `at_` is in
  bool seen_cue_ = false;
  WebVtt file_;
};

}  // namespace

Outcome<WebVtt> parse_webvtt(std::string_view bytes) {
  const std::string text = unix_lines(utf8_repaired(bytes));
  return Parser(text).run();
}

}  // namespace sash::narration
