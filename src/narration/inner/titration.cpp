#include "narration/inner/titration.h"

#include <algorithm>

#include "narration/inner/matter.h"

namespace sash::narration {

namespace {

constexpr WordSet telling{"burette",  "buret",     "titrate",      "titrated", "titrating", "titration",
                          "titrant",  "titre",     "titer",        "titres",   "titers",    "titrations",
                          "endpoint", "indicator", "back-titrate", "burettes", "concordant"};
constexpr WordSet burettes{"burette", "buret", "titrant"};
constexpr WordSet titrates{"titrate", "titrated", "titrating", "titration"};
constexpr std::size_t goes_on = 160;  // words a titration is spoken of after it was last called one
constexpr std::size_t soon = 25;

}  // namespace

Titration::Titration(const Scene& scene) {
  for (std::size_t i = 0; i < scene.size(); ++i) {
    if (telling.has(scene.word(i))) words_.push_back(i);
  }
  if (!words_.empty()) find_titrants(scene);
}

void Titration::find_titrants(const Scene& s) {
  const auto note = [&](const Mention& m) {
    const std::string_view name = bare(m.name);
    if (!m.indicator && !m.water && !is_titrant(name)) titrants_.emplace_back(name);
  };
  constexpr std::size_t near = 9;
  for (const Mention& m : s.mentions) {
    const bool with = WordSet{"with", "against", "by"}.has(s.word_before(m.first)) ||
                      WordSet{"with", "against"}.has(s.word_before(m.first, 2)) ||
                      s.find_before(m.first, WordSet{"with", "against"}, 6).has_value();
    if (with && s.find_before(m.first, titrates, 12)) note(m);
    const auto before = s.find_before(m.first, burettes, near);
    const auto behind = s.find_after(m.last, burettes, near);
    // "fill the burette with", "in the burette is", "the hydroxide's in the burette"; no other name between.
    const auto nothing_between = [&](std::size_t from, std::size_t to) {
      for (std::size_t t = from; t < to; ++t) {
        if (s.mention_at[t]) return false;
      }
      return true;
    };
    if (before && nothing_between(*before, m.first)) note(m);
    if (behind && nothing_between(m.last, *behind) && WordSet{"the", "a", "my", "our"}.has(s.word_before(*behind)))
      note(m);
  }
}

bool Titration::goes_on_at(std::size_t token) const {
  const auto next = std::lower_bound(words_.begin(), words_.end(), token);
  if (next != words_.end() && *next - token < soon) return true;
  return next != words_.begin() && token - *(next - 1) < goes_on;
}

bool Titration::is_titrant(std::string_view bare_name) const {
  return std::find(titrants_.begin(), titrants_.end(), bare_name) != titrants_.end();
}

}  // namespace sash::narration
