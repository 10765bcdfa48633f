#include "narration/inner/noise.h"

#include <array>
#include <string_view>

#include "support/text.h"

namespace sash::narration {

namespace {

/// Lower case, punctuation off, single spaces.
std::string reduced(std::string_view text) {
  std::string out;
  bool gap = false;
  for (const char c : to_lower(text)) {
    const bool keep = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
    if (c == '\'') continue;
    if (!keep) {
      gap = !out.empty();
      continue;
    }
    if (gap) out += ' ';
    gap = false;
    out += c;
  }
  return out;
}

bool only_notes(std::string_view text) {
  bool note = false;
  for (std::size_t i = 0; i < text.size();) {
    const CodePoint c = code_point_at(text, i);
    if (c.value >= 0x2669 && c.value <= 0x266C) {
      note = true;
    } else if (c.value != ' ' && c.value != '\n' && c.value != '#') {
      return false;
    }
    i += c.length;
  }
  return note;
}

/// "[Music]", "(applause)", "*laughs*", notes alone, or several of these.
bool is_sound_mark(std::string_view text) {
  std::string_view rest = trim(text);
  if (rest.empty()) return true;
  if (only_notes(rest)) return true;
  while (!rest.empty()) {
    const char open = rest.front();
    const char close = open == '[' ? ']' : open == '(' ? ')' : open == '*' ? '*' : '\0';
    if (close == '\0') return false;
    const std::size_t end = rest.find(close, 1);
    if (end == std::string_view::npos || end > 60) return false;
    for (const char c : rest.substr(1, end - 1)) {
      if (c >= '0' && c <= '9') return false;
    }
    rest.remove_prefix(end + 1);
    while (!rest.empty() && (rest.front() == ' ' || rest.front() == '\n' || rest.front() == '.')) rest.remove_prefix(1);
  }
  return true;
}

constexpr std::array<std::string_view, 22> stock_phrases = {
    "thank you so much for watching",
    "thank you very much for watching",
    "thanks for watching",
    "thank you for watching",
    "thank you for listening",
    "thank you so much",
    "thank you very much",
    "thank you",
    "thanks",
    "please subscribe to my channel",
    "please subscribe",
    "dont forget to like and subscribe",
    "like and subscribe",
    "subscribe",
    "see you next time",
    "see you in the next video",
    "ill see you in the next video",
    "bye bye",
    "bye",
    "you",
    "subtitles by the community",
    "the end",
};

/// How many stock phrases make up the whole text; 0 when anything else is in it.
std::size_t stock_count(std::string_view text) {
  const std::string flat = reduced(text);
  std::string_view rest = flat;
  std::size_t count = 0;
  while (!rest.empty()) {
    std::size_t used = 0;
    for (const std::string_view phrase : stock_phrases) {
      const bool whole = rest.starts_with(phrase) && (rest.size() == phrase.size() || rest[phrase.size()] == ' ');
      if (whole && phrase.size() > used) used = phrase.size();
    }
    if (used == 0) return 0;
    ++count;
    rest.remove_prefix(std::min(used + 1, rest.size()));
  }
  return count;
}

}  // namespace

void mark_noise(std::span<model::NarrationLine> lines) {
  std::vector<bool> stock(lines.size());
  std::size_t same_in_a_row = 1;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    lines[i].noise = is_sound_mark(lines[i].text);
    const std::size_t phrases = stock_count(lines[i].text);
    stock[i] = phrases > 0;
    if (phrases > 1) lines[i].noise = true;  // nobody says it twice in one breath
    // A recogniser caught in a loop writes the same line again and again.
    same_in_a_row = i > 0 && lines[i].text == lines[i - 1].text ? same_in_a_row + 1 : 1;
    if (same_in_a_row >= 3) {
      for (std::size_t k = i + 1 - (same_in_a_row == 3 ? 2 : 1); k <= i; ++k) lines[k].noise = true;
    }
  }
  // A stock phrase next to music is taken for its echo; so is one next to another such phrase.
  for (std::size_t i = 1; i < lines.size(); ++i) {
    if (stock[i] && lines[i - 1].noise) lines[i].noise = true;
  }
  for (std::size_t i = lines.size(); i-- > 1;) {
    if (stock[i - 1] && lines[i].noise) lines[i - 1].noise = true;
  }
}

}  // namespace sash::narration
