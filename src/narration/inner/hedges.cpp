// The words around a number that say how closely it is meant.

#include "narration/inner/scene.h"

namespace sash::narration {

namespace {

using model::Hedge;

constexpr WordSet about_before{"about",     "around",   "roughly", "approximately", "approx", "circa", "like",
                               "say",       "maybe",    "perhaps", "probably",      "~",      "≈",     "nominally",
                               "somewhere", "ballpark", "guess",   "reckon",        "some",   "c"};
constexpr WordSet under_before{"under", "below", "nearly", "almost", "within", "beneath"};
constexpr WordSet over_before{"over", "above", "beyond", "exceeding", "past"};
/// Words that may stand between the hedge and the number.
constexpr WordSet passing{"a",         "an",      "the",  "just", "bit", "only", "at",       "in",       "to",     "of",
                          "on",        "another", "it's", "is",   "or",  "well", "good",     "touch",    "little", "ph",
                          "somewhere", "-",       "uh",   "um",   "be",  "hair", "fraction", "slightly", "even"};

bool has_negation(const Scene& s, std::size_t from, std::size_t until) {
  for (std::size_t i = from; i < until; ++i) {
    const std::string_view word = s.word(i);
    if (word == "not" || word == "no" || word == "never" || word.ends_with("n't")) return true;
  }
  return false;
}

std::optional<Hedge> hedge_before(const Scene& s, const Phrase& p) {
  const std::size_t begin = s.begin_of_sentence(p.first);
  std::size_t steps = 0;
  for (std::size_t i = p.first; i-- > begin && steps < 5; ++steps) {
    const std::string_view word = s.word(i);
    if (word == "exactly" || word == "precisely") {
      const std::string_view earlier = s.word_before(i);
      return earlier == "almost" || earlier == "nearly" || earlier == "not" ? Hedge::about : Hedge::exact;
    }
    if (word == "than" && i > begin) {
      const std::string_view which = s.word(i - 1);
      const bool negated = has_negation(s, i >= begin + 8 ? i - 8 : begin, i);
      if (which == "more" || which == "greater" || which == "higher") return negated ? Hedge::under : Hedge::over;
      if (which == "less" || which == "fewer" || which == "lower") return negated ? Hedge::over : Hedge::under;
      return std::nullopt;
    }
    if (word == "least" && s.word_before(i) == "at") return Hedge::over;
    if (word == "most" && s.word_before(i) == "at") return Hedge::under;
    if (word == "for" && s.word_before(i) == "on" && s.word_before(i, 2) == "getting") return Hedge::under;
    if (word == "of" && (s.word_before(i) == "upwards" || s.word_before(i) == "north")) return Hedge::over;
    if (word == "of" && s.word_before(i) == "shy") return Hedge::under;
    if (under_before.has(word)) {
      if ((word == "nearly" || word == "almost") && s.word_before(i) == "very") return Hedge::about;
      if (word == "almost" && s.word(i + 1) == "exactly") return Hedge::about;
      return Hedge::under;
    }
    if (over_before.has(word)) {
      const bool drip = word == "over" && p.kind == quantity::Kind::duration;  // "drip it in over two minutes"
      if (drip && s.word_before(i) != "just" && s.word_before(i) != "bit" && s.word_before(i) != "little")
        return std::nullopt;
      const std::string_view earlier = s.word_before(i);
      const bool place = word == "over" && (earlier == "pour" || earlier == "go" || earlier == "poured" ||
                                            earlier == "went" || earlier == "all");
      if (place && earlier != "go") return std::nullopt;
      if (place) return has_negation(s, begin, i) ? Hedge::under : Hedge::over;
      return Hedge::over;
    }
    if (about_before.has(word)) {
      if (word == "like") {
        const std::string_view earlier = s.word_before(i);
        if (earlier == "looks" || earlier == "would" || earlier == "you" || earlier == "smells" || earlier == "i'd")
          return std::nullopt;
      }
      if (word == "some" || word == "c") {
        if (i + 1 != p.first) return std::nullopt;
      }
      if (word == "say") {
        const std::string_view earlier = s.word_before(i);
        const bool aside = i == begin || earlier == "," || earlier == "i'd" || earlier == "let's" || earlier == "so" ||
                           earlier == "or" || earlier == "at";
        if (!aside || i + 2 < p.first) return std::nullopt;
      }
      return Hedge::about;
    }
    if (!passing.has(word)) return std::nullopt;
  }
  return std::nullopt;
}

std::optional<Hedge> hedge_behind(const Scene& s, const Phrase& p) {
  std::size_t i = p.last;
  const auto at = [&](std::size_t k) { return s.word(i + k); };
  if (at(0) == "," || at(0) == "-" || at(0) == "each") ++i;
  if (at(0) == ",") ++i;
  if (at(0) == "or" && (at(1) == "so" || at(1) == "thereabouts")) return Hedge::about;
  if (at(0) == "ish" || at(0) == "roughly" || at(0) == "approximately") return Hedge::about;
  if (at(0) == "give" && at(1) == "or" && at(2) == "take") return Hedge::about;
  if (at(0) == "i" && (at(1) == "think" || at(1) == "guess" || at(1) == "reckon")) return Hedge::about;
  if (at(0) == "say" && i > p.last) return Hedge::about;
  if (at(0) == "or" && at(1) == "something") return Hedge::about;
  if (at(0) == "near" && (at(1) == "enough" || at(1) == "as")) return Hedge::about;
  if (at(0) == "near" && at(1) == "as" && at(2) == "makes") return Hedge::about;
  if ((at(0) == "almost" || at(0) == "pretty" || at(0) == "close") &&
      (at(1) == "to" || at(1) == "much" || at(1) == "enough"))
    return Hedge::about;
  if (at(0) == "or" && (at(1) == "near" || at(1) == "close") && (at(2) == "enough" || at(2) == "it"))
    return Hedge::about;
  if (at(0) == "there" && at(1) == "or" && at(2) == "thereabouts") return Hedge::about;
  if (at(0) == "?") return Hedge::about;
  if (at(0) == "at" && at(1) == "least") return Hedge::over;
  if (at(0) == "plus" && i > p.last) return Hedge::over;
  if (at(0) == "max" || at(0) == "maximum" ||
      (at(0) == "at" && (at(1) == "most" || at(1) == "the") && (at(1) == "most" || at(2) == "most"))) {
    return Hedge::under;
  }
  if (at(0) == "or" && at(1) == "more") return Hedge::over;
  if (at(0) == "or" && at(1) == "less") return Hedge::under;
  // "13 or so" where the unit is not said, "a gram of it or so"
  for (std::size_t k = 0; k < 10; ++k) {
    if (!s.same_sentence(p.last - 1, i + k) || s.phrase_at[i + k]) break;
    const bool closes = !s.tokens.is_type(i + k + 3, Token::Type::word) || !s.same_sentence(i + k, i + k + 3);
    if (at(k) == "more" && at(k + 1) == "or" && at(k + 2) == "less" && (closes || k == 0)) return Hedge::about;
    if (at(k) == "give" && at(k + 1) == "or" && at(k + 2) == "take") return Hedge::about;
    if (at(k) == "or" && at(k + 1) == "so" && k <= 2) return Hedge::about;
  }
  return std::nullopt;
}

/// "seventy-two ish": a suffix between number and unit ("30-ish mils").
bool hedged_inside(const Scene& s, const Phrase& p) {
  for (std::size_t i = p.first; i < p.last; ++i) {
    if (s.word(i) == "ish" || (s.word(i) == "or" && s.word(i + 1) == "so")) return true;
  }
  return false;
}

}  // namespace

void settle_hedges(Scene& scene) {
  for (Phrase& p : scene.phrases) {
    if (p.fate != Fate::figure) continue;
    if (p.upper) {
      p.hedge = Hedge::range;
      continue;
    }
    if (const auto before = hedge_before(scene, p)) {
      p.hedge = *before;
    } else if (const auto behind = hedge_behind(scene, p)) {
      p.hedge = *behind;
    } else if (p.number.vague || hedged_inside(scene, p)) {
      p.hedge = Hedge::about;
    }
  }
}

}  // namespace sash::narration
