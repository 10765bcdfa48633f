#include "narration/inner/learned_names.h"

#include <algorithm>
#include <map>

#include "narration/inner/noun_words.h"

namespace sash::narration {

namespace {

using quantity::Kind;

/// Nouns behind "of" or before a quantity that name no material: they point, count, or say what is found.
constexpr WordSet nondescript{
    "base",     "metal",    "alcohol",  "liquid",     "oxide",   "compound",  "reagent",  "reactant", "stuff",
    "material", "thing",    "things",   "real",       "ours",    "squares",   "pieces",   "piece",    "shavings",
    "times",    "lot",      "lots",     "volume",     "volumes", "mass",      "weight",   "heat",     "energy",
    "gas",      "air",      "time",     "water",      "total",   "yield",     "sum",      "theory",   "course",
    "reaction", "change",   "rest",     "half",       "label",   "answer",    "result",   "average",  "mean",
    "sample",   "portion",  "aliquot",  "room",       "range",   "excess",    "paper",    "light",    "work",
    "waiting",  "stirring", "first",    "second",     "third",   "step",      "number",   "today",    "okay",
    "right",    "pressure", "current",  "charge",     "height",  "length",    "column",   "start",    "finish",
    "end",      "top",      "bottom",   "everything", "nothing", "something", "anything", "whatever", "moles",
    "mole",     "grams",    "gram",     "drops",      "drop",    "mils",      "litres",   "liters",   "balance",
    "burette",  "buret",    "pipette",  "side",       "minute",  "minutes",   "hour",     "hours",    "day",
    "days",     "evolved",  "produced", "used",       "others",  "ones",      "good",     "better",   "difference",
    "loss",     "count"};
constexpr std::size_t longest = 2;  // words

bool is_noun(const Scene& s, std::size_t i) {
  const std::string_view word = s.word(i);
  return i < s.size() && s.tokens.is_type(i, Token::Type::word) && word.size() > 2 && !s.mention_at[i] &&
         !s.phrase_at[i] && s.acts[i] == Act::none && !name_ends.has(word) && !pronouns.has(word) &&
         !determiners.has(word) && !pot_words.has(word) && !outcomes.has(word) && !looks.has(word) &&
         !vessels.has(word) && !nondescript.has(word) && !word.ends_with("ing") && !word.ends_with("ly") &&
         word.find('\'') == std::string_view::npos;
}

/// "cloves" is clove; "galls of oak", "glass" stay.
std::string singular(std::string_view word) {
  const bool plural =
      word.size() > 4 && word.ends_with('s') && !word.ends_with("ss") && !word.ends_with("us") && !word.ends_with("is");
  return std::string(plural ? word.substr(0, word.size() - 1) : word);
}

/// The noun, of up to two words, that begins at `i`; empty if none does.
std::vector<std::string> noun_at(const Scene& s, std::size_t i) {
  std::vector<std::string> words;
  for (; words.size() < longest && is_noun(s, i); ++i) {
    if (!words.empty() && s.tokens[i].line != s.tokens[i - 1].line && s.punctuated) break;
    words.emplace_back(s.word(i));
  }
  if (i < s.size() && s.mention_at[i]) return {};  // "of whole milk": it describes
  if (!words.empty()) words.back() = singular(words.back());
  return words;
}

/// "twenty-five grams of good fresh cloves".
std::vector<std::string> measured_noun(const Scene& s, const Phrase& p) {
  if (s.word(p.last) != "of") return {};
  std::size_t i = p.last + 1;
  for (int k = 0; k < 4 && i < s.size() && !s.mention_at[i] && !s.phrase_at[i] && describing.has(s.word(i)); ++k) ++i;
  return noun_at(s, i);
}

/// "Gum arabic, fifteen grams": the sentence is the noun and what it weighs.
std::vector<std::string> listed_noun(const Scene& s, const Phrase& p) {
  if (p.first < 2 || s.word_before(p.first) != ",") return {};
  std::size_t begin = s.begin_of_sentence(p.first);
  while (begin < p.first && (describing.has(s.word(begin)) || s.word(begin) == "and" || s.word(begin) == "then"))
    ++begin;
  const std::vector<std::string> words = noun_at(s, begin);
  return begin + words.size() + 1 == p.first ? words : std::vector<std::string>();
}

/// Whether the noun stands at `i`, in whichever number.
bool stands_at(const Scene& s, std::size_t i, const std::vector<std::string>& noun) {
  for (std::size_t k = 0; k < noun.size(); ++k) {
    if (i + k >= s.size() || s.mention_at[i + k] || s.phrase_at[i + k]) return false;
    const std::string_view word = s.word(i + k);
    if (word != noun[k] && (k + 1 < noun.size() || singular(word) != noun[k])) return false;
  }
  return true;
}

std::vector<std::size_t> places_of(const Scene& s, const std::vector<std::string>& noun) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (stands_at(s, i, noun)) places.push_back(i);
  }
  return places;
}

/// "pickle juice", "rose water", "cold cream": the word before a common material that makes it another one, said twice
/// or more. "the juice" is then that one, unless the word alone was measured out before.
void learn_compounds(Scene& s) {
  constexpr WordSet heads{"juice", "oil",   "water", "extract", "cream", "syrup",  "powder", "wax",  "sugar", "salt",
                          "glue",  "paste", "tea",   "milk",    "soap",  "butter", "starch", "clay", "sand",  "gum"};
  std::map<std::string, std::map<std::string, std::vector<std::size_t>>, std::less<>> places;  // by head, by whole name
  for (std::size_t k = 0; k < s.mentions.size(); ++k) {
    const Mention& m = s.mentions[k];
    if (m.last != m.first + 1 || m.first == 0 || m.negated || !heads.has(s.word(m.first))) continue;
    const std::size_t before = m.first - 1;
    const bool joined = is_noun(s, before) && !describing.has(s.word(before)) && s.same_sentence(before, m.first);
    if (joined) places[m.name][std::string(s.word(before)) + " " + m.name].push_back(k);
  }
  for (auto& [head, names] : places) {
    std::erase_if(names, [](const auto& name) { return name.second.size() < 2; });
    for (const auto& [name, which] : names) {
      for (const std::size_t k : which) {
        Mention& m = s.mentions[k];
        --m.first;
        m.name = name;
        m.mixture = true;
        m.water = m.generic = m.solvent = false;
      }
    }
    if (names.size() != 1) continue;
    const Mention& whole = s.mentions[names.begin()->second.front()];
    for (std::size_t k = names.begin()->second.front() + 1; k < s.mentions.size(); ++k) {
      Mention& m = s.mentions[k];
      if (m.name != head || head == "water" || !determiners.has(s.word_before(m.first))) continue;
      m.name = whole.name;
      m.mixture = true;
      m.generic = m.solvent = false;
    }
  }
}

Mention mention_of(const std::vector<std::string>& noun, std::size_t at, std::size_t words) {
  Mention m;
  m.first = at;
  m.last = at + words;
  for (const std::string& word : noun) m.name.append(m.name.empty() ? "" : " ").append(word);
  m.mixture = true;
  return m;
}

}  // namespace

void learn_names(Scene& s) {
  learn_compounds(s);
  s.place_mentions();
  std::map<std::vector<std::string>, std::vector<std::size_t>> learned;
  for (const Phrase& p : s.phrases) {
    const bool portion = p.unit_said && (p.kind == Kind::mass || p.kind == Kind::volume || p.kind == Kind::amount);
    if (!portion) continue;
    for (std::vector<std::string> noun : {measured_noun(s, p), listed_noun(s, p)}) {
      // Two words are one name if they stand together again, else the last of them is it.
      while (!noun.empty()) {
        std::vector<std::size_t> places = places_of(s, noun);
        if (places.size() >= 2) {
          learned.try_emplace(noun, std::move(places));
          break;
        }
        noun.erase(noun.begin());
      }
    }
  }
  if (learned.empty()) return;
  const std::size_t known = s.mentions.size();
  std::vector<bool> taken(s.size(), false);
  for (std::size_t words = longest; words > 0; --words) {
    for (const auto& [noun, places] : learned) {
      if (noun.size() != words) continue;
      for (const std::size_t at : places) {
        if (taken[at] || taken[at + words - 1]) continue;
        s.mentions.push_back(mention_of(noun, at, words));
        std::fill_n(taken.begin() + static_cast<std::ptrdiff_t>(at), words, true);
      }
      if (words == 1) continue;
      for (const std::size_t at : places_of(s, {noun.back()})) {  // "the juice"
        if (taken[at] || !determiners.has(s.word_before(at))) continue;
        s.mentions.push_back(mention_of(noun, at, 1));
        taken[at] = true;
      }
    }
  }
  if (s.mentions.size() == known) return;
  std::sort(s.mentions.begin(), s.mentions.end(), [](const Mention& a, const Mention& b) { return a.first < b.first; });
  s.place_mentions();
}

}  // namespace sash::narration
