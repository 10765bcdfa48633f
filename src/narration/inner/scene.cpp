#include "narration/inner/scene.h"

#include <algorithm>

#include "narration/inner/learned_names.h"
#include "narration/inner/reckoning.h"

namespace sash::narration {

namespace {

constexpr WordSet stops{".", "!", "?", ";", ">>"};
/// Words that open a new thought. They stand in for full stops where a recogniser wrote none.
constexpr WordSet openers{"okay", "ok", "alright", "so", "now", "then", "anyway", "because", "but", "next", "right"};

bool is_punctuated(const TokenStream& s) {
  std::size_t stops_found = 0;
  for (const Token& t : s.tokens) stops_found += t.type == Token::Type::sign && stops.has(t.text) ? 1 : 0;
  return stops_found * 60 >= s.size();
}

/// Whether a full stop there ends a sentence rather than an abbreviation of a single letter.
bool ends_sentence(const TokenStream& s, std::size_t i) {
  if (s[i].type != Token::Type::sign || !stops.has(s[i].text)) return false;
  const bool dots = s.is(i, ".") && ((i + 1 < s.size() && s.is(i + 1, ".")) || (i > 0 && s.is(i - 1, ".")));
  return !dots;  // "..." is a pause
}

void find_sentences(Scene& scene) {
  const TokenStream& s = scene.tokens;
  scene.punctuated = is_punctuated(s);
  scene.sentence.resize(s.size());
  scene.sentence_begin.assign(1, 0);
  std::size_t length = 0;
  constexpr std::size_t fewest = 6;  // words before an opener may break, so that "and so then" stays together
  for (std::size_t i = 0; i < s.size(); ++i) {
    const bool opener = !scene.punctuated && length >= fewest && openers.has(s.text(i));
    if (opener || s.is(i, ">>")) {
      if (i > scene.sentence_begin.back()) scene.sentence_begin.push_back(i);
      length = 0;
    }
    scene.sentence[i] = static_cast<std::uint32_t>(scene.sentence_begin.size() - 1);
    ++length;
    if (ends_sentence(s, i) && i + 1 < s.size() && !s.is(i + 1, ")")) {
      scene.sentence_begin.push_back(i + 1);
      length = 0;
    }
  }
  if (scene.sentence_begin.back() < s.size() || s.size() == 0) scene.sentence_begin.push_back(s.size());
}

constexpr WordSet metals_with_states{"iron",     "copper", "tin",       "lead", "mercury",  "cobalt", "nickel",
                                     "chromium", "chrome", "manganese", "gold", "vanadium", "cerium"};
constexpr WordSet states{"one", "two", "three", "four", "five", "six", "seven", "1",  "2",
                         "3",   "4",   "6",     "7",    "i",    "ii",  "iii",   "iv", "vii"};

/// "the iron two one", "iron-3", "mercury one anything": an oxidation state, although no compound is named.
bool is_oxidation_state(const TokenStream& s, std::size_t i) {
  std::size_t metal = i;
  if (metal == 0) return false;
  --metal;
  if (s.is(metal, "-") || s.is(metal, "(")) {
    if (metal == 0) return false;
    --metal;
  }
  if (!states.has(s.text(i)) || !metals_with_states.has(s.text(metal))) return false;
  return !read_phrase(s, i).value_or(Phrase()).unit_said;
}

/// "755 millimetres of mercury": no mercury is there.
bool is_in_pressure_unit(const TokenStream& s, const Mention& m) {
  constexpr WordSet lengths{"millimetres", "millimeters", "millimetre", "millimeter", "inches", "mm"};
  return m.first >= 2 && s.is(m.first, "mercury") && s.is(m.first - 1, "of") && lengths.has(s.text(m.first - 2));
}

/// Whether what sounded like a name is a number with its unit: "(for) two hours", "(theory) six point two grams".
bool is_quantity(const TokenStream& s, const Mention& m) {
  for (std::size_t t = m.first; t < m.last && m.last - m.first > 1; ++t) {
    if (!s.is_type(t, Token::Type::word)) continue;
    const auto number = read_spoken_number(s, t);
    if (!number || number->fraction) continue;
    const auto phrase = read_phrase(s, t);
    if (phrase && phrase->unit_said && phrase->last >= m.last && phrase->kind != quantity::Kind::other) return true;
  }
  return false;
}

constexpr WordSet labels{"questions", "pages",    "steps",   "chapters", "cup",     "tube",     "vial",    "well",
                         "number",    "step",     "part",    "run",      "page",    "chapter",  "setting", "grade",
                         "figure",    "question", "episode", "take",     "version", "room",     "level",   "phase",
                         "stage",     "trial",    "sample",  "method",   "round",   "mark",     "option",  "experiment",
                         "video",     "no",       "test",    "demo",     "table",   "position", "gear",    "speed",
                         "notch",     "lesson",   "unit",    "week",     "year",    "day",      "act",     "bench",
                         "group",     "line",     "channel", "rule",     "reason",  "item"};

/// "step two", "run number 3", "setting 4": the number is a name.
bool is_label(const TokenStream& s, std::size_t i) {
  if (i == 0 || !labels.has(s.text(i - 1))) return false;
  const auto phrase = read_phrase(s, i);
  if (!phrase) return false;
  const bool several = s.text(i - 1).ends_with('s');
  if (!phrase->unit_said)
    return phrase->number.value == static_cast<double>(static_cast<int>(phrase->number.value)) &&
           (several || !phrase->upper) && !phrase->number.decimal && !phrase->fraction;
  // "Year 10s"
  if (phrase->unit == "s" && phrase->last == i + 2 && s[i + 1].glued && s.is(i + 1, "s")) return true;
  // "step two 5 grams of" has its own number behind; "part 20 mils" is a quantity.
  return false;
}

}  // namespace

const Mention* Scene::product_at(std::size_t token) const {
  const auto behind =
      std::partition_point(products.begin(), products.end(), [&](const ProductCue& cue) { return cue.token <= token; });
  return behind == products.begin() ? nullptr : (behind - 1)->what;
}

std::optional<std::size_t> Scene::workup_before(std::size_t token) const {
  const auto behind = std::lower_bound(workups.begin(), workups.end(), token);
  if (behind == workups.begin()) return std::nullopt;
  return *(behind - 1);
}

std::optional<std::size_t> Scene::act_before(std::size_t at, Acts wanted, std::size_t reach) const {
  if (at == 0 || at > size()) return std::nullopt;
  const std::uint32_t here = sentence[at - 1];
  for (std::size_t i = at; i-- > 0 && at - i <= reach && sentence[i] == here;) {
    if (wanted.has(acts[i])) return i;
  }
  return std::nullopt;
}

std::optional<std::size_t> Scene::act_after(std::size_t at, Acts wanted, std::size_t reach) const {
  if (at == 0 || at >= size()) return std::nullopt;
  const std::uint32_t here = sentence[at - 1];
  for (std::size_t i = at; i < size() && i < at + reach && sentence[i] == here; ++i) {
    if (wanted.has(acts[i])) return i;
  }
  return std::nullopt;
}

void Scene::place_mentions() {
  mention_at.assign(size(), std::nullopt);
  for (std::size_t m = 0; m < mentions.size(); ++m) {
    for (std::size_t i = mentions[m].first; i < mentions[m].last; ++i) mention_at[i] = m;
  }
}

Scene open_scene(std::span<const model::NarrationLine> lines) {
  Scene scene;
  scene.tokens = tokenise(lines);
  find_sentences(scene);
  scene.acts = find_acts(scene.tokens);
  scene.mentions = find_mentions(scene.tokens, lines);
  // "the iron two one", "that's manganese seven": not about the metal.
  std::erase_if(scene.mentions, [&](const Mention& m) {
    return is_oxidation_state(scene.tokens, m.last) || is_in_pressure_unit(scene.tokens, m) ||
           is_quantity(scene.tokens, m);
  });
  std::vector<bool> blocked(scene.size(), false);
  scene.place_mentions();
  for (std::size_t i = 0; i < scene.size(); ++i) {
    blocked[i] = scene.mention_at[i].has_value();
    if (!blocked[i] && (is_oxidation_state(scene.tokens, i) || is_label(scene.tokens, i))) blocked[i] = true;
  }
  scene.phrases = find_phrases(scene.tokens, blocked);
  scene.phrase_at.assign(scene.size(), std::nullopt);
  for (std::size_t p = 0; p < scene.phrases.size(); ++p) {
    for (std::size_t i = scene.phrases[p].first; i < scene.phrases[p].last; ++i) scene.phrase_at[i] = p;
  }
  learn_names(scene);
  return scene;
}

Scene read_scene(std::span<const model::NarrationLine> lines, Study study) {
  Scene scene = open_scene(lines);
  scene.study = study;
  if (scene.study.weights == nullptr) scene.study.weights = &own_weights();
  judge_phrases(scene);
  judge_bare_numbers(scene);
  settle_scales(scene);
  settle_kinds(scene);
  settle_hedges(scene);
  const Reckoning reckoning(scene);
  find_topics(scene, reckoning);
  name_subjects(scene, reckoning);
  settle_roles(scene);
  tie_figures(scene);
  follow_ties(scene);
  return scene;
}

}  // namespace sash::narration
