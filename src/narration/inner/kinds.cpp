// What sort of quantity a figure is where the unit leaves it open: percents, temperature changes; counts of portions
// that have an amount each, and shares of what was measured before.

#include <algorithm>
#include <cmath>

#include "narration/inner/scene.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr WordSet yields{"overall", "yield", "yields", "recovery", "efficiency", "recovered", "theory", "theoretical"};
constexpr WordSet gains{"got",  "caught",   "back", "collected", "recovered", "managed",
                        "made", "captured", "kept", "obtained",  "expected"};
constexpr WordSet excesses{"excess",   "loss",     "more",     "less",     "extra",    "too",     "lost",   "off",
                           "discount", "dropped",  "shrunk",   "lighter",  "heavier",  "smaller", "larger", "down",
                           "gained",   "moisture", "humidity", "increase", "decrease", "error",   "over"};
constexpr WordSet spirits{"ethanol", "wine",     "vodka",       "rum",         "whisky",
                          "beer",    "methanol", "propan-2-ol", "isopropanol", "isoamyl alcohol"};

/// The mention that begins at or just behind token `i`, past words that describe it.
const Mention* mention_behind(const Scene& s, std::size_t i, std::size_t reach) {
  constexpr WordSet describing{"concentrated", "dilute",    "diluted",  "aqueous", "household", "strength", "solution",
                               "of",           "the",       "glacial",  "hot",     "cold",      "warm",     "fresh",
                               "pure",         "weight",    "by",       "food",    "grade",     "lab",      "technical",
                               "store",        "bought",    "in",       "clear",   "white",     "fuming",   "standard",
                               "stock",        "drugstore", "denatured"};
  for (std::size_t k = 0; k <= reach && i < s.size(); ++k, ++i) {
    if (s.mention_at[i]) return &s.mentions[*s.mention_at[i]];
    if (!describing.has(s.word(i))) return nullptr;
  }
  return nullptr;
}

bool is_strength(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (mention_behind(s, p.last, 2) != nullptr && s.word(p.last) != "of") return true;
  const std::string_view behind = s.word(p.last);
  if (s.find_before(p.first, WordSet{"label", "bottle"}, 6)) return true;
  if (behind == "solution" || behind == "strength" || behind == "assay" || behind == "pure" || behind == "purity")
    return true;
  if (behind == "by" || behind == "w" || behind == "weight") return true;
  if (s.find_before(p.first, WordSet{"concentrated", "purity", "assay", "strength", "grade"}, 4)) return true;
  return false;
}

/// Whether the percent is what two figures of one kind said just before make of each other, the smaller said first.
bool is_ratio_of_last(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  std::vector<const Phrase*> last;
  for (std::size_t i = index; i-- > 0 && p.first - s.phrases[i].first < 200 && last.size() < 5;) {
    const Phrase& q = s.phrases[i];
    const bool portion =
        q.kind == Kind::mass || q.kind == Kind::volume || q.kind == Kind::gas_volume || q.kind == Kind::amount;
    if (q.fate == Fate::figure && portion && !q.upper && q.value > 0) last.push_back(&q);
  }
  for (std::size_t a = 0; a < last.size(); ++a) {
    for (std::size_t b = 0; b < last.size(); ++b) {
      if (a == b || last[a]->unit != last[b]->unit) continue;
      if (std::abs(last[a]->value / last[b]->value * 100 - p.value) < 0.012 * p.value) return true;
    }
  }
  return false;
}

/// As which strength the same percent was said before: "ten percent of that".
std::optional<Kind> said_as_strength(const Scene& s, std::size_t index) {
  for (std::size_t i = index; i-- > 0;) {
    const Phrase& q = s.phrases[i];
    if (s.phrases[index].first - q.first > 120) return std::nullopt;
    const bool strength = q.kind == Kind::mass_percent || q.kind == Kind::volume_percent;
    if (q.fate == Fate::figure && strength && q.value == s.phrases[index].value) return q.kind;
  }
  return std::nullopt;
}

Kind percent_kind(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  for (std::size_t i = index; i-- > 0 && !p.unit_said;) {
    if (s.phrases[i].fate == Fate::figure && s.phrases[i].unit == "%")
      return s.phrases[i].kind;  // said without "percent"
  }
  const std::string_view behind = s.word(p.last);
  const std::string_view behind2 = s.same_sentence(p.first, p.last + 1) ? s.word(p.last + 1) : std::string_view();
  const std::size_t aside = behind == "," ? p.last + 1 : p.last;  // "thirteen per cent, by volume"
  if (s.word(aside) == "by" && s.word(aside + 1) == "volume") return Kind::volume_percent;
  constexpr WordSet spirit_meters{"hydrometer", "alcoholmeter", "alcoholometer", "vinometer"};
  if (s.find_before(p.first, spirit_meters, 16) || s.find_after(p.last, spirit_meters, 4)) return Kind::volume_percent;
  if (behind == "abv" || (behind == "by" && behind2 == "volume") || (behind == "v" && s.word(p.last + 2) == "v")) {
    return Kind::volume_percent;
  }
  if (yields.has(behind) || yields.has(behind2)) return Kind::percent_yield;
  if (behind == "of" && (behind2 == "theory" || behind2 == "theoretical" || behind2 == "the") &&
      s.find_after(p.last, WordSet{"theory", "theoretical", "maximum", "possible", "expected", "calculated"}, 5)) {
    return Kind::percent_yield;
  }
  if (s.find_before(p.first, WordSet{"yield", "efficiency", "recovery"}, 6)) return Kind::percent_yield;
  if (s.find_before(p.first, WordSet{"versus", "against"}, 8) && !s.find_before(p.first, WordSet{"excess"}, 8))
    return Kind::percent_yield;
  if (behind == "of" && behind2 == "what" && s.find_after(p.last, WordSet{"could", "should", "expected"}, 6))
    return Kind::percent_yield;
  if (const auto strength = said_as_strength(s, index); strength && behind == "of") return *strength;
  if (s.find_before(p.first, WordSet{"strength"}, 5)) {
    for (std::size_t i = index; i-- > 0;) {
      const Phrase& q = s.phrases[i];
      if (q.fate == Fate::figure && (q.kind == Kind::mass_percent || q.kind == Kind::volume_percent)) return q.kind;
    }
  }
  if (behind == "stuff") {
    for (std::size_t t = p.first; t-- > 0 && p.first - t < 8;) {
      if (s.mention_at[t])
        return spirits.has(s.mentions[*s.mention_at[t]].name) ? Kind::volume_percent : Kind::mass_percent;
    }
    return Kind::mass_percent;
  }
  if (s.word_before(p.first) == "says" || s.word_before(p.first, 2) == "says") {
    for (std::size_t i = s.mentions.size(); i-- > 0;) {
      const Mention& m = s.mentions[i];
      if (m.last > p.first) continue;
      if (p.first - m.last < 8 && (m.acid || m.solution || m.mixture)) return Kind::mass_percent;
      break;
    }
  }
  const bool of_it = behind == "of" && (behind2 == "it" || behind2 == "that" || behind2 == "what" || behind2 == "them");
  if (of_it && (s.find_before(p.first, gains, 5) || is_ratio_of_last(s, index))) return Kind::percent_yield;
  if (s.find_before(p.first, WordSet{"lost", "loss", "loses"}, 12)) return Kind::percent_other;
  if (behind == "humidity" || excesses.has(behind) || s.find_after(p.last, WordSet{"excess"}, 3) ||
      s.find_before(p.first,
                    WordSet{"excess", "take", "lost", "dropped", "loss", "shrunk", "down", "loses", "lose", "shrank"},
                    5)) {
    return Kind::percent_other;
  }
  if (const Mention* m = mention_behind(s, p.last, 2)) {
    if (spirits.has(m->name)) return Kind::volume_percent;
    if (behind != "of") {
      if (m->gas && (m->name == "oxygen" || m->name == "nitrogen" || m->name == "carbon dioxide"))
        return Kind::volume_percent;
      return Kind::mass_percent;
    }
    if (m->gas) return Kind::volume_percent;
    return Kind::percent_other;
  }
  if (is_strength(s, index)) {
    // "it's 70 percent" said of a spirit
    for (std::size_t i = s.mentions.size(); i-- > 0;) {
      if (s.mentions[i].last > p.first) continue;
      return spirits.has(s.mentions[i].name) && p.first - s.mentions[i].last < 12 ? Kind::volume_percent
                                                                                  : Kind::mass_percent;
    }
    return Kind::mass_percent;
  }
  if (behind == "of") {
    // "10 percent of that": a share
    return Kind::percent_other;
  }
  // Percents follow one another: another strength beside a strength.
  for (std::size_t i = index; i-- > 0 && p.first - s.phrases[i].first < 60;) {
    const Phrase& q = s.phrases[i];
    if (q.fate == Fate::figure && q.unit == "%" && (q.kind == Kind::mass_percent || q.kind == Kind::volume_percent))
      return q.kind;
    if (q.fate == Fate::figure && q.kind == Kind::mass && q.unit_said) break;  // something was weighed since
  }
  if (index > 0 && s.phrases[index - 1].fate == Fate::figure && p.first - s.phrases[index - 1].first < 40 &&
      s.phrases[index - 1].kind == Kind::molar_concentration)
    return Kind::mass_percent;  // a strength turned into percent
  if (s.find_before(p.first, gains, 8) || s.find_after(p.last, gains, 4)) return Kind::percent_yield;
  // A percent on its own behind what was weighed at the end is the yield; behind a liquid, its strength.
  std::size_t sentence_back = p.first;
  for (std::size_t i = index; i-- > 0;) {
    const Phrase& q = s.phrases[i];
    if (q.fate != Fate::figure || p.first - q.first > 70) {
      if (p.first - q.first > 70) break;
      continue;
    }
    sentence_back = q.first;
    if (q.kind == Kind::percent_yield) return Kind::percent_yield;
    const bool theory =
        s.find_before(q.first,
                      WordSet{"most", "theoretical", "expect", "expected", "should", "maximum", "could", "back"}, 9) ||
        s.find_after(q.last, WordSet{"back", "theoretical", "recovered", "expected"}, 5);
    if ((q.kind == Kind::mass || q.kind == Kind::amount || q.kind == Kind::volume || q.kind == Kind::gas_volume) &&
        theory) {
      return Kind::percent_yield;
    }
  }
  (void)sentence_back;
  if (s.find_in_sentence(p.first, WordSet{"out", "step", "steps", "theory"})) return Kind::percent_yield;
  if (is_ratio_of_last(s, index)) return Kind::percent_yield;
  for (std::size_t i = s.mentions.size(); i-- > 0;) {
    if (s.mentions[i].last > p.first) continue;
    const Mention& m = s.mentions[i];
    const std::size_t far = p.first - m.last;
    if (far < 16 && s.same_sentence(m.first, p.first))
      return spirits.has(m.name) ? Kind::volume_percent : Kind::mass_percent;
    if (far < 40 && (m.solution || m.acid)) return Kind::mass_percent;
    break;
  }
  const std::string_view before = s.word_before(p.first);
  const bool said_of_it = before == "is" || before == "it's" || before == "that's";
  const bool weighed =
      index > 0 && s.phrases[index - 1].kind == Kind::mass && p.first - s.phrases[index - 1].first < 40;
  return said_of_it && !weighed ? Kind::mass_percent : Kind::percent_other;
}

constexpr WordSet changing{"gained", "lost",   "rise",  "rose",     "drop",       "dropped", "another",
                           "gains",  "warmer", "jump",  "increase", "difference", "swing",   "climbed",
                           "fell",   "change", "shift", "up",       "down"};
constexpr WordSet changes_behind{"warmer",   "hotter", "cooler", "colder", "rise",  "jump",  "drop",  "difference",
                                 "increase", "swing",  "change", "higher", "lower", "above", "below", "shift"};

bool is_change(const Scene& s, const Phrase& p) {
  const std::string_view behind = s.word(p.last);
  if (changes_behind.has(behind)) return !(behind == "drop" && s.word(p.last + 1) == "it");
  std::size_t i = p.first;
  constexpr WordSet hedging{"about", "around", "roughly", "nearly", "almost", "a",    "just", "like", "only",
                            "over",  "under",  "more",    "than",   "full",   "good", "some", "less"};
  while (i > s.begin_of_sentence(p.first) && hedging.has(s.word_before(i))) --i;
  const std::string_view before = s.word_before(i);
  if (before == "by") return true;
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

constexpr WordSet portions{"portions",  "portion",     "lots",     "washes", "batches",  "aliquots", "doses",
                           "additions", "tablets",     "bars",     "pieces", "strips",   "chunks",   "pellets",
                           "sticks",    "cubes",       "capsules", "pills",  "sachets",  "squares",  "rinses",
                           "helpings",  "discs",       "disks",    "coins",  "candles",  "granules", "shots",
                           "splashes",  "goes",        "scoops",   "lumps",  "crystals", "packets",  "parts",
                           "loads",     "extractions", "slices",   "balls",  "marbles",  "sheets",   "bags",
                           "teabags",   "sachets",     "packets",  "tubs"};

/// The amount phrase that says how much each of the counted is: "(three portions) of 5 mL", "(nine bars) at 78 grams
/// each".
const Phrase* each_amount(const Scene& s, std::size_t index, std::size_t noun_last) {
  const Phrase& count = s.phrases[index];
  for (std::size_t i = index + 1; i < s.phrases.size(); ++i) {
    const Phrase& q = s.phrases[i];
    if (q.first > noun_last + 8 || !s.same_sentence(q.first, count.first)) break;
    if (q.fate != Fate::figure && q.fate != Fate::capacity) continue;
    if (q.kind != Kind::mass && q.kind != Kind::volume) continue;
    const std::string_view before = s.word_before(q.first);
    constexpr WordSet joins{"of", "at",   "with",  ",",   "about", "around", "roughly",
                            "in", "each", "using", "say", "are",   "a",      "-"};
    if (joins.has(before) || s.word(q.last) == "each" || q.first == noun_last) return &q;
  }
  return nullptr;
}

/// "(forty bags) ..., and there's two and a half grams in every one of them".
bool amount_in_every(const Scene& s, std::size_t index) {
  const Phrase& count = s.phrases[index];
  for (std::size_t i = index + 1; i < s.phrases.size() && s.phrases[i].first < count.last + 40; ++i) {
    const Phrase& q = s.phrases[i];
    if (q.fate != Fate::figure || (q.kind != Kind::mass && q.kind != Kind::volume)) continue;
    return s.find_after(q.last, WordSet{"each", "every", "apiece"}, 5).has_value();
  }
  return false;
}

bool named_each_before(const Scene& s, std::size_t index, std::string_view noun) {
  const Phrase& count = s.phrases[index];
  for (std::size_t i = index; i-- > 0;) {
    const Phrase& q = s.phrases[i];
    if (count.first - q.first > 40) return false;
    if (q.fate != Fate::figure || (q.kind != Kind::mass && q.kind != Kind::volume)) continue;
    const bool each = s.word(q.last) == "each" || s.word(q.last) == "apiece" || s.word_before(q.first) == "each" ||
                      (s.word(q.last) == "a" && s.word(q.last + 1) == noun);
    if (!each) continue;
    const std::size_t begin = s.begin_of_sentence(q.first);
    for (std::size_t t = begin; t < count.first; ++t) {
      if (s.word(t) == noun || (noun.ends_with('s') && s.word(t) == noun.substr(0, noun.size() - 1))) return true;
    }
  }
  return false;
}

void settle_count(Scene& s, std::size_t index) {
  Phrase& p = s.phrases[index];
  if (p.unit_said || p.fraction || p.number.decimal || p.upper) return;
  std::size_t noun = p.last;
  constexpr WordSet sized{"small", "equal", "little", "separate", "more", "big",
                          "fresh", "of",    "tiny",   "single",   "nice", "good"};
  for (int k = 0; k < 2 && sized.has(s.word(noun)); ++k) ++noun;
  const std::string_view word = s.word(noun);
  const bool times = word == "times";
  if (!portions.has(word) && !times) return;
  if (times && noun != p.last) return;
  const bool each = each_amount(s, index, noun + 1) != nullptr ||
                    (!times && (named_each_before(s, index, word) || amount_in_every(s, index)));
  if (!each) return;
  p.last = noun + 1;
  for (std::size_t t = p.first; t < p.last; ++t) s.phrase_at[t] = index;
  p.kind = Kind::count;
  p.unit = "1";
  p.fate = Fate::figure;
  p.unit_said = true;
  p.rule = "portions with an amount each";
  p.confidence = 0.9;
}

/// "twice with 20 mL": a count without a number word of its own.
void add_twice(Scene& s) {
  std::vector<Phrase> made;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const std::string_view word = s.word(i);
    if ((word != "twice" && word != "thrice") || s.phrase_at[i]) continue;
    std::size_t next = i + 1;
    if (s.word(next) == "more" || s.word(next) == ",") ++next;
    if (s.word(next) != "with" && s.word(next) != "using") continue;
    for (std::size_t k = next + 1; k < next + 4 && k < s.size(); ++k) {
      if (!s.phrase_at[k]) continue;
      const Phrase& each = s.phrases[*s.phrase_at[k]];
      if (each.fate != Fate::figure || (each.kind != Kind::volume && each.kind != Kind::mass)) break;
      Phrase p;
      p.first = i;
      p.last = p.number_last = i + 1;
      p.value = word == "twice" ? 2 : 3;
      p.kind = Kind::count;
      p.unit = "1";
      p.unit_said = true;
      p.fate = Fate::figure;
      p.rule = "washed so many times with an amount each";
      p.confidence = 0.85;
      made.push_back(p);
      break;
    }
  }
  if (made.empty()) return;
  s.phrases.insert(s.phrases.end(), made.begin(), made.end());
  std::sort(s.phrases.begin(), s.phrases.end(), [](const Phrase& a, const Phrase& b) { return a.first < b.first; });
  s.phrase_at.assign(s.size(), std::nullopt);
  for (std::size_t p = 0; p < s.phrases.size(); ++p) {
    for (std::size_t t = s.phrases[p].first; t < s.phrases[p].last; ++t) s.phrase_at[t] = p;
  }
}

constexpr WordSet taking{"take",   "took",     "taking", "pour",     "poured",  "pouring", "use",    "used",
                         "add",    "added",    "put",    "weigh",    "weighed", "save",    "keep",   "kept",
                         "goes",   "scoop",    "tip",    "transfer", "spoon",   "set",     "remove", "transferred",
                         "filter", "dissolve", "freeze", "grind",    "went",    "leave"};

void settle_share(Scene& s, std::size_t index) {
  Phrase& p = s.phrases[index];
  if (!p.fraction || p.unit_said) return;
  std::size_t next = p.last;
  const bool of = s.word(next) == "of";
  if (of) ++next;
  constexpr WordSet pointing{"it", "that", "this", "them", "these", "those", "the", "my", "our", "what"};
  if (!pointing.has(s.word(next))) return;
  if (!of && s.word(next) != "the" && s.word(next) != "my" && s.word(next) != "our" && s.word(next) != "this") return;
  if (s.word(next) == "the" &&
      (s.word(next + 1) == "time" || s.word(next + 1) == "price" || s.word(next + 1) == "battle" ||
       s.word(next + 1) == "reason" || s.word(next + 1) == "way" || s.word(next + 1) == "amount")) {
    return;
  }
  // Taken from a material, not compared with one: the verb tells.
  const auto verb_before = s.find_before(p.first, taking, 12);
  const auto verb_behind = s.find_after(next + 1, taking, 5);
  if (!verb_before && !verb_behind) return;
  if (s.find_before(p.first, WordSet{"used", "use"}, 3) && !of) return;
  p.kind = Kind::fraction;
  p.unit = "1";
  p.fate = Fate::figure;
  p.rule = "share of what was measured before";
  p.confidence = 0.75;
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
    } else if (p.unit == "m" && p.unit_said && p.number.written && mention_behind(scene, p.last, 1) != nullptr) {
      // "3 m sulfuric acid" without its capital
      p.kind = Kind::molar_concentration;
      p.unit = "mol/L";
    }
  }
  add_twice(scene);
}

}  // namespace sash::narration
