// Bare numbers that go on as what was said before: after the same preposition, in a list of parts, reading by reading,
// in a sentence built like the last. Weaker than what is said of the number itself, so asked last.

#include <algorithm>
#include <cmath>

#include "narration/inner/bare_readings.h"

namespace sash::narration {

namespace {

using quantity::Kind;

bool of_like_size(const Phrase& a, const Phrase& b, double most) {
  if (a.value <= 0 || b.value <= 0) return false;
  const double ratio = a.value / b.value;
  return ratio < most && ratio > 1 / most;
}

bool vapour_spoken_of(const Scene& s, std::size_t token) {
  for (std::size_t t = token; t-- > 0 && token - t < 40;) {
    if (s.word(t) == "vapour" || s.word(t) == "vapor") return true;
  }
  return false;
}

int decimals(const Phrase& p) {
  const std::size_t point = p.digits.find('.');
  return point == std::string::npos ? 0 : static_cast<int>(p.digits.size() - point - 1);
}

/// "times 74.4", "a molar mass of 249.7", "the log of 4 is 0.60": turns one quantity into another.
bool is_factor(const Scene& s, const Phrase& p) {
  constexpr WordSet factors{"times",   "by",       "x",          "×",   "factor", "divide",
                            "divided", "multiply", "multiplied", "iso", "/"};
  constexpr WordSet masses{"molar", "molecular", "formula", "atomic", "log", "ratio", "version", "index", "dollars"};
  const std::string_view behind = s.word(p.last);
  return factors.has(s.word_before(p.first)) || behind == "times" || behind == "x" || behind == "to" ||
         s.find_before(p.first, masses, 6) || s.find_before(p.first, WordSet{"divide", "divided"}, 3);
}

/// How far the number is from being another of the sort of `q`; the smaller the likelier. The terms were set by hand.
double unlikeness(const Phrase& p, const Phrase& q, std::size_t distance) {
  double far = 0.02 * static_cast<double>(distance) + 0.35 * std::abs(decimals(p) - decimals(q));
  switch (q.kind) {
    case Kind::temperature:
      return far + std::abs(p.value - q.value) / 25;
    case Kind::pH:
      return far + std::abs(p.value - q.value) / 2;
    case Kind::temperature_change:
    case Kind::duration:
    case Kind::percent_other:
      far += 0.5;
      break;
    default:
      break;
  }
  return q.value <= 0 || p.value <= 0 ? 10 : far + std::abs(std::log(p.value / q.value));
}

constexpr WordSet titrating{"burette",   "titre",  "titer",    "titration", "titrate",         "titrates", "titrated",
                            "titrating", "titres", "endpoint", "indicator", "phenolphthalein", "starch",   "concordant",
                            "pink",      "methyl", "rough",    "overshot",  "colour",          "color"};

}  // namespace

std::optional<Meaning> by_likeness(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction || p.upper || is_factor(s, p)) return std::nullopt;
  constexpr WordSet leading{"at", "to", "from", "than", "minus", "plus", "need", "needs", "about", "just", "around"};
  const bool governed = governed_by_state(s, p) || leading.has(s.word_before(p.first));
  if (!p.number.decimal && (p.value < 5 || !governed || !ends_clause(s, p))) return std::nullopt;
  const double most = p.number.decimal ? 2.0 : 1.1;
  const Phrase* likest = nullptr;
  double least = most;
  const auto weigh = [&](const Phrase& q, std::size_t distance) {
    if (q.fate != Fate::figure || q.upper || q.kind == Kind::count || q.kind == Kind::fraction ||
        q.kind == Kind::density || q.kind == Kind::length || q.kind == Kind::molar_mass)
      return;
    const double far = unlikeness(p, q, distance);
    if (far < least) {
      least = far;
      likest = &q;
    }
  };
  for (std::size_t i = index; i-- > 0 && p.first - s.phrases[i].first < 70;)
    weigh(s.phrases[i], p.first - s.phrases[i].first);
  for (std::size_t i = index + 1; i < s.phrases.size() && s.phrases[i].first < p.last + 14; ++i)
    weigh(s.phrases[i], 10 + s.phrases[i].first - p.last);
  return like(likest, "most like another figure nearby", 0.6);
}

std::optional<Meaning> by_part_of_list(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction || p.upper || index == 0 || p.last >= s.size() || !s.mention_at[p.last]) return std::nullopt;
  const Phrase& last = s.phrases[index - 1];
  const bool parts = last.fate == Fate::figure && last.unit == "%" && last.last < s.size() && s.mention_at[last.last];
  if (!parts || p.first - last.last > 5 || p.value + last.value > 100) return std::nullopt;
  return like(&last, "another part of the same", 0.8);
}

std::optional<Meaning> by_same_preposition(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  constexpr WordSet prepositions{"after", "at", "for"};
  const std::string_view before = s.word_before(p.first);
  if (p.fraction || p.upper || !prepositions.has(before) || !ends_clause(s, p)) return std::nullopt;
  const Phrase* last = last_figure(s, index, 18, [](const Phrase&) { return true; });
  if (last == nullptr || s.word_before(last->first) != before) return std::nullopt;
  const bool timed = is_duration(*last) || is_temperature(*last);
  if (!timed || !of_like_size(p, *last, 10)) return std::nullopt;
  return like(last, "said with the same preposition", 0.75);
}

std::optional<Meaning> by_parallel(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction || p.upper || p.value < 5 || !ends_clause(s, p) || p.number.article) return std::nullopt;
  constexpr WordSet verbs{"is",  "was",   "are",  "were",  "be",   "been",  "have",  "has",  "had",  "weighs", "got",
                          "get", "gives", "gave", "makes", "find", "found", "reads", "says", "said", "needs",  "takes"};
  const std::string_view word = s.word(governor(s, p));
  if (!verbs.has(word) && !word.ends_with("'s")) return std::nullopt;
  const Phrase* last = last_figure(s, index, 16, [](const Phrase&) { return true; });
  if (last == nullptr || !last->unit_said || last->upper || last->kind == Kind::count) return std::nullopt;
  const bool portion = is_mass(*last) || is_volume(*last) || last->kind == Kind::amount ||
                       last->kind == Kind::gas_volume || last->unit == "%";
  const bool warm = is_temperature(*last) && p.value > 14 && of_like_size(p, *last, 1.5);
  if (!warm && (!portion || !of_like_size(p, *last, 4))) return std::nullopt;
  return like(last, "said like the figure before", 0.65);
}

std::optional<Meaning> by_pressure(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction || p.upper || p.value < 5) return std::nullopt;
  const Phrase* last = last_figure(s, index, 200, [](const Phrase& q) { return q.kind == Kind::pressure; });
  if (last == nullptr || last->unit != "mm[Hg]") return std::nullopt;
  constexpr double lowest_room = 600;  // mm[Hg], no room has less or more
  constexpr double highest_room = 800;
  const bool of_air = p.value > lowest_room && p.value < highest_room;
  const bool of_vapour = p.value < 60 && p.number.decimal && vapour_spoken_of(s, p.first) && governed_by_state(s, p);
  if (!of_air && !of_vapour) return std::nullopt;
  return like(last, "a pressure beside another pressure", 0.8);
}

std::optional<Meaning> by_said_again(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const bool exact = p.number.decimal && p.digits.size() > 3;
  if (p.fraction || p.upper || !(exact || (p.value >= 13 && ends_clause(s, p)))) return std::nullopt;
  const std::size_t reach = exact ? 60 : 25;
  for (std::size_t i = index; i-- > 0 && p.first - s.phrases[i].first < reach;) {
    const Phrase& q = s.phrases[i];
    if (q.fate == Fate::figure && q.unit_said && q.value == p.value && !q.upper && q.kind != Kind::count)
      return like(&q, "just said with its unit", 0.8);
  }
  return std::nullopt;
}

std::optional<Meaning> by_mean(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (!p.number.decimal || p.upper || !s.find_before(p.first, WordSet{"average", "mean"}, 7)) return std::nullopt;
  const Phrase* last = last_figure(s, index, 70, [&](const Phrase& q) {
    return q.value > 0 && !q.upper && p.value / q.value > 0.8 && p.value / q.value < 1.25;
  });
  return like(last, "the mean of what was read", 0.85);
}

std::optional<Meaning> by_contrast(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const std::string_view before = s.word_before(p.first);
  if (p.fraction || p.upper || !WordSet{"got", "is", "have", "was"}.has(before) || !ends_clause(s, p))
    return std::nullopt;
  const Phrase* last = last_figure(s, index, 9, [](const Phrase&) { return true; });
  const bool beside = last != nullptr && last->unit == "%" && last->unit_said && s.same_sentence(last->first, p.first);
  if (!beside || p.value / last->value < 0.5 || p.value / last->value > 2) return std::nullopt;
  return like(last, "beside another percent", 0.75);
}

bool is_titre(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const std::size_t point = p.digits.find('.');
  const bool as_burettes_read = point != std::string::npos && p.digits.size() - point <= 3;
  if (p.fraction || p.upper || !as_burettes_read || p.value < 1 || p.value > 60) return false;
  constexpr WordSet factors{"times", "by", "over"};
  if (s.find_before(p.first, WordSet{"ph", "grams", "weighs", "density"}, 8)) return false;
  bool titrated = false;
  for (std::size_t t = p.first; t-- > 0 && p.first - t < 160 && !titrated;) titrated = titrating.has(s.word(t));
  if (!titrated || (factors.has(s.word_before(p.first)) && p.value < 10)) return false;
  const Phrase* last = last_figure(s, index, 220, [](const Phrase& q) { return is_volume(q) && q.number.decimal; });
  if (last != nullptr && last->unit == "mL" && p.value > last->value * 0.8 && p.value < last->value * 1.25) return true;
  const bool turned =
      s.word_before(p.first) == "at" && s.find_before(p.first, titrating, 8);  // "pink for good at 25.2"
  return turned && s.find_before(p.first, WordSet{"pink", "colour", "color", "endpoint", "goes", "turns"}, 8);
}

std::optional<Meaning> by_factor(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const std::string_view before = s.word_before(p.first);
  const bool factor = before == "times" || before == "by" || before == "x" || s.word(p.last) == "times";
  if (!p.number.decimal || !factor) return std::nullopt;
  for (std::size_t i = index; i-- > 0;) {
    const Phrase& q = s.phrases[i];
    if (q.fate == Fate::figure && q.kind == Kind::molar_concentration && q.unit_said && q.value == p.value)
      return like(&q, "multiplied by the strength said before", 0.8);
  }
  return std::nullopt;
}

void join_readings(Scene& s) {
  const auto whole = [](const Phrase& p, double least, double most) {
    return p.fate == Fate::open && !p.unit_said && plain_whole(p) && !p.number.written && !p.number.paired &&
           p.value >= least && p.value <= most;
  };
  bool joined = false;
  for (std::size_t i = 0; i + 1 < s.phrases.size(); ++i) {
    Phrase& p = s.phrases[i];
    const Phrase& tenths = s.phrases[i + 1];
    if (tenths.first != p.last || !whole(p, 10, 60) || !whole(tenths, 0, 9)) continue;
    bool titrated = false;
    for (std::size_t t = p.first; t-- > 0 && p.first - t < 90 && !titrated;) titrated = titrating.has(s.word(t));
    if (!titrated) continue;
    p.value = p.number.value = p.value + tenths.value / 10;
    p.digits += "." + tenths.digits;
    p.number.digits = p.digits;
    p.number.decimal = true;
    p.last = p.number_last = p.number.last = tenths.last;
    s.phrases.erase(s.phrases.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    joined = true;
  }
  if (!joined) return;
  s.phrase_at.assign(s.size(), std::nullopt);
  for (std::size_t p = 0; p < s.phrases.size(); ++p) {
    for (std::size_t t = s.phrases[p].first; t < s.phrases[p].last; ++t) s.phrase_at[t] = p;
  }
}

}  // namespace sash::narration
