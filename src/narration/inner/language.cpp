#include "narration/inner/language.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "support/text.h"

namespace sash::narration {

namespace {

/// Common English words that are no common words of the other languages of Europe. Sorted.
constexpr std::array<std::string_view, 36> common = {
    "and",  "are", "as",    "at",   "be",   "but",  "for", "from", "get",  "have", "here", "if",
    "into", "is",  "it",    "it's", "just", "not",  "now", "of",   "on",   "or",   "put",  "so",
    "that", "the", "there", "this", "to",   "want", "was", "we",   "what", "with", "you",  "your"};
static_assert(std::is_sorted(common.begin(), common.end()));

}  // namespace

bool looks_english(std::span<const model::NarrationLine> lines) {
  constexpr std::size_t enough = 60;     // words, before a verdict is given
  constexpr std::size_t sample = 20000;  // words looked at
  std::size_t words = 0;
  std::size_t hits = 0;
  for (const model::NarrationLine& line : lines) {
    if (line.noise) continue;
    std::size_t at = 0;
    const std::string_view s = line.text;
    while ((at = s.find_first_not_of(" \n\t", at)) != std::string_view::npos && words < sample) {
      const std::size_t end = std::min(s.find_first_of(" \n\t", at), s.size());
      ++words;
      if (end - at <= 5) {
        const std::string word = to_lower(s.substr(at, end - at));
        hits += std::binary_search(common.begin(), common.end(), std::string_view(word)) ? 1 : 0;
      }
      at = end;
    }
  }
  return words < enough || hits * 12 >= words;
}

}  // namespace sash::narration
