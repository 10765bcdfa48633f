#include "narration/inner/bare_meaning.h"

namespace sash::narration {

namespace {

/// Words that may stand between a reading verb and its number.
constexpr WordSet between_words{"about",     "around",  "roughly",
                                "like",      "just",    "over",
                                "under",     "nearly",  "almost",
                                "now",       "exactly", "uh",
                                "um",        "only",    "still",
                                "say",       "maybe",   "a",
                                "on",        "the",     "up",
                                "to",        "down",    "at",
                                "near",      "close",   ",",
                                "dead",      "bang",    "hang",
                                "oh",        "already", "approximately",
                                "somewhere", "between", "out",
                                "in",        "with",    "right",
                                "of",        "it",      "er",
                                "well",      "well,"};

constexpr WordSet verbs_of_state{
    "said",    "began",     "finished", "stopped", "lost",    "gained",  "put",   "leaving", "is",      "was",
    "are",     "were",      "it's",     "that's",  "they're", "i'm",     "reads", "says",    "read",    "say",
    "shows",   "comes",     "came",     "got",     "get",     "gives",   "gave",  "makes",   "leaves",  "weighs",
    "weighed", "weigh",     "reading",  "be",      "going",   "goes",    "went",  "gone",    "up",      "hit",
    "hits",    "reached",   "reaches",  "reach",   "at",      "climbed", "risen", "dropped", "started", "starts",
    "start",   "stays",     "had",      "have",    "i've",    "we've",   "oil's", "strip's", "sits",    "sitting",
    "stands",  "collected", "took",     "use",     "used",    "peaked",  "fell",  "rose",    "cooled",  "warmed",
    "settles", "settled",   "equals",   "turned",  "turns",   "ends",    "ended"};

}  // namespace

bool stands_between(std::string_view word) { return between_words.has(word); }
bool is_verb_of_state(std::string_view word) { return verbs_of_state.has(word); }

std::optional<Meaning> like(const Phrase* p, const char* rule, double confidence) {
  if (p == nullptr) return std::nullopt;
  return Meaning{p->kind, p->unit, rule, confidence};
}

std::size_t governor(const Scene& s, const Phrase& p) {
  std::size_t i = p.first;
  std::size_t steps = 0;
  while (i > s.begin_of_sentence(p.first) && steps < 6) {
    --i;
    ++steps;
    if (!between_words.has(s.word(i))) return i;
  }
  return i;
}

bool governed_by_state(const Scene& s, const Phrase& p) {
  const std::size_t g = governor(s, p);
  const std::string_view word = s.word(g);
  return verbs_of_state.has(word) || word.ends_with("'s") || word.ends_with("'re");
}

bool ends_clause(const Scene& s, const Phrase& p) {
  if (p.last >= s.size()) return true;
  const Token& next = s.tokens[p.last];
  if (next.type == Token::Type::sign) return next.text != "-" && next.text != "(";
  constexpr WordSet joining{"so", "and", "but", "which", "because", "then", "now", "or", "okay", "for", "that's"};
  return !s.same_sentence(p.first, p.last) || joining.has(next.text);
}

const Phrase* weighed_alike(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const Phrase* last = last_figure(s, index, 600, is_mass);
  for (std::size_t i = index; i-- > 0 && p.first - s.phrases[i].first < 600;) {
    const Phrase& q = s.phrases[i];
    if (q.fate != Fate::figure || !is_mass(q) || q.value == 0) continue;
    const double ratio = p.value / q.value;
    if (ratio > 0.5 && ratio < 2) return &q;
  }
  return last;
}

}  // namespace sash::narration
