// What sort of quantity a figure is where the unit leaves it open.

#include <cmath>

#include "narration/inner/kind_rules.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr WordSet changing{"gained", "lost",   "rise",  "rose",     "drop",       "dropped", "another",
                           "gains",  "warmer", "jump",  "increase", "difference", "swing",   "climbed",
                           "fell",   "change", "shift", "up",       "down"};
constexpr WordSet changes_behind{"warmer", "hotter",     "cooler",   "colder", "rise",   "jump",
                                 "drop",   "difference", "increase", "swing",  "change", "higher",
                                 "lower",  "above",      "below",    "shift",  "apart",  "behind"};

bool is_change(const Scene& s, const Phrase& p) {
  const std::string_view behind = s.word(p.last);
  if (changes_behind.has(behind)) return !(behind == "drop" && s.word(p.last + 1) == "it");
  std::size_t i = p.first;
  constexpr WordSet hedging{"about", "around", "roughly", "nearly", "almost", "a",    "just", "like", "only",
                            "over",  "under",  "more",    "than",   "full",   "good", "some", "less"};
  while (i > s.begin_of_sentence(p.first) && hedging.has(s.word_before(i))) --i;
  const std::string_view before = s.word_before(i);
  if (before == "by") return true;
  constexpr WordSet differences{"rise", "drop", "change", "difference", "increase"};
  if ((before == "is" || before == "was") && differences.has(s.word_before(i, 2))) return true;
  if (before == "of")
    return s.find_before(i, WordSet{"rise", "drop", "increase", "change", "difference", "jump", "fall"}, 2).has_value();
  if (before == "to" || before == "at" || before == "from") return false;
  return changing.has(before);
}

/// "It starts at 21.4 ... it's done, at 24.7. So it's 3.3 degrees": the difference of the last two temperatures.
bool is_difference(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  std::vector<double> last;
  for (std::size_t i = index; i-- > 0 && last.size() < 2 && p.first - s.phrases[i].first < 60;) {
    const Phrase& q = s.phrases[i];
    if (q.fate == Fate::figure && q.kind == Kind::temperature && q.unit == p.unit && !q.upper) last.push_back(q.value);
  }
  constexpr double as_read = 0.051;
  return last.size() == 2 && p.value > 0 && std::abs(std::abs(last[0] - last[1]) - p.value) < as_read;
}

/// "zero degrees and 760 millimetres", "there's water vapour, about 20 millimetres": of mercury, not of length.
bool is_pressure(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  constexpr double lowest_room = 600;  // mm[Hg]
  constexpr double highest_room = 800;
  const bool of_air = p.value > lowest_room && p.value < highest_room;
  constexpr WordSet pressing{"pressure", "barometer", "atmosphere", "atmospheric", "vapour", "vapor"};
  const std::size_t reach = of_air ? 60 : 10;
  for (std::size_t t = p.first; t-- > 0 && p.first - t < reach;) {
    if (pressing.has(s.word(t))) return true;
  }
  if (!of_air) return false;
  for (std::size_t i = 0; i < index; ++i) {
    if (s.phrases[i].fate == Fate::figure && s.phrases[i].kind == Kind::pressure) return true;
  }
  return false;
}

}  // namespace

void settle_kinds(Scene& scene) {
  for (std::size_t i = 0; i < scene.phrases.size(); ++i) {
    Phrase& p = scene.phrases[i];
    settle_count(scene, i);
    settle_share(scene, i);
    if (p.fate != Fate::figure) continue;
    if (p.kind == Kind::temperature && (is_change(scene, p) || is_difference(scene, i))) {
      p.kind = Kind::temperature_change;
      p.rule = "change of temperature";
    } else if (p.unit == "%") {
      p.kind = percent_kind(scene, i);
    } else if (p.kind == Kind::length && p.unit == "mm" && is_pressure(scene, i)) {
      p.kind = Kind::pressure;
      p.unit = "mm[Hg]";
      p.rule = "millimetres of mercury";
    } else if (p.unit == "m" && p.unit_said && p.number.written && mention_behind(scene, p.last, 1) != nullptr) {
      // "3 m sulfuric acid" without its capital
      p.kind = Kind::molar_concentration;
      p.unit = "mol/L";
    }
  }
  add_twice(scene);
  settle_gases(scene);
}

}  // namespace sash::narration
