#include "narration/inner/surroundings.h"

#include <algorithm>

#include "narration/inner/noun_words.h"
#include "narration/inner/topics.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr WordSet weighing{",",     "weigh", "weighs", "weighed", "is",   "was", "are",
                           "empty", "alone", "itself", "plus",    "with", "and"};
constexpr WordSet product_words{"crude",          "product",        "theoretical", "theory", "yield",
                                "maximum",        "needles",        "crystals",    "most",   "constant",
                                "recrystallized", "recrystallised", "purified",    "cake",   "powder"};

}  // namespace

bool is_material(Kind k) {
  return k == Kind::mass || k == Kind::volume || k == Kind::amount || k == Kind::gas_volume ||
         k == Kind::mass_percent || k == Kind::molar_concentration || k == Kind::volume_percent || k == Kind::density;
}

const Mention* Surroundings::mention_at(std::size_t token) const {
  return token < s_.size() && s_.mention_at[token] ? &s_.mentions[*s_.mention_at[token]] : nullptr;
}

std::optional<Found> Surroundings::behind(std::size_t i) const {
  bool of = false;
  bool past_strength = false;
  for (std::size_t steps = 0; steps < 9 && i < s_.size(); ++steps) {
    if (const Mention* m = mention_at(i)) {
      constexpr WordSet predicates{"is", "are", "was", "were", "has", "goes", "comes", "needs", "isn't"};

      if (!of && predicates.has(s_.word(m->last)) && i > 0 && s_.tokens[i].line != s_.tokens[i - 1].line)
        return std::nullopt;
      if (s_.word(i) == "gas" &&
          (s_.word_before(i) == "any" || s_.word_before(i) == "ideal" || s_.word_before(i) == "every")) {
        return Found{"gas", nullptr};
      }
      return Found{m->name, m};
    }
    if (s_.phrase_at[i]) {
      const Phrase& p = s_.phrases[*s_.phrase_at[i]];
      const bool strength =
          p.unit == "%" || p.kind == Kind::molar_concentration || p.kind == Kind::volume || p.kind == Kind::mass;
      if (!strength || p.fate == Fate::distractor) return std::nullopt;
      i = p.last;
      past_strength = true;
      continue;
    }
    const std::string_view word = s_.word(i);
    if (word == "of" && !of) {
      of = true;
      ++i;
      continue;
    }
    if (of && pot_words.has(word)) return Found{std::string(pot), nullptr};
    if (pronouns.has(word) && of && (i + 1 >= s_.size() || !pot_words.has(s_.word(i + 1)))) {
      const bool noun_behind = i + 1 < s_.size() && mention_at(i + 1) != nullptr;
      if (!noun_behind) return std::nullopt;
    }
    if (determiners.has(word) && !of) return std::nullopt;  // "degrees. The salt": another sentence
    if (describing.has(word) || (word == "ice" && of)) {
      ++i;
      continue;
    }
    if (past_strength && word == "solution") return std::nullopt;  // "7 mL of a two molar solution"
    if (of && s_.tokens.is_type(i, Token::Type::word) && !outcomes.has(word) && !looks.has(word))
      return unknown_name(i);
    return std::nullopt;
  }
  return std::nullopt;
}

std::optional<Found> Surroundings::unknown_name(std::size_t i) const {
  std::string name;
  for (std::size_t k = 0; k < 3 && i < s_.size(); ++k, ++i) {
    if (const Mention* m = mention_at(i)) return Found{m->name, m};
    const std::string_view word = s_.word(i);
    if (!s_.tokens.is_type(i, Token::Type::word) || name_ends.has(word) || s_.phrase_at[i] || word.ends_with("ing"))
      break;
    if (!name.empty()) name += ' ';
    name += word;
  }
  if (name.empty()) return std::nullopt;
  const std::string last = name.substr(name.rfind(' ') + 1);
  if (pot_words.has(last) || last == "solution" || last == "liquid" || last == "times")
    return Found{std::string(pot), nullptr};
  constexpr WordSet nondescript{"base",     "metal",  "alcohol", "liquid",   "oxide",   "compound", "reagent",
                                "reactant", "stuff",  "bits",    "material", "product", "crystals", "powder",
                                "solid",    "pieces", "needles", "shavings", "flakes",  "chunks"};
  if (nondescript.has(last)) return std::nullopt;
  return Found{name, nullptr};
}

std::optional<Surroundings::Noun> Surroundings::product_noun(std::size_t i) const {
  if (s_.word(i) != "of") return std::nullopt;
  std::optional<Noun> found;
  for (++i; i < s_.size() && !mention_at(i); ++i) {
    if (outcomes.has(s_.word(i))) {
      found = Noun::outcome;
    } else if (looks.has(s_.word(i))) {
      if (!found) found = Noun::look;
    } else if (!describing.has(s_.word(i))) {
      break;
    }
  }
  if (i < s_.size() && mention_at(i)) return std::nullopt;
  return found;
}

bool Surroundings::points_back(std::size_t i) const {
  if (s_.word(i) != "of") return false;
  bool back = false;
  for (++i; i < s_.size() && !mention_at(i); ++i) {
    back = back || pronouns.has(s_.word(i));
    if (s_.phrase_at[i] && s_.phrases[*s_.phrase_at[i]].unit == "%") continue;
    if (!pronouns.has(s_.word(i)) && !describing.has(s_.word(i))) break;
  }
  return back && (i >= s_.size() || !mention_at(i));
}

const Mention* Surroundings::before_in_sentence(std::size_t token, bool dry) const {
  const std::size_t begin = s_.begin_of_sentence(token);
  for (std::size_t i = token; i-- > begin;) {
    const Mention* m = mention_at(i);
    if (m == nullptr || m->negated || (dry && (m->water || m->solvent))) continue;
    return m;
  }
  return nullptr;
}

bool Surroundings::stands_by(const Mention& m) const {
  constexpr WordSet prepositions{"in",   "into",    "of", "with",    "from", "for",   "on",   "to",   "over",
                                 "than", "without", "by", "through", "at",   "under", "like", "onto", "off"};
  std::size_t i = m.first;
  constexpr WordSet counting{"every", "each", "one", "two", "three", "per"};
  while (i > s_.begin_of_sentence(m.first) && (describing.has(s_.word_before(i)) || counting.has(s_.word_before(i))))
    --i;
  return prepositions.has(s_.word_before(i));
}

const Draft* Surroundings::last_draft(std::size_t token, std::size_t reach) const {
  if (s_.figures.empty()) return nullptr;
  for (std::size_t i = s_.figures.size(); i-- > 0;) {
    const Draft& d = s_.figures[i];
    const Phrase& p = s_.phrase_of(d);
    if (token - p.first > reach) return nullptr;
    const bool carries = is_material(p.kind) || p.kind == Kind::percent_other;
    if (carries && !d.subject.empty()) return &d;
  }
  return nullptr;
}

bool Surroundings::weighs_a_vessel(const Phrase& p) const {
  if (p.kind != Kind::mass || s_.word(p.last) == "of") return false;
  const bool vessel_before = !s_.figures.empty() && s_.phrase_of(s_.figures.back()).kind == Kind::mass &&
                             s_.figures.back().subject.empty() && p.first - s_.phrase_of(s_.figures.back()).first < 40;
  if (s_.find_before(p.first, WordSet{"empty"}, 5)) return true;
  if (is_weighed_again(p) || weighs_named_vessel(p)) return true;
  if (vessel_before && s_.find_before(p.first, WordSet{"with"}, 10) &&
      !s_.find_before(p.first, WordSet{"so", "leaves", "got"}, 2))
    return true;
  if (s_.find_before(p.first,
                     WordSet{"so", "leaves", "leaving", "got", "gives", "minus", "makes", "means", "i've", "have"}, 3))
    return false;
  auto vessel = s_.find_before(p.first, vessels, 9);
  if (const auto glass = s_.find_before(p.first, WordSet{"glass"}, 6); glass && s_.word_before(*glass) == "watch")
    vessel = glass;
  if (!vessel) return false;
  const std::string_view lead = s_.word_before(*vessel);
  const bool into = s_.find_before(*vessel, WordSet{"in", "into", "on", "onto", "from", "to"}, 4).has_value() ||
                    lead == "in" || lead == "into" || s_.word_before(*vessel, 2) == "in" ||
                    s_.word_before(*vessel, 2) == "into" || s_.word_before(*vessel, 2) == "on" || lead == "on";
  const bool is = s_.word(*vessel).ends_with("'s") && p.first - *vessel < 5;
  return !into && (is || s_.find_before(p.first, weighing, 4).has_value());
}

bool Surroundings::is_weighed_again(const Phrase& p) const {
  if (!p.number.decimal) return false;
  for (std::size_t i = s_.figures.size(); i-- > 0;) {
    const Phrase& q = s_.phrase_of(s_.figures[i]);
    if (p.first - q.first > 600) return false;
    if (q.kind != Kind::mass || !s_.figures[i].subject.empty() || q.unit != p.unit || q.value < 2) continue;
    if (std::string_view(s_.figures[i].subject_rule) != "a vessel is weighed") continue;
    return p.value > q.value * 0.9 && p.value < q.value * 1.15;
  }
  return false;
}

bool Surroundings::weighs_named_vessel(const Phrase& p) const {
  if (!s_.find_before(p.first, WordSet{"mine", "it", "it's", "that", "that's", "this"}, 4)) return false;
  for (std::size_t i = p.first; i-- > 0 && p.first - i < 14;) {
    if (s_.mention_at[i]) return false;
    if (!vessels.has(s_.word(i))) continue;
    return s_.find_before(i, WordSet{"weigh", "weighed", "weighing", "tare"}, 4).has_value();
  }
  return false;
}

std::size_t Surroundings::mentions_before(std::size_t token) const {
  const auto behind =
      std::partition_point(s_.mentions.begin(), s_.mentions.end(), [&](const Mention& m) { return m.first < token; });
  return static_cast<std::size_t>(behind - s_.mentions.begin());
}

const Mention* Surroundings::last_water(std::size_t token) const {
  for (std::size_t k = mentions_before(token); k-- > 0;) {
    if (s_.mentions[k].water) return &s_.mentions[k];
  }
  return nullptr;
}

const Mention* Surroundings::last_gas(std::size_t token) const {
  for (std::size_t k = mentions_before(token); k-- > 0;) {
    if (s_.mentions[k].gas) return &s_.mentions[k];
  }
  return nullptr;
}

bool Surroundings::water_unsaid(const Phrase& p) const {
  if (p.unit == "[drp]") return false;
  const bool in = s_.word_before(p.first) == "in" || s_.word_before(p.first) == "into";
  if (in && s_.word(p.last) != "of") return s_.word_before(p.first, 2) != "was";
  constexpr WordSet washing{"wash", "rinse", "washed", "rinsed", "washing", "rinsing"};
  return s_.find_before(p.first, washing, 12).has_value() && s_.word(p.last) != "of" &&
         before_in_sentence(p.first, false) == nullptr;
}

bool Surroundings::speaks_of_gas(const Phrase& p) const {
  if (s_.word(p.last) == "of" || s_.find_before(p.first, WordSet{"add", "adding", "pour", "acid"}, 6)) return false;
  constexpr WordSet catching{"balloon", "balloons", "gas", "upside", "inverted", "trough"};
  if (s_.find_before(p.first, catching, 26)) return true;
  // A cylinder or a syringe holds gas when gas has been spoken of as what is caught.
  if (!s_.find_before(p.first, WordSet{"cylinder", "syringe", "bubbles", "eudiometer", "burette"}, 26)) return false;
  constexpr WordSet caught{"collect", "collecting", "collected", "caught", "catch", "upside", "inverted", "balloon"};
  for (std::size_t t = p.first; t-- > 0 && p.first - t < 400;) {
    if (caught.has(s_.word(t))) {
      for (std::size_t k = t > 30 ? t - 30 : 0; k < t + 30 && k < s_.size(); ++k) {
        if (const Mention* m = mention_at(k); m != nullptr && m->gas && m->name != "air") return true;
      }
    }
  }
  return false;
}

bool Surroundings::nets(std::size_t phrase) const {
  std::size_t vessels_weighed = 0;
  for (std::size_t i = s_.figures.size(); i-- > 0 && vessels_weighed < 2;) {
    const Phrase& q = s_.phrase_of(s_.figures[i]);
    if (s_.phrases[phrase].first - q.first > 50) break;
    if (q.kind != Kind::mass) continue;
    if (!s_.figures[i].subject.empty()) break;
    ++vessels_weighed;
  }
  return vessels_weighed == 2;
}

const Mention* Surroundings::asked_for(std::size_t token) const {
  const std::size_t begin = s_.begin_of_sentence(token);
  if (begin < 2 || token - begin > 3 || s_.word_before(begin) != "?") return nullptr;
  const Mention* m = before_in_sentence(begin - 1, false);
  return m != nullptr && s_.find_in_sentence(begin - 1, WordSet{"much", "many", "weigh", "mass"}) ? m : nullptr;
}

const Mention* Surroundings::solvent_spoken_of(std::size_t token) const {
  for (std::size_t i = token; i-- > 0 && token - i < 24;) {
    const bool wanted = s_.phrase_at[i] && s_.find_before(s_.phrases[*s_.phrase_at[i]].first,
                                                          WordSet{"need", "least", "needs", "want"}, 5);
    if (s_.phrase_at[i] && !wanted && s_.phrases[*s_.phrase_at[i]].kind == Kind::volume &&
        s_.phrases[*s_.phrase_at[i]].fate == Fate::figure && !s_.figures.empty() &&
        s_.figures.back().mention != nullptr && s_.figures.back().mention->water) {
      return nullptr;  // already measured out; this is something else
    }
    const Mention* m = mention_at(i);
    if (m != nullptr && !m->negated) return m->water || m->solvent ? m : nullptr;
  }
  return nullptr;
}

bool Surroundings::about_product(const Phrase& p) const {
  return s_.find_before(p.first, product_words, 12).has_value() ||
         s_.find_after(p.last, WordSet{"product", "crude"}, 3) ||
         s_.find_after(p.last, WordSet{"yield", "recovery", "recovered"}, 8);
}

}  // namespace sash::narration
