#include "safety/callout_text.h"

#include <algorithm>

#include "model/names.h"

namespace sash::safety {

std::string signal_word(model::Level level) {
  std::string word(model::name_of(level));
  std::transform(word.begin(), word.end(), word.begin(), [](char c) { return static_cast<char>(c - 'a' + 'A'); });
  return word;
}

std::string read_text(const model::Callout& callout) {
  if (callout.delivery == model::Delivery::spoken || callout.text.empty()) return callout.text;
  const std::string word = signal_word(callout.level);
  if (callout.text.rfind(word, 0) == 0) return callout.text;  // the person wrote it in already
  return word + ": " + callout.text;
}

}  // namespace sash::safety
