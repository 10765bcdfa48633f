#include "narration/inner/rolling.h"

#include <algorithm>

#include "support/text.h"

namespace sash::narration {

namespace {

struct Token {
  std::string_view word;
  std::size_t end = 0;
};

constexpr std::size_t most_words = 80;  // compared at most; no caption on a screen holds more

std::vector<Token> words_of(std::string_view s) {
  std::vector<Token> found;
  std::size_t at = 0;
  while ((at = s.find_first_not_of(" \n\t", at)) != std::string_view::npos) {
    const std::size_t end = std::min(s.find_first_of(" \n\t", at), s.size());
    found.push_back({s.substr(at, end - at), end});
    at = end;
  }
  return found;
}

/// Byte of `now` behind the whole lines that `before` ended with; 0 when no line is repeated.
std::size_t repeated_lines(std::string_view before, std::string_view now) {
  const auto old_lines = split_lines(before);
  const auto new_lines = split_lines(now);
  for (std::size_t k = std::min<std::size_t>({old_lines.size(), new_lines.size(), 8}); k > 0; --k) {
    const auto same = [](std::string_view a, std::string_view b) { return trim(a) == trim(b); };
    if (!std::equal(old_lines.end() - static_cast<std::ptrdiff_t>(k), old_lines.end(), new_lines.begin(),
                    new_lines.begin() + static_cast<std::ptrdiff_t>(k), same)) {
      continue;
    }
    return static_cast<std::size_t>(new_lines[k - 1].data() + new_lines[k - 1].size() - now.data());
  }
  return 0;
}

/// Byte of `now` behind the words that `before` ended with: the whole of it, or at least three words.
std::size_t repeated_words(std::string_view before, std::string_view now) {
  const auto old_words = words_of(before);
  const auto new_words = words_of(now);
  const std::size_t most = std::min({old_words.size(), new_words.size(), most_words});
  for (std::size_t k = most; k > 0; --k) {
    if (k < 3 && k != old_words.size()) break;
    const auto same = [](const Token& a, const Token& b) { return a.word == b.word; };
    if (std::equal(old_words.end() - static_cast<std::ptrdiff_t>(k), old_words.end(), new_words.begin(),
                   new_words.begin() + static_cast<std::ptrdiff_t>(k), same)) {
      return new_words[k - 1].end;
    }
  }
  return 0;
}

std::size_t repeated(std::string_view before, std::string_view now) {
  const std::size_t by_line = repeated_lines(before, now);
  return by_line != 0 ? by_line : repeated_words(before, now);
}

}  // namespace

bool rolls(std::span<const RawCue> cues) {
  constexpr std::size_t fewest = 3;
  std::size_t pairs = 0;
  std::size_t repeats = 0;
  std::size_t additions = 0;
  for (std::size_t i = 1; i < cues.size(); ++i) {
    if (trim(cues[i].text).empty() || trim(cues[i - 1].text).empty()) continue;
    ++pairs;
    const std::size_t known = cues[i].from > cues[i - 1].from ? repeated(cues[i - 1].text, cues[i].text) : 0;
    if (known == 0) continue;
    ++repeats;
    additions += trim(std::string_view(cues[i].text).substr(known)).empty() ? 0 : 1;
  }
  // A refrain repeats without ever adding.
  return repeats >= fewest && repeats * 2 >= pairs && additions * 4 >= repeats;
}

std::vector<std::size_t> new_text(std::span<const RawCue> cues) {
  std::vector<std::size_t> begins(cues.size(), 0);
  std::string_view before;
  for (std::size_t i = 0; i < cues.size(); ++i) {
    const std::string_view now = cues[i].text;
    if (trim(now).empty()) {
      begins[i] = now.size();
      continue;
    }
    std::size_t begin = before.empty() ? 0 : repeated(before, now);
    begin = std::min(now.find_first_not_of(" \n\t", begin), now.size());
    begins[i] = begin;
    before = now;
  }
  return begins;
}

}  // namespace sash::narration
