#include "narration/inner/topics.h"

namespace sash::narration {

namespace {

constexpr WordSet vague{
    "sulfate",     "chloride", "gas",       "ice",        "salt",        "pigment",       "paint",
    "dye",         "ink",      "glue",      "slime",      "paste",       "filtrate",      "residue",
    "precipitate", "slurry",   "indicator", "steel",      "brass",       "bronze",        "fat",
    "wax",         "oil",      "acid",      "distillate", "supernatant", "mother liquor", "reaction mixture"};

/// "number two is zinc", "the next one is aluminum", "number three aluminum".
bool counted_off(const Scene& s, const Mention& m) {
  constexpr WordSet counting{"number", "first", "second", "third", "fourth", "next", "last"};
  const std::string_view before = s.word_before(m.first);
  if (before == "is" || before == "was") return s.find_before(m.first, counting, 5).has_value();
  return s.word_before(m.first, 2) == "number";
}

}  // namespace

bool is_vague(std::string_view name) { return vague.has(name); }

/// "today we're making aspirin": what the procedure is for.
std::optional<std::size_t> find_product(const Scene& s) {
  constexpr WordSet making{"formula",    "making",       "make",         "prepare",    "preparing", "synthesise",
                           "synthesize", "synthesizing", "synthesising", "plate",      "plating",   "producing",
                           "growing",    "grow",         "extract",      "extracting", "isolate",   "isolating",
                           "it's",       "called",       "synthesis",    "preparation"};
  const std::size_t until = std::min<std::size_t>(s.size(), 220);
  for (const bool strict : {true, false}) {
    for (const Mention& m : s.mentions) {
      if (m.first > until) break;
      if (m.water || m.generic || m.gas || is_vague(m.name)) continue;
      const auto verb = s.find_before(m.first, making, strict ? 4 : 14);
      if (verb && (s.word(*verb) != "it's" || (*verb + 1 == m.first && m.first < 60))) {
        return static_cast<std::size_t>(&m - s.mentions.data());
      }
    }
  }
  // "Alright, biodiesel." at the beginning is a title.
  for (const Mention& m : s.mentions) {
    if (m.first > 40) break;
    const std::size_t begin = s.begin_of_sentence(m.first);
    const std::size_t words = s.end_of_sentence(m.first) - begin;
    const bool title = s.punctuated && words <= 6 + (m.last - m.first) && m.first - begin <= 3;
    if (title && !m.water && !m.gas && !is_vague(m.name)) return static_cast<std::size_t>(&m - s.mentions.data());
  }
  // "this is isoamyl acetate"
  for (const Mention& m : s.mentions) {
    if (m.first > 60) break;
    const auto is = s.find_before(m.first, WordSet{"is", "about"}, 6);
    const bool shown =
        is && (s.word_before(*is) == "this" || s.word_before(*is) == "today" || s.word_before(*is) == "all");
    if (shown && !m.water && !m.gas && !is_vague(m.name)) return static_cast<std::size_t>(&m - s.mentions.data());
  }
  // "you get copper metal back", "5 grams of pure caffeine"
  for (const Mention& m : s.mentions) {
    if (m.water || m.gas || is_vague(m.name)) continue;
    const bool back =
        s.find_after(m.last, WordSet{"back"}, 3).has_value() && s.find_before(m.first, WordSet{"get", "got", "of"}, 4);
    const bool pure = s.word_before(m.first) == "crude" ||
                      (s.find_before(m.first, WordSet{"crude", "pure", "purified", "yield"}, 3) &&
                       s.find_before(m.first, WordSet{"of"}, 3));
    if (back || pure) {
      return static_cast<std::size_t>(&m - s.mentions.data());
    }
  }
  return std::nullopt;
}

/// "Now the lye", "first one is magnesium", "Solution A is the iodate": from there on that is spoken of.
std::vector<const Mention*> find_introductions(const Scene& s) {
  std::vector<const Mention*> found;
  constexpr WordSet opening{"now",   "next",    "then",   "first",   "second",   "third",  "so",    "okay",
                            "ok",    "alright", "number", "one",     "two",      "three",  "four",  "is",
                            "the",   "our",     "my",     "comes",   "up",       "and",    "right", "well",
                            "thing", "step",    "last",   "finally", "for",      "with",   "start", "starting",
                            "we",    "other",   "on",     "to",      "it's",     "that's", "a",     "this",
                            "metal", "acid",    "oil",    "bath",    "solution", "here's", "go"};
  constexpr WordSet closing{"next",   "now",   "time", ",", ".",     "is",  "first", "and",
                            "that's", "which", "has",  "i", "comes", "was", "needs"};
  for (const Mention& m : s.mentions) {
    if (m.water || m.solvent || m.gas) continue;
    const std::size_t begin = s.begin_of_sentence(m.first);
    if (counted_off(s, m)) {
      found.push_back(&m);
      continue;
    }
    if (m.first - begin > 6) continue;
    bool opens = true;
    for (std::size_t i = begin; i < m.first; ++i)
      opens = opens && (opening.has(s.word(i)) || !s.tokens.is_type(i, Token::Type::word));
    const bool named_so =
        s.word_before(m.first) == "is" && m.first >= 2 && s.mention_at[m.first - 2];  // "the sugar is glucose"
    if (named_so) {
      found.push_back(&m);
      continue;
    }
    const bool closes = m.last >= s.size() || closing.has(s.word(m.last)) || s.sentence[m.last] != s.sentence[m.first];
    if (opens && closes) found.push_back(&m);
  }
  return found;
}

}  // namespace sash::narration
