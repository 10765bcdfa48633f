// Numbers whose unit was not said: "the thermometer says 62", "and then 12.6", "ten of 95 percent ethanol". One becomes
// a figure only when its sentence or its neighbour makes the unit certain; all others are counts of things, places in a
// row, years and idioms, and stay out.

#include <algorithm>
#include <cmath>

#include "narration/inner/scene.h"

namespace sash::narration {

namespace {

using quantity::Kind;

struct Meaning {
  Kind kind;
  std::string unit;
  const char* rule;
  double confidence;
};

constexpr WordSet thermometers{"thermometer", "temperature", "temp", "probe", "thermocouple", "thermometers"};
constexpr WordSet volume_readers{"cylinder", "burette", "buret", "syringe", "pipette", "level", "meniscus"};
constexpr WordSet volt_readers{"voltmeter", "multimeter"};
constexpr WordSet amp_readers{"ammeter"};
constexpr WordSet pressure_readers{"barometer", "gauge"};
constexpr WordSet clocks{"stopwatch", "timer", "watch"};

/// The last figure before phrase `index` with a unit, of one of the kinds `wanted` accepts, at most `reach` tokens
/// back.
template <class Wanted>
const Phrase* last_figure(const Scene& s, std::size_t index, std::size_t reach, Wanted wanted) {
  const std::size_t here = s.phrases[index].first;
  for (std::size_t i = index; i-- > 0;) {
    const Phrase& p = s.phrases[i];
    if (here - p.first > reach) return nullptr;
    if (p.fate == Fate::figure && wanted(p)) return &p;
  }
  return nullptr;
}

std::optional<Meaning> like(const Phrase* p, const char* rule, double confidence) {
  if (p == nullptr) return std::nullopt;
  return Meaning{p->kind, p->unit, rule, confidence};
}

bool is_mass(const Phrase& p) { return p.kind == Kind::mass; }
bool is_volume(const Phrase& p) { return p.kind == Kind::volume && p.unit != "[drp]"; }
bool is_temperature(const Phrase& p) { return p.kind == Kind::temperature; }
bool is_length(const Phrase& p) { return p.kind == Kind::length; }
bool is_duration(const Phrase& p) { return p.kind == Kind::duration; }

bool plain_whole(const Phrase& p) { return !p.number.decimal && !p.upper && !p.fraction; }

/// "25, no, sorry, 27 seconds": the unit of what corrects it.
std::optional<Meaning> by_correction(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (index + 1 < s.phrases.size()) {
    const Phrase& next = s.phrases[index + 1];
    const bool close = next.first > p.last && next.first - p.last <= 14 && next.unit_said && next.fate == Fate::figure;
    if (close &&
        (s.word(p.last) == "," || s.word(p.last) == "no" || s.word(p.last) == "\u2014" || s.word(p.last) == "-")) {
      for (std::size_t i = p.last; i < std::min(p.last + 4, next.first); ++i) {
        if (s.word(i) == "no" || s.word(i) == "sorry" || s.word(i) == "wait" || s.word(i) == "oops" ||
            s.word(i) == "correction") {
          const double ratio = next.value == 0 ? 0 : p.value / next.value;
          if (ratio > 0.05 && ratio < 20) return Meaning{next.kind, next.unit, "corrected by the next figure", 0.85};
        }
      }
    }
  }
  if (index > 0) {
    const Phrase& before = s.phrases[index - 1];
    const bool close = p.first >= before.last && p.first - before.last <= 8 && before.fate == Fate::figure;
    if (close && before.unit_said) {
      for (std::size_t i = before.last; i < std::min(before.last + 4, p.first); ++i) {
        if (s.word(i) == "no" || s.word(i) == "sorry" || s.word(i) == "wait" || s.word(i) == "oops" ||
            (s.word(i) == "mean" && s.word(i - 1) == "i")) {
          const double ratio = before.value == 0 ? 0 : p.value / before.value;
          if (ratio > 0.05 && ratio < 20) return Meaning{before.kind, before.unit, "corrects the figure before", 0.85};
        }
      }
    }
  }
  return std::nullopt;
}

constexpr WordSet extents{"wide", "long", "thick", "deep", "across", "high", "tall"};

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

/// The token before the number, past hedges: the verb or preposition that governs it.
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

constexpr WordSet verbs_of_state{
    "lost",    "gained",  "put",   "leaving", "is",      "was",     "are",     "were",      "it's",    "that's",
    "they're", "i'm",     "reads", "says",    "read",    "say",     "shows",   "comes",     "came",    "got",
    "get",     "gives",   "gave",  "makes",   "leaves",  "weighs",  "weighed", "weigh",     "reading", "be",
    "going",   "goes",    "went",  "gone",    "up",      "hit",     "hits",    "reached",   "reaches", "reach",
    "at",      "climbed", "risen", "dropped", "started", "starts",  "start",   "stays",     "had",     "have",
    "i've",    "we've",   "oil's", "strip's", "sits",    "sitting", "stands",  "collected", "took",    "use",
    "used",    "peaked",  "fell",  "rose",    "cooled",  "warmed",  "settles", "settled",   "equals",  "turned",
    "turns",   "ends",    "ended"};

bool governed_by_state(const Scene& s, const Phrase& p) {
  const std::size_t g = governor(s, p);
  const std::string_view word = s.word(g);
  return verbs_of_state.has(word) || word.ends_with("'s") || word.ends_with("'re");
}

constexpr WordSet warm_words{
    "distill",  "distil",   "distilling",  "distillation", "reflux",     "colder",  "cold",    "cooler",
    "freeze",   "freezing", "thermometer", "temperature",  "degrees",    "celsius", "warm",    "hot",
    "cool",     "heat",     "heated",      "heating",      "cooled",     "cooling", "melting", "boiling",
    "climbing", "boils",    "melts",       "warmed",       "fahrenheit", "bath",    "temp",    "°c"};

std::optional<Meaning> by_instrument(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (!governed_by_state(s, p)) return std::nullopt;
  constexpr std::size_t reach = 8;
  const Meaning celsius{Kind::temperature, "Cel", "read off a thermometer", 0.9};
  if (s.find_before(p.first, thermometers, reach)) return celsius;
  if (const auto on = s.find_after(p.last, thermometers, 4); on && s.word_before(*on) != "room") return celsius;
  if (s.find_before(p.first, volt_readers, reach)) return Meaning{Kind::voltage, "V", "read off a meter", 0.85};
  if (s.find_before(p.first, amp_readers, reach)) return Meaning{Kind::current, "A", "read off a meter", 0.85};
  if (s.find_before(p.first, volume_readers, reach)) {
    if (const Phrase* v = last_figure(s, index, 120, is_volume); v != nullptr && v->unit != "L") {
      return Meaning{v->kind, v->unit, "read off a measuring vessel", 0.85};
    }
    return Meaning{Kind::volume, "mL", "read off a measuring vessel", 0.8};
  }
  if (s.find_before(p.first, pressure_readers, reach)) {
    if (const Phrase* v = last_figure(s, index, 300, [](const Phrase& q) { return q.kind == Kind::pressure; })) {
      return Meaning{v->kind, v->unit, "read off a gauge", 0.8};
    }
  }
  if (s.find_before(p.first, clocks, 6)) {
    if (const Phrase* v = last_figure(s, index, 300, is_duration)) return like(v, "read off a watch", 0.7);
  }
  return std::nullopt;
}

bool acidity_spoken_of(const Scene& s, std::size_t token) {
  const std::size_t begin = s.begin_of_sentence(token);
  for (std::size_t i = begin; i < token; ++i) {
    if (s.word(i) == "ph") return true;
  }
  return false;
}

std::optional<Meaning> by_acidity(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.value > 14.5 || p.value < -1 || p.fraction) return std::nullopt;
  if (!governed_by_state(s, p) && s.word(governor(s, p)) != "around" &&
      !s.find_before(p.first, WordSet{"around", "about", "between", "to", "of", "below", "above", "under", "over"},
                     1)) {
    return std::nullopt;
  }
  const Meaning pH{Kind::pH, "[pH]", "pH read off", 0.85};
  if (acidity_spoken_of(s, p.first)) {
    const auto word = s.find_before(p.first, WordSet{"ph"}, 14);
    if (word) return pH;
  }
  const bool paper = s.find_before(p.first, WordSet{"strip", "paper", "litmus"}, 10).has_value();
  const bool reads =
      s.find_before(p.first, WordSet{"says", "reads", "shows", "goes", "say", "read", "gives", "is", "turns"}, 5)
          .has_value();
  if (paper && reads) return pH;
  // "Below 9 it hardly glows", "above ten" right behind a pH.
  const std::string_view side = s.word_before(p.first);
  if (index > 0 && (side == "below" || side == "above" || side == "under" || side == "over" || side == "past")) {
    const Phrase& last = s.phrases[index - 1];
    if (last.kind == Kind::pH && last.fate == Fate::figure && p.first - last.last < 12) return pH;
  }
  // "Mine says 12" right behind talk of pH.
  if (reads && index > 0) {
    for (std::size_t i = index; i-- > 0;) {
      const Phrase& before = s.phrases[i];
      if (p.first - before.first > 24) break;
      if (before.kind == Kind::pH && before.fate == Fate::figure) return pH;
      if (before.fate == Fate::figure) break;
    }
  }
  return std::nullopt;
}

constexpr WordSet temperature_paths{
    "warms",   "heats",   "cools",   "warming", "come",    "comes",  "came",    "dropping", "rising",  "climbing",
    "falling", "cooling", "heating", "lowest",  "highest", "gone",   "climbed", "risen",    "dropped", "fallen",
    "cooled",  "warmed",  "reached", "peaked",  "hit",     "hits",   "reaches", "reach",    "heated",  "rises",
    "climbs",  "drops",   "falls",   "heat",    "cool",    "bring",  "warm",    "went",     "rose",    "fell",
    "keep",    "keeping", "hold",    "holding", "melts",   "melted", "melting", "boils",    "boiling", "started",
    "set",     "oven",    "bath",    "goes",    "stays"};

/// The scale most temperatures before were given in.
std::string usual_scale(const Scene& s, std::size_t index) {
  int celsius = 0;
  std::string first;
  for (std::size_t i = 0; i < index; ++i) {
    if (s.phrases[i].fate != Fate::figure || !is_temperature(s.phrases[i])) continue;
    if (first.empty()) first = s.phrases[i].unit;
    celsius += s.phrases[i].unit == "[degF]" ? -1 : 1;
  }
  if (celsius == 0 && !first.empty()) return first;
  return celsius < 0 ? "[degF]" : "Cel";
}

std::optional<Meaning> by_temperature(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction || p.value > 2000 || p.number.paired) return std::nullopt;
  const Meaning celsius{Kind::temperature, "Cel", "temperature by its context", 0.8};
  if (s.find_before(p.first, WordSet{"melting", "boiling", "melts", "boils"}, 14) && p.value > 20) {
    return Meaning{Kind::temperature, usual_scale(s, index), "a melting or boiling point", 0.8};
  }
  const std::string_view before = s.word_before(p.first);
  const std::size_t g = governor(s, p);
  const bool superlative = s.find_before(p.first, WordSet{"least", "most", "first", "last"}, 2).has_value();
  const bool at = superlative ? false
                              : before == "at" || (before == "around" && s.word_before(p.first, 2) == "at") ||
                                    (s.word_before(p.first, 2) == "at" && between_words.has(before)) ||
                                    s.find_before(p.first, WordSet{"at"}, 4).has_value();
  const bool path = (temperature_paths.has(before) || before == "to" || before == "past" || before == "above" ||
                     before == "below" || before == "hit" || before == "reached" || between_words.has(before)) &&
                    s.find_before(p.first, temperature_paths, 6).has_value();
  const bool state = verbs_of_state.has(s.word(g)) || s.word(g).ends_with("'s") || s.word(g).ends_with("'re");
  const Phrase* last = last_figure(s, index, 60, is_temperature);
  if (p.number.value < 0 &&
      (last != nullptr || s.find_in_sentence(p.first, WordSet{"lowest", "down", "dropped", "cold", "thermometer"}))) {
    return celsius;  // only temperatures go below zero
  }
  if (index > 0 && p.first - s.phrases[index - 1].last <= 1 && s.phrases[index - 1].fate == Fate::figure &&
      is_temperature(s.phrases[index - 1]) && !s.phrases[index - 1].unit_said && plain_whole(p)) {
    return Meaning{Kind::temperature, s.phrases[index - 1].unit, "temperatures read out one after another", 0.7};
  }
  bool warm = s.find_in_sentence(p.first, warm_words).has_value();
  for (std::size_t i = p.first; i-- > 0 && p.first - i < 30 && !warm;) warm = warm_words.has(s.word(i));
  // A neighbour in the same sentence or just before says degrees.
  bool temperature_behind = false;
  for (std::size_t i = index + 1; i < s.phrases.size() && s.phrases[i].first < p.last + 16; ++i) {
    temperature_behind = temperature_behind || (s.phrases[i].kind == Kind::temperature && s.phrases[i].unit_said &&
                                                s.phrases[i].fate == Fate::figure);
  }
  const bool spoken_of = last != nullptr || warm || temperature_behind;
  if (!spoken_of) return std::nullopt;
  const Meaning like_last{Kind::temperature, usual_scale(s, index), "temperature by its context", 0.8};
  const bool range = p.upper.has_value();
  if (at && (state || range || warm || temperature_behind)) return like_last;
  if (path) return like_last;
  if (range && (last != nullptr || warm)) return like_last;
  if (state && last != nullptr && p.first - last->first < 26 && plain_whole(p) && p.value > 14) {
    // Only where the figure right before was a temperature.
    const Phrase& before_phrase = s.phrases[index - 1];
    if (before_phrase.kind == Kind::temperature && before_phrase.fate == Fate::figure) return like_last;
  }
  return std::nullopt;
}

constexpr WordSet weighing{"weighs", "weighed", "weigh", "weighing", "balance", "scale",
                           "scales", "mass",    "tare",  "weight",   "grams"};
constexpr WordSet containers{"dish",   "boat",  "beaker", "flask", "paper", "crucible", "vial", "tube",
                             "bottle", "watch", "glass",  "empty", "tin",   "bowl",     "pan",  "jar"};

/// The unit in which a number of that size was last weighed: "14.67" goes with "14.87 grams", not with "192 milligrams"
/// said since.
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

std::optional<Meaning> by_weighing(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction) return std::nullopt;
  const Phrase* mass = last_figure(s, index, 60, is_mass);
  std::size_t kind_before = index;
  while (kind_before > 0 && s.phrases[kind_before - 1].fate != Fate::figure) --kind_before;
  const bool weigh =
      s.find_before(p.first, WordSet{"weighs", "weighed", "weigh", "weighing", "scale", "scales", "balance"}, 8)
          .has_value();
  if (weigh && (governed_by_state(s, p) || weighing.has(s.word_before(p.first)))) {
    if (const Phrase* far = weighed_alike(s, index)) return like(far, "read off a balance", 0.85);
    return Meaning{Kind::mass, "g", "read off a balance", 0.75};
  }
  if (mass != nullptr && governed_by_state(s, p) && s.find_before(p.first, containers, 6) &&
      (p.number.decimal || p.first - mass->first < 20)) {
    return like(weighed_alike(s, index), "weight beside another weight", 0.85);
  }
  return std::nullopt;
}

constexpr WordSet remains{"rest", "remaining", "remainder", "leaves", "left", "leaving"};

/// A decimal is hardly ever a count of things: it has the unit of what was last spoken of.
std::optional<Meaning> by_last_spoken(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const bool remainder = s.find_before(p.first, remains, 4).has_value();
  if (!p.number.decimal && !(remainder && p.number.written)) return std::nullopt;
  constexpr WordSet factors{"times", "factor", "ratio",   "for", "divide",  "divided", "multiply", "multiplied",
                            "by",    "x",      "version", "×",   "density", "index",   "specific"};
  if (factors.has(s.word_before(p.first)) || s.word(p.last) == "times" || s.word(p.last) == "x") return std::nullopt;
  if (s.find_before(p.first, WordSet{"molar", "molecular", "formula", "atomic"}, 4) &&
      s.find_before(p.first, WordSet{"mass", "weight"}, 3)) {
    return std::nullopt;
  }
  if (remainder) {
    if (const Phrase* mass = last_figure(s, index, 80, [](const Phrase& q) { return is_mass(q) || is_volume(q); })) {
      return like(mass, "what remains, in the unit before", 0.8);
    }
  }
  const auto measured = [](const Phrase& q) {
    return q.kind == Kind::mass || q.kind == Kind::amount || is_volume(q) || q.kind == Kind::molar_concentration ||
           q.kind == Kind::gas_volume || q.kind == Kind::voltage || q.kind == Kind::current;
  };
  if (index + 1 < s.phrases.size() && s.phrases[index + 1].kind == Kind::amount && s.phrases[index + 1].unit_said &&
      s.phrases[index + 1].first - p.last <= 8) {
    if (const Phrase* mass = weighed_alike(s, index)) return like(mass, "weight before its moles", 0.75);
  }
  const bool alone =
      p.first == s.begin_of_sentence(p.first) || s.word_before(p.first) == ":" || s.word_before(p.first) == ".";
  if (alone && p.number.decimal) {
    const Phrase* mass = weighed_alike(s, index);
    if (mass != nullptr && mass->value > 0 && p.value / mass->value > 0.5 && p.value / mass->value < 2) {
      return like(mass, "a weight read out by itself", 0.8);
    }
  }
  // "12.318 g before, and the anode 15.024": as many decimals as the weight before in the sentence.
  if (const Phrase* mass = last_figure(s, index, 25, is_mass)) {
    const auto decimals = [](const std::string& digits) {
      return digits.size() - std::min(digits.find('.'), digits.size());
    };
    if (s.same_sentence(mass->first, p.first) && decimals(p.digits) > 2 &&
        decimals(p.digits) == decimals(mass->digits)) {
      return like(mass, "as exact as the weight before", 0.75);
    }
  }
  const Phrase* last = last_figure(s, index, 45, measured);
  if (last != nullptr && (governed_by_state(s, p) || s.word_before(p.first) == "then" ||
                          s.word_before(p.first) == "and" || s.word_before(p.first) == ",")) {
    // The same thing measured again has about the same size; a thousand times as much is something else.
    const double ratio = last->value == 0 ? 0 : p.value / last->value;
    if (last->kind == Kind::mass) return like(weighed_alike(s, index), "unit of the figure before", 0.75);
    if (ratio > 1e-3 && ratio < 1e3) return like(last, "unit of the figure before", 0.75);
  }
  return std::nullopt;
}

/// "100 of B", "10 of 95 percent ethanol": so much of a material, in the unit of the measure before.
std::optional<Meaning> by_of_material(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (s.word(p.last) != "of" || p.fraction) return std::nullopt;
  std::size_t next = p.last + 1;
  constexpr WordSet skip{"the",  "this",      "that",         "my",     "our",  "hot", "cold",
                         "warm", "distilled", "concentrated", "dilute", "pure", "ice"};
  while (skip.has(s.word(next))) ++next;
  bool material = next < s.size() && s.mention_at[next].has_value();
  if (!material && next < s.size() && s.phrase_at[next]) {
    const Phrase& strength = s.phrases[*s.phrase_at[next]];
    const bool percent_of = strength.unit == "%" || strength.kind == Kind::molar_concentration;
    material = percent_of && strength.last < s.size() && s.mention_at[strength.last].has_value();
  }
  if (!material) return std::nullopt;
  const auto measure = [](const Phrase& q) { return is_mass(q) || is_volume(q); };
  if (s.find_in_sentence(p.first, WordSet{"every"}))
    return std::nullopt;  // "four of the iron for every three": a ratio
  return like(last_figure(s, index, 40, measure), "so much of a material, in the unit before", 0.85);
}

std::optional<Meaning> by_extent(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (!extents.has(s.word(p.last)) && !(s.word(p.last) == "by" && s.phrase_at[std::min(p.last + 1, s.size() - 1)])) {
    return std::nullopt;
  }
  if (s.word(p.last) == "by") {
    const Phrase& other = s.phrases[*s.phrase_at[p.last + 1]];
    return is_length(other) && other.unit_said ? like(&other, "side by side with another length", 0.8) : std::nullopt;
  }
  return like(last_figure(s, index, 25, is_length), "extent, in the unit before", 0.85);
}

/// "up to the 250 line", "the 100 mark".
std::optional<Meaning> by_mark(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const std::string_view behind = s.word(p.last);
  if (behind != "line" && behind != "mark" && behind != "graduation") return std::nullopt;
  if (s.word_before(p.first) != "the") return std::nullopt;
  return Meaning{Kind::volume, "mL", "a mark on the glass", 0.85};
}

/// "make it up to 250": the volume of what is made.
std::optional<Meaning> by_making_up(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (s.word_before(p.first) != "to" || p.fraction || p.upper) return std::nullopt;
  const bool up = s.find_before(p.first, WordSet{"up"}, 4).has_value();
  const bool made =
      s.find_before(p.first, WordSet{"make", "made", "making", "top", "topped", "fill", "filled", "dilute", "diluted"},
                    7)
          .has_value();
  if (!made || (!up && !s.find_before(p.first, WordSet{"dilute", "diluted"}, 4))) return std::nullopt;
  return like(last_figure(s, index, 60, is_volume), "made up to a volume", 0.85);
}

/// "out of 110": a number said before with its unit, said again.
/// "also in 50", "I put in one fifty": of what is measured in the same breath, in the unit before.
std::optional<Meaning> by_putting_in(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction || p.upper || (p.value < 5 && !p.number.decimal)) return std::nullopt;
  const std::string_view before = s.word_before(p.first);
  const std::string_view earlier = s.word_before(p.first, 2);
  const bool put =
      (before == "in" && (earlier == "put" || earlier == "pour" || earlier == "also" || earlier == "add")) ||
      before == "use" || before == "add" || before == "take" || before == "using" || before == "adding";
  if (!put) return std::nullopt;
  return like(last_figure(s, index, 40, is_volume), "put in, in the unit before", 0.7);
}

/// "9.2 grams and it's 84, so that's 0.11 moles": the number that turns the mass before into the amount behind.
bool is_molar_mass(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (index + 1 >= s.phrases.size() || p.value <= 1) return false;
  const Phrase& next = s.phrases[index + 1];
  if (next.kind != Kind::amount || next.first - p.last > 12) return false;
  const Phrase* mass = last_figure(s, index, 40, is_mass);
  if (mass == nullptr) return false;
  const double scale = (mass->unit == "mg" ? 1e-3 : mass->unit == "kg" ? 1e3 : 1) / (next.unit == "mmol" ? 1e-3 : 1);
  const double amount = mass->value * scale / p.value;
  return std::abs(amount - next.value) < 0.06 * next.value;
}

std::optional<Meaning> by_echo(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  constexpr WordSet pointing{"of", "from", "than", "minus", "the", "those", "less", "theory"};
  if (p.fraction || p.upper || !pointing.has(s.word_before(p.first))) return std::nullopt;
  if (p.last < s.size() && s.phrase_at[p.last]) return std::nullopt;  // "the 24 40 joint"
  if (p.value < 13 && !p.number.decimal) return std::nullopt;
  for (std::size_t i = index; i-- > 0 && p.first - s.phrases[i].first < 900;) {
    const Phrase& q = s.phrases[i];
    const bool measured =
        q.kind == Kind::mass || q.kind == Kind::volume || q.kind == Kind::gas_volume || q.kind == Kind::amount;
    if (q.fate == Fate::figure && measured && q.unit_said && q.value == p.value && !q.upper)
      return like(&q, "said before with its unit", 0.75);
  }
  return std::nullopt;
}

/// "for two minutes, and then strongly for at least ten".
std::optional<Meaning> by_waiting(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  std::size_t i = p.first;
  constexpr WordSet hedging{"at", "least", "about", "around", "another", "nearly", "maybe"};
  while (i > s.begin_of_sentence(p.first) && hedging.has(s.word_before(i))) --i;
  if (p.fraction || s.word_before(i) != "for") return std::nullopt;
  const Phrase* last = last_figure(s, index, 40, [](const Phrase&) { return true; });
  if (last == nullptr || !is_duration(*last) || !s.same_sentence(last->first, p.first)) return std::nullopt;
  return like(last, "another wait, in the unit before", 0.75);
}

/// "51. 53." behind a thermometer: a number that is a sentence by itself is read out like the one before.
std::optional<Meaning> by_reading_out(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const bool alone =
      p.first == s.begin_of_sentence(p.first) && p.last + 1 == s.end_of_sentence(p.first) && s.punctuated;
  if (!alone || p.fraction || index == 0) return std::nullopt;
  const Phrase& last = s.phrases[index - 1];
  const bool instrument = last.kind == Kind::temperature || last.kind == Kind::pH || last.kind == Kind::voltage;
  if (last.fate != Fate::figure || !instrument || p.first - last.last > 24) return std::nullopt;
  return Meaning{last.kind, last.unit, "read out by itself", 0.75};
}

std::optional<Meaning> by_density(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.value > 25 || p.value < 0.0005 ||
      !s.find_before(p.first, WordSet{"density", "gravity", "density's", "densities"}, 5))
    return std::nullopt;
  return Meaning{Kind::density, "g/mL", "density without its unit", 0.85};
}

/// "started at 24 and now the brine is at 31 celsius" and lists: the unit comes with the last of them.
std::optional<Meaning> by_shared_unit(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (index + 1 >= s.phrases.size() || p.fraction) return std::nullopt;
  const Phrase& next = s.phrases[index + 1];
  if (!next.unit_said || next.fate != Fate::figure || next.first < p.last) return std::nullopt;
  const std::size_t gap = next.first - p.last;
  const std::string_view join = s.word(p.last);
  const bool listed =
      gap == 1 && (join == "and" || join == "," || join == "then" || join == "or" || join == "by" || join == "to");
  const bool listed_twice = gap == 2 && join == "," && (s.word(p.last + 1) == "and" || s.word(p.last + 1) == "then");
  const bool from_to = gap == 1 && join == "to" && s.word_before(p.first) == "from";
  if (!listed && !listed_twice && !from_to) return std::nullopt;
  if (next.kind == Kind::pH || next.kind == Kind::percent_other) return std::nullopt;
  if (next.number.article || next.value <= 0 || p.value <= 0) return std::nullopt;
  if (!p.number.written && plain_whole(p) && p.value < 4) return std::nullopt;  // "one and two mils"
  const double ratio = p.value / next.value;
  if (ratio < 0.02 || ratio > 50) return std::nullopt;
  return Meaning{next.kind, next.unit, "shares the unit of the next", 0.7};
}

bool is_year(const Scene& s, const Phrase& p) {
  if (p.number.year && p.value > 1500 && p.value < 2100) return true;
  if (!plain_whole(p) || p.value < 1500 || p.value > 2100) return false;
  constexpr WordSet year_words{"in", "since", "from", "until", "by", "around", "the", "like", "of"};
  return year_words.has(s.word_before(p.first)) && p.number.written && p.number.digits.size() == 4;
}

bool is_counting(const Scene& s, const Phrase& p) {
  // A number right before a noun that is no unit counts things. What follows a bare quantity is a pause or a function
  // word.
  if (p.upper || p.number.decimal || p.last >= s.size()) return false;
  const Token& next = s.tokens[p.last];
  if (next.type != Token::Type::word || s.phrase_at[p.last]) return false;
  constexpr WordSet function_words{
      "that's",  "that",    "this",    "per",    "are",     "were",  "give",   "and",   "so",     "but",  "which",
      "that",    "on",      "in",      "or",     "of",      "then",  "now",    "with",  "as",     "to",   "for",
      "because", "is",      "at",      "if",     "it",      "we",    "i",      "the",   "you",    "from", "by",
      "okay",    "just",    "when",    "where",  "while",   "after", "before", "again", "again,", "here", "there",
      "long",    "wide",    "thick",   "deep",   "across",  "high",  "tall",   "line",  "mark",   "ish",  "isn't",
      "give",    "perfect", "already", "though", "exactly", "oh",    "into",   "out"};
  return !function_words.has(next.text);
}

std::optional<Meaning> by_concentration(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const bool spoken_of = s.find_before(p.first, WordSet{"concentration", "molarity", "concentrations"}, 16).has_value();
  if (!spoken_of || p.fraction || p.value > 30) return std::nullopt;
  if (!p.number.decimal && !governed_by_state(s, p)) return std::nullopt;
  return Meaning{Kind::molar_concentration, "mol/L", "a concentration by its context", 0.75};
}

std::optional<Meaning> meaning_of(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (is_year(s, p)) return std::nullopt;
  const std::string_view sign = s.word_before(p.first);
  if (sign == "$" || sign == "£" || sign == "€" || sign == "#") return std::nullopt;
  constexpr WordSet money{"dollars",     "dollar", "pence",  "cents",   "quid", "euros",   "bucks", "pounds",
                          "subscribers", "views",  "people", "million", "past", "o'clock", "am",    "pm"};
  if (money.has(s.word(p.last))) return std::nullopt;
  if (s.word_before(p.first) == "not" || s.word_before(p.first) == "past") return std::nullopt;
  if (auto m = by_correction(s, index)) return m;
  if (auto m = by_mark(s, index)) return m;
  if (auto m = by_extent(s, index)) return m;
  const bool pronoun = p.value == 1 && !p.number.written && !p.number.decimal && !p.upper &&
                       !WordSet{"is", "at", "to", "of", "around", "about", "says"}.has(s.word_before(p.first));
  if (pronoun || is_molar_mass(s, index)) return std::nullopt;
  if (auto m = by_making_up(s, index)) return m;
  if (is_counting(s, p)) return std::nullopt;
  if (auto m = by_of_material(s, index)) return m;
  if (auto m = by_echo(s, index)) return m;
  if (auto m = by_putting_in(s, index)) return m;
  if (auto m = by_density(s, index)) return m;
  if (auto m = by_concentration(s, index)) return m;
  if (auto m = by_acidity(s, index)) return m;
  if (auto m = by_waiting(s, index)) return m;
  if (auto m = by_reading_out(s, index)) return m;
  if (auto m = by_instrument(s, index)) return m;
  if (auto m = by_weighing(s, index)) return m;
  if (auto m = by_temperature(s, index)) return m;
  if (auto m = by_last_spoken(s, index)) return m;
  if (auto m = by_shared_unit(s, index)) return m;
  return std::nullopt;
}

}  // namespace

void judge_bare_numbers(Scene& scene) {
  for (std::size_t i = 0; i < scene.phrases.size(); ++i) {
    Phrase& p = scene.phrases[i];
    if (p.fate != Fate::open || p.unit_said) continue;
    if (const auto meaning = meaning_of(scene, i)) {
      p.kind = meaning->kind;
      p.unit = meaning->unit;
      p.rule = meaning->rule;
      p.confidence = meaning->confidence;
      p.fate = Fate::figure;
      p.bare_degrees = false;
    }
  }
}

}  // namespace sash::narration
