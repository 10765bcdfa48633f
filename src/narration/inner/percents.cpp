// What a percent is of: a strength, a yield, a share of gas, an excess or a loss.

#include <cmath>

#include "narration/inner/kind_rules.h"
#include "narration/inner/name_kind.h"

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

/// The two figures of one kind, said just before, whose ratio the percent is.
struct Ratio {
  const Phrase* part = nullptr;
  const Phrase* whole = nullptr;
};
std::optional<Ratio> ratio_before(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  std::vector<const Phrase*> last;
  for (std::size_t i = index; i-- > 0 && p.first - s.phrases[i].first < 200 && last.size() < 5;) {
    const Phrase& q = s.phrases[i];
    const bool portion =
        q.kind == Kind::mass || q.kind == Kind::volume || q.kind == Kind::gas_volume || q.kind == Kind::amount;
    if (q.fate == Fate::figure && portion && !q.upper && q.value > 0) last.push_back(&q);
  }
  constexpr double as_rounded = 0.012;
  for (const Phrase* part : last) {
    for (const Phrase* whole : last) {
      if (part == whole || part->unit != whole->unit || part->kind != whole->kind) continue;
      if (std::abs(part->value / whole->value * 100 - p.value) < as_rounded * p.value) return Ratio{part, whole};
    }
  }
  return std::nullopt;
}

bool is_ratio_of_last(const Scene& s, std::size_t index) { return ratio_before(s, index).has_value(); }

constexpr WordSet losing{"lost",   "loss",    "lose",  "loses",  "losing",     "gained", "shrunk",
                         "shrank", "lighter", "drove", "driven", "evaporated", "gone"};

/// "it dried out 7 grams, a little over 7 percent": the share that went away.
bool is_share_lost(const Scene& s, const Ratio& ratio) {
  const bool dried_out = s.word_before(ratio.part->first) == "out" && s.word_before(ratio.part->first, 2) == "dried";
  return dried_out || s.find_before(ratio.part->first, losing, 6) || s.find_after(ratio.part->last, losing, 4) ||
         s.find_after(ratio.part->last, WordSet{"went"}, 3);
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

/// What the words right behind the percent, or the one right before it, say of it.
std::optional<Kind> by_words_behind(const Scene& s, const Phrase& p, std::size_t aside) {
  const std::string_view behind = s.word(p.last);
  const std::string_view behind2 = s.word(p.last + 1);
  const std::string_view before = s.word_before(p.first);
  if (s.find_before(p.first, WordSet{"lost", "lose", "loses", "losing"}, 3)) return Kind::percent_other;
  const auto went = s.find_before(p.first, WordSet{"shrunk", "evaporated", "dried"}, 8);
  if (went && behind != "of" && (s.word(*went) != "dried" || s.word(*went + 1) == "out")) return Kind::percent_other;
  if (behind == "of" && (behind2 == "it" || behind2 == "that") && s.find_after(p.last, WordSet{"turned", "became"}, 4))
    return Kind::percent_other;
  if (behind == "done") return Kind::percent_yield;
  if (behind == "to" && behind2 == "spare") return Kind::percent_other;
  if (before == "off" && s.word_before(p.first, 2) != "goes") return Kind::percent_other;  // "back off 20 percent"
  if (behind == "on" && s.find_after(p.last, WordSet{"weight", "mass"}, 4)) return Kind::percent_other;
  // "94 percent, that's our current efficiency", "99 percent of the ammonia accounted for"
  constexpr WordSet efficiencies{"efficiency", "yield"};
  if (aside > p.last && s.find_after(aside, efficiencies, 5)) return Kind::percent_yield;
  if (behind == "that's" && s.find_after(p.last, efficiencies, 5)) return Kind::percent_yield;
  if (behind == "of" && s.find_after(p.last, WordSet{"accounted", "recovered"}, 6)) return Kind::percent_yield;
  // "84 percent of what the box promised", "101 percent, it took up water"
  if (behind == "of" && behind2 == "what" && s.find_after(p.last, WordSet{"promised", "says", "said"}, 6))
    return Kind::percent_yield;
  if (p.value > 100 && p.value < 115 && (before == "is" || before == "that's" || before == "it's"))
    return Kind::percent_yield;
  // "the jug says 6 percent", "5 mils of the 85 percent", "nearly 80 percent is iodine by weight"
  constexpr WordSet packs{"bag", "jug", "tub", "box", "packet", "tin", "carton", "label", "bottle"};
  const bool says = WordSet{"says", "said", "reads", "it's"}.has(before);
  if (says && s.find_before(p.first, packs, 5)) return Kind::mass_percent;
  if (before == "are" && s.find_after(p.last, packs, 9)) return Kind::mass_percent;
  const bool closed = p.last >= s.size() || !s.tokens.is_type(p.last, Token::Type::word) || s.phrase_at[p.last];
  const bool pointed_at = before == "the" && !WordSet{"in", "to"}.has(s.word_before(p.first, 2));
  if (pointed_at && closed) return Kind::mass_percent;
  if (s.find_after(p.last, WordSet{"weight", "mass"}, 5) && (behind == "is" || behind == "was"))
    return Kind::mass_percent;
  // "24 percent of that's protein", "there's about 3 percent of fat in it"
  if (behind == "of" && (behind2 == "that's" || behind2 == "it's")) return Kind::mass_percent;
  const bool there = s.find_before(p.first, WordSet{"there's", "contains", "holds"}, 3).has_value();
  if (there && s.find_after(p.last, WordSet{"in"}, 3)) return Kind::mass_percent;
  // "the other six percent was air"
  if (behind == "was" || behind == "is") {
    std::size_t next = p.last + 1;
    if (s.word(next) == "the") ++next;
    if (next < s.size() && s.mention_at[next] && names_gas(s.mentions[*s.mention_at[next]].name))
      return Kind::volume_percent;
  }
  // "1 percent in alcohol": so much of the solution
  if (behind == "in" && p.last + 1 < s.size() && s.mention_at[p.last + 1]) return Kind::mass_percent;
  // "Nickel is 20.3 percent of that": what a compound is made of
  if (behind == "of" && (before == "is" || before == "'s") && p.first >= 2 && s.mention_at[p.first - 2] &&
      s.mentions[*s.mention_at[p.first - 2]].element)
    return Kind::mass_percent;
  // "sodium hydroxide, five percent, 75 mils of it"
  const bool apart = before == "," && p.first >= 2;
  const std::size_t named = apart ? p.first - 2 : p.first - 1;
  const bool yielded = s.find_before(p.first, yields, 8).has_value();
  if (p.first >= 2 && closed && !yielded && s.mention_at[named] && s.same_sentence(named, p.first)) {
    const Mention& m = s.mentions[*s.mention_at[named]];
    if ((m.acid || m.solution || m.dissolves) && !m.gas)
      return spirits.has(m.name) ? Kind::volume_percent : Kind::mass_percent;
  }
  return std::nullopt;
}

}  // namespace

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
  const auto ratio = ratio_before(s, index);
  constexpr WordSet promising{"label",    "box",   "theory", "theoretical", "promised",
                              "expected", "you'd", "should", "would",       "could"};
  if (ratio && s.find_before(ratio->whole->first, promising, 5) && !is_share_lost(s, *ratio))
    return Kind::percent_yield;
  if (const auto said = by_words_behind(s, p, aside)) return *said;
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
  if (behind == "solution") return Kind::mass_percent;
  if (is_strength(s, index)) {
    // "it's 70 percent" said of a spirit
    for (std::size_t i = s.mentions.size(); i-- > 0;) {
      if (s.mentions[i].last > p.first) continue;
      return spirits.has(s.mentions[i].name) && p.first - s.mentions[i].last < 12 ? Kind::volume_percent
                                                                                  : Kind::mass_percent;
    }
    return Kind::mass_percent;
  }
  if (ratio) {
    if (is_share_lost(s, *ratio)) return Kind::percent_other;
    if (ratio->part->last > ratio->whole->first || p.value > 50) return Kind::percent_yield;
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
  for (std::size_t i = index; i-- > 0;) {
    const Phrase& q = s.phrases[i];
    if (q.fate != Fate::figure || p.first - q.first > 70) {
      if (p.first - q.first > 70) break;
      continue;
    }
    if (q.kind == Kind::percent_yield) return Kind::percent_yield;
    const bool theory = s.find_before(q.first,
                                      WordSet{"most", "theoretical", "expect", "expected", "should", "maximum", "could",
                                              "back", "theory", "you'd", "possible"},
                                      9) ||
                        s.find_after(q.last, WordSet{"back", "theoretical", "recovered", "expected"}, 5);
    if ((q.kind == Kind::mass || q.kind == Kind::amount || q.kind == Kind::volume || q.kind == Kind::gas_volume) &&
        theory) {
      return Kind::percent_yield;
    }
  }
  if (s.find_in_sentence(p.first, WordSet{"out", "step", "steps", "theory"})) return Kind::percent_yield;
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

}  // namespace sash::narration
