#include "narration/inner/topics.h"

#include "narration/inner/product_weigher.h"

namespace sash::narration {

namespace {

constexpr WordSet vague{
    "sulfate",       "chloride",        "gas",      "ice",     "salt",        "pigment", "paint",      "dye",
    "ink",           "paste",           "filtrate", "residue", "precipitate", "slurry",  "indicator",  "steel",
    "brass",         "bronze",          "fat",      "wax",     "oil",         "acid",    "distillate", "supernatant",
    "mother liquor", "reaction mixture"};

/// "number two is zinc", "the next one is aluminum", "number three aluminum".
bool counted_off(const Scene& s, const Mention& m) {
  constexpr WordSet counting{"number", "first", "second", "third", "fourth", "next", "last"};
  const std::string_view before = s.word_before(m.first);
  if (before == "is" || before == "was") return s.find_before(m.first, counting, 5).has_value();
  return s.word_before(m.first, 2) == "number";
}

}  // namespace

bool is_vague(std::string_view name) { return vague.has(name); }

namespace {

/// Whether the mention could be what a procedure makes: no water, no word for any of its kind.
bool is_something(const Mention& m) { return !m.water && !m.generic && !is_vague(m.name); }

/// "today we're making aspirin", "take the caffeine out of it": what the procedure is for.
const Mention* aim_of(const Scene& s) {
  constexpr WordSet making{"formula",     "making",       "make",        "prepare",     "preparing",  "synthesise",
                           "synthesize",  "synthesizing", "plate",       "plating",     "producing",  "synthesising",
                           "growing",     "grow",         "extract",     "extracting",  "isolate",    "isolating",
                           "it's",        "called",       "synthesis",   "recover",     "recovering", "preparation",
                           "distilling",  "brewing",      "purify",      "purifying",   "produce",    "homemade",
                           "synthesised", "synthesized",  "precipitate", "crystallise", "crystallize"};
  constexpr WordSet taking{"take", "taking", "get", "getting", "pull", "pulling", "want"};
  const std::size_t until = std::min<std::size_t>(s.size(), 220);
  for (const bool strict : {true, false}) {
    for (const Mention& m : s.mentions) {
      if (m.first > until) break;
      if (!is_something(m) || m.gas) continue;
      const auto verb = s.find_before(m.first, making, strict ? 4 : 14);
      if (verb && (s.word(*verb) != "it's" || (*verb + 1 == m.first && m.first < 60))) return &m;
      const bool out = s.word(m.last) == "out" || (s.word(m.last) == "from" && strict);
      if (out && s.find_before(m.first, taking, 4)) return &m;
    }
  }
  return nullptr;
}

/// "Alright, biodiesel." as a title, or "this is isoamyl acetate": what is shown first.
const Mention* shown_first(const Scene& s) {
  for (const Mention& m : s.mentions) {
    if (m.first > 40) break;
    const std::size_t begin = s.begin_of_sentence(m.first);
    const std::size_t words = s.end_of_sentence(m.first) - begin;
    const bool title = s.punctuated && words <= 6 + (m.last - m.first) && m.first - begin <= 3;
    if (title && is_something(m) && !m.gas) return &m;
  }
  for (const Mention& m : s.mentions) {
    if (m.first > 60) break;
    const auto is = s.find_before(m.first, WordSet{"is", "about"}, 6);
    const bool shown =
        is && (s.word_before(*is) == "this" || s.word_before(*is) == "today" || s.word_before(*is) == "all");
    if (shown && is_something(m) && !m.gas) return &m;
  }
  return nullptr;
}

}  // namespace

bool has_come_out(const Scene& s, const Mention& m) {
  if (!is_something(m) || m.gas || m.solvent) return false;
  constexpr WordSet raw{"crude", "purified", "recrystallised", "recrystallized", "impure"};
  if (raw.has(s.word_before(m.first))) return true;
  const bool of = s.find_before(m.first, WordSet{"of"}, 3).has_value();
  if (of && s.find_before(m.first, WordSet{"yield", "yields", "theoretical", "crude", "purified"}, 4)) return true;
  if (s.word_before(m.first) == "pure" && s.word_before(m.first, 2) == "of") return true;
  constexpr WordSet looks{"mud",   "precipitate", "powder", "solid", "crystals", "sludge",
                          "brick", "gunk",        "flakes", "cloud", "mush"};
  constexpr WordSet saying{"that's", "is", "it's"};
  std::size_t said = m.first;
  constexpr WordSet passing{"uh", "um", "our", "the", "your", "basic", "just", "actually"};
  for (int k = 0; k < 2 && passing.has(s.word_before(said)); ++k) --said;
  if (saying.has(s.word_before(said))) {
    for (std::size_t t = said; t-- > 0 && said - t < 12;) {
      if (looks.has(s.word(t))) return true;
    }
  }
  constexpr WordSet becoming{"ends", "end", "turns", "turn", "turned", "converts", "changes", "ended"};
  if ((s.word_before(m.first) == "as" || s.word_before(m.first) == "into") && s.find_before(m.first, becoming, 4))
    return true;
  if (s.find_after(m.last, WordSet{"yield"}, 2) && s.find_before(m.first, WordSet{"my", "our", "the"}, 2)) return true;
  return s.find_after(m.last, WordSet{"back"}, 3) && s.find_before(m.first, WordSet{"get", "got", "of"}, 4);
}

void find_topics(Scene& s, const Reckoning& reckoning) {
  std::vector<ProductCue>& cues = s.products;
  const Mention* aim = aim_of(s);
  for (const Mention& m : s.mentions) {
    if (has_come_out(s, m)) cues.push_back({m.first, &m});
  }
  constexpr WordSet isolating{"crystals",
                              "needles",
                              "plates",
                              "flakes",
                              "product",
                              "crude",
                              "filter",
                              "filtered",
                              "filtering",
                              "filtration",
                              "suction",
                              "precipitate",
                              "precipitates",
                              "distil",
                              "distill",
                              "distils",
                              "distills",
                              "distilled",
                              "distilling",
                              "distillation",
                              "distillate",
                              "yield",
                              "dried",
                              "drying",
                              "desiccator",
                              "oven",
                              "recrystallise",
                              "recrystallize",
                              "recrystallised",
                              "recrystallized",
                              "recrystallising",
                              "recrystallizing",
                              "recrystallisation",
                              "recrystallization",
                              "harvest",
                              "harvested",
                              "b\u00fcchner",
                              "buchner",
                              "centrifuge",
                              "centrifuged",
                              "decant",
                              "decanted",
                              "scrape",
                              "scraped",
                              "receiver's",
                              "cake",
                              "receiver",
                              "evaporate",
                              "evaporated"};
  constexpr WordSet tools{"paper", "papers", "funnel", "flask", "water", "aid", "agent"};
  for (std::size_t i = 0; i < s.size(); ++i) {
    if (isolating.has(s.word(i)) && !s.mention_at[i] && !tools.has(s.word(i + 1))) s.workups.push_back(i);
  }
  if (aim == nullptr) aim = cues.empty() ? shown_first(s) : cues.front().what;
  aim = ProductWeigher(s, reckoning).weigh(aim);
  if (aim != nullptr) cues.insert(cues.begin(), {0, aim});
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
  constexpr WordSet closing{"next",  "now", "time", ",",     ".",   "is",    "first", "and",  "!",    "?",  "that's",
                            "which", "has", "i",    "comes", "was", "needs", "right", "okay", "yeah", "um", "uh"};
  for (const Mention& m : s.mentions) {
    if (m.water || m.gas || m.negated) continue;
    const std::size_t begin = s.begin_of_sentence(m.first);
    if (counted_off(s, m)) {
      found.push_back(&m);
      continue;
    }
    const bool closes = m.last >= s.size() || closing.has(s.word(m.last)) || s.sentence[m.last] != s.sentence[m.first];
    if (m.generic && m.name.find(' ') == std::string::npos) continue;  // "the acid", before any was named
    constexpr WordSet naming{"is", "it's", "that's", "was", "with", "called"};
    constexpr WordSet articles{"the", "our", "my", "some", "a", "an"};
    const std::size_t lead = articles.has(s.word_before(m.first)) ? 2 : 1;
    const bool last_words = m.first - begin <= 7 || (s.punctuated && s.end_of_sentence(m.first) - m.last <= 1);
    // "And that something is this, potassium hydrogen phthalate, what a mouthful"
    constexpr WordSet pointing{"this", "that", "it", "one", "thing", "called"};
    if (s.word_before(m.first) == "," && closes && pointing.has(s.word_before(m.first, 2))) {
      found.push_back(&m);
      continue;
    }
    if (closes && last_words && naming.has(s.word_before(m.first, lead)) && m.first >= begin + lead) {
      found.push_back(&m);
      continue;
    }
    // "I'm putting in sodium carbonate."
    const bool handled = s.act_before(m.first, Acts(Act::add, Act::take, Act::measure), lead).has_value();
    const bool handled_on = WordSet{"until", "slowly", "to", "carefully", "now", "bit"}.has(s.word(m.last));
    if ((closes || handled_on) && handled && s.punctuated && s.same_sentence(begin, m.first)) {
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
    if (opens && (closes || s.word(m.last - 1).ends_with("'s"))) found.push_back(&m);
  }
  return found;
}

}  // namespace sash::narration
