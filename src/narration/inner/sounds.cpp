#include "narration/inner/sounds.h"

namespace sash::narration {

namespace {

bool is_vowel(char c) { return c == 'a' || c == 'e' || c == 'i' || c == 'o' || c == 'u'; }
bool is_front(char c) { return c == 'e' || c == 'i' || c == 'y'; }

/// The sound of letter `i` of the words; 0 for none.
char sound_at(std::string_view w, std::size_t i) {
  const char c = w[i];
  const char next = i + 1 < w.size() ? w[i + 1] : ' ';
  const bool opens = i == 0 || w[i - 1] == ' ' || w[i - 1] == '-';
  switch (c) {
    case 'b':
    case 'p':
      return next == 'h' ? 'f' : 'p';
    case 'c':
      return is_front(next) ? 's' : 'k';
    case 'd':
    case 't':
      return 't';
    case 'f':
    case 'v':
      return 'f';
    case 'g':
      if (next == 'h') return 0;
      return is_front(next) ? 'j' : 'k';
    case 'j':
      return 'j';
    case 'k':
    case 'q':
      return 'k';
    case 'l':
    case 'm':
    case 'n':
    case 'r':
      return c;
    case 's':
    case 'z':
    case 'x':
      return 's';
    case 'w':
      return opens ? 'w' : 0;
    default:
      return 0;
  }
}

}  // namespace

std::string sounds_of(std::string_view words) {
  std::string lower;
  for (const char c : words) {
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if ((small >= 'a' && small <= 'z') || small == ' ' || small == '-') lower += small;
  }
  std::string out;
  if (!lower.empty() && is_vowel(lower[0])) out = "A";
  for (std::size_t i = 0; i < lower.size(); ++i) {
    const char sound = sound_at(lower, i);
    if (sound == 0 || (!out.empty() && out.back() == sound)) continue;
    if (sound == 's' && lower[i] == 'x' && (out.empty() || out.back() != 'k')) out += 'k';
    out += sound;
  }
  return out;
}

}  // namespace sash::narration
