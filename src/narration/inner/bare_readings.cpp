#include "narration/inner/bare_readings.h"

#include <cmath>

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr WordSet thermometers{"thermometer", "temperature", "temp", "probe", "thermocouple", "thermometers"};

constexpr WordSet volume_readers{"cylinder", "burette", "buret", "syringe", "pipette", "level", "meniscus"};

constexpr WordSet volt_readers{"voltmeter", "multimeter"};

constexpr WordSet amp_readers{"ammeter"};

constexpr WordSet pressure_readers{"barometer", "gauge"};

constexpr WordSet clocks{"stopwatch", "timer", "watch"};

constexpr WordSet warm_words{"distill", "distil",  "distilling", "distillation", "reflux",      "colder",  "cold",
                             "cooler",  "freeze",  "freezing",   "thermometer",  "temperature", "degrees", "celsius",
                             "warm",    "hot",     "cool",       "heat",         "heated",      "heating", "cooled",
                             "cooling", "melting", "boiling",    "climbing",     "warmer",      "hotter",  "boils",
                             "melts",   "warmed",  "fahrenheit", "bath",         "temp",        "°c",      "oven",
                             "kiln",    "furnace", "ice",        "fridge",       "incubator",   "hotplate"};

bool acidity_spoken_of(const Scene& s, std::size_t token) {
  const std::size_t begin = s.begin_of_sentence(token);
  for (std::size_t i = begin; i < token; ++i) {
    if (s.word(i) == "ph") return true;
  }
  return false;
}

constexpr WordSet temperature_paths{
    "gets",     "get",     "getting",  "warms",   "heats",   "cools",   "warming", "come",    "comes",  "came",
    "dropping", "rising",  "climbing", "falling", "cooling", "heating", "lowest",  "highest", "gone",   "climbed",
    "risen",    "dropped", "fallen",   "cooled",  "warmed",  "reached", "peaked",  "hit",     "hits",   "reaches",
    "reach",    "heated",  "rises",    "climbs",  "drops",   "falls",   "heat",    "cool",    "bring",  "warm",
    "went",     "rose",    "fell",     "keep",    "keeping", "hold",    "holding", "melts",   "melted", "melting",
    "boils",    "boiling", "started",  "set",     "oven",    "bath",    "goes",    "stays"};

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

}  // namespace

std::optional<Meaning> by_instrument(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (!governed_by_state(s, p)) return std::nullopt;
  constexpr std::size_t reach = 8;
  const Meaning celsius{Kind::temperature, "Cel", "read off a thermometer", 0.9};
  if (s.find_before(p.first, thermometers, reach)) return celsius;
  // "Thermometer. Oil phase, 70."
  for (std::size_t t = p.first; t-- > 0 && p.first - t < reach && s.word_before(p.first) == ",";) {
    if (s.word(t) == "thermometer") return celsius;
  }
  if (const auto on = s.find_after(p.last, thermometers, 6); on && s.word_before(*on) != "room") return celsius;
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

/// "the pH should come out at 4.76 ... I get 4.72 ... Reading, 6.88": one reading after another.
std::optional<Meaning> by_meter(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const std::size_t point = p.digits.find('.');
  const bool as_meter_reads = point != std::string::npos && p.digits.size() - point <= 3 && p.value < 14;
  if (!as_meter_reads) return std::nullopt;
  constexpr WordSet reading{"reading", "reads",    "read",  "get",  "got", "says",
                            "expect",  "expected", "meter", "come", "be"};
  if (!s.find_before(p.first, reading, 10)) return std::nullopt;
  if (s.find_before(p.first, WordSet{"burette", "titre", "cylinder", "mils", "balance", "scale", "scales"}, 10))
    return std::nullopt;
  for (std::size_t i = index; i-- > 0 && p.first - s.phrases[i].first < 220;) {
    const Phrase& q = s.phrases[i];
    if (q.fate != Fate::figure) continue;
    const bool alike = q.value > 0 && p.value / q.value > 0.7 && p.value / q.value < 1.4;
    const bool read_elsewhere = q.kind == Kind::volume && q.number.decimal && p.first - q.first < 60 && alike;
    if (read_elsewhere) return std::nullopt;
    if (q.kind == Kind::pH) return Meaning{Kind::pH, "[pH]", "another reading of the meter", 0.75};
  }
  for (std::size_t t = p.first; t-- > 0 && p.first - t < 45;) {
    if (s.word(t) == "ph") return Meaning{Kind::pH, "[pH]", "a reading where pH is spoken of", 0.75};
  }
  return std::nullopt;
}

std::optional<Meaning> by_acidity(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.value > 14.5 || p.value < -1 || p.fraction) return std::nullopt;
  if (auto m = by_meter(s, index)) return m;
  if (!governed_by_state(s, p) && s.word(governor(s, p)) != "around" &&
      !s.find_before(p.first,
                     WordSet{"around", "about", "between", "to", "of", "below", "above", "under", "over", "from"}, 1)) {
    return std::nullopt;
  }
  const Meaning pH{Kind::pH, "[pH]", "pH read off", 0.85};
  if (acidity_spoken_of(s, p.first)) {
    const auto word = s.find_before(p.first, WordSet{"ph"}, 24);
    if (word) return pH;
  }
  const std::size_t point = p.digits.find('.');
  const bool as_paper_reads = point == std::string::npos || p.digits.size() - point <= 2;
  const bool paper = as_paper_reads && s.find_before(p.first, WordSet{"strip", "paper", "litmus"}, 10).has_value();
  const bool reads =
      s.find_before(p.first,
                    WordSet{"says", "reads", "shows", "goes", "say", "read", "gives", "is", "turns", "lie", "lies"}, 5)
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

std::optional<Meaning> by_temperature(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction || p.value > 2000 || p.number.paired) return std::nullopt;
  const std::size_t point = p.digits.find('.');
  const bool to_hundredths = point != std::string::npos && p.digits.size() - point > 2;
  if (to_hundredths && !s.find_before(p.first, thermometers, 10)) return std::nullopt;
  const Meaning celsius{Kind::temperature, "Cel", "temperature by its context", 0.8};
  if (s.find_before(p.first, WordSet{"melting", "boiling", "melts", "boils", "melt", "melted"}, 14) && p.value > 20) {
    return Meaning{Kind::temperature, usual_scale(s, index), "a melting or boiling point", 0.8};
  }
  const std::string_view before = s.word_before(p.first);
  const std::size_t g = governor(s, p);
  const bool superlative = s.find_before(p.first, WordSet{"least", "most", "first", "last"}, 2).has_value();
  const bool at = superlative ? false
                              : before == "at" || (before == "around" && s.word_before(p.first, 2) == "at") ||
                                    (s.word_before(p.first, 2) == "at" && stands_between(before)) ||
                                    s.find_before(p.first, WordSet{"at"}, 4).has_value();
  // "everything up to 75 is junk" behind a temperature
  const bool bound = before == "until" || before == "till" ||
                     ((before == "to" || before == "at") && s.word_before(p.first, 2) == "up");
  const Phrase* spoken = last_figure(s, index, 60, is_temperature);
  if (bound && spoken != nullptr && p.value > 14 && !p.number.decimal)
    return Meaning{Kind::temperature, usual_scale(s, index), "as far as a temperature", 0.75};
  // "keep it under eighty, please"
  const bool below =
      before == "under" || before == "below" || (before == "than" && s.word_before(p.first, 2) == "less");
  bool heated = spoken != nullptr;
  for (std::size_t t = p.first; t-- > 0 && p.first - t < 30 && below && !heated;) heated = warm_words.has(s.word(t));
  if (below && heated && p.value > 3 && plain_whole(p) && ends_clause(s, p))
    return Meaning{Kind::temperature, usual_scale(s, index), "kept under a temperature", 0.75};
  // "it's at thirty-nine, from 22"
  if (before == "from" && spoken != nullptr && p.first - spoken->last < 5)
    return Meaning{Kind::temperature, spoken->unit, "where a temperature came from", 0.8};
  const bool path = (temperature_paths.has(before) || before == "to" || before == "past" || before == "above" ||
                     before == "below" || before == "hit" || before == "reached" || stands_between(before)) &&
                    s.find_before(p.first, temperature_paths, 6).has_value();
  const bool state = is_verb_of_state(s.word(g)) || s.word(g).ends_with("'s") || s.word(g).ends_with("'re");
  const Phrase* last = last_figure(s, index, 80, is_temperature);
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
  // "it went from 22 up to 41": where it began
  if (before == "from" && s.find_before(p.first, temperature_paths, 5)) return like_last;
  if (at && (state || range || warm || temperature_behind)) return like_last;
  if (path) return like_last;
  if (range && (last != nullptr || warm)) return like_last;
  if (state && last != nullptr && p.first - last->first < 26 && plain_whole(p) && p.value > 14) {
    // Only where the figure right before was a temperature.
    const Phrase& before_phrase = s.phrases[index - 1];
    if (before_phrase.kind == Kind::temperature && before_phrase.fate == Fate::figure) return like_last;
  }
  // "21.1 ... and that's a hair warmer, it's 21.3": as exact as the temperature before, and about as warm.
  const auto decimals = [](const std::string& digits) {
    return digits.size() - std::min(digits.find('.'), digits.size());
  };
  const bool alike = last != nullptr && p.number.decimal && last->number.decimal &&
                     decimals(p.digits) == decimals(last->digits) && std::abs(p.value - last->value) < 40 &&
                     p.value > last->value / 2 && p.value < last->value * 2;
  if (alike && (state || before == "," || before == "average" || before == "was")) return like_last;
  return std::nullopt;
}

std::optional<Meaning> by_waiting(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  std::size_t i = p.first;
  constexpr WordSet hedging{"at", "least", "about", "around", "another", "nearly", "maybe"};
  while (i > s.begin_of_sentence(p.first) && hedging.has(s.word_before(i))) --i;
  if (p.fraction || s.word_before(i) != "for") return std::nullopt;
  const Phrase* last = last_figure(s, index, 40, [](const Phrase&) { return true; });
  const bool more = s.word(p.last) == "more" && last != nullptr && p.first - last->last < 25;
  if (last == nullptr || !is_duration(*last) || !(more || s.same_sentence(last->first, p.first))) return std::nullopt;
  return like(last, "another wait, in the unit before", 0.75);
}

std::optional<Meaning> by_reading_out(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const bool alone =
      p.first == s.begin_of_sentence(p.first) && p.last + 1 == s.end_of_sentence(p.first) && s.punctuated;
  if (!alone || p.fraction || index == 0) return std::nullopt;
  const Phrase* read = last_figure(s, index, 36, [](const Phrase&) { return true; });
  if (read == nullptr) return std::nullopt;
  const Phrase& last = *read;
  const bool instrument = last.kind == Kind::temperature || last.kind == Kind::pH || last.kind == Kind::voltage;
  if (!instrument) return std::nullopt;
  return Meaning{last.kind, last.unit, "read out by itself", 0.75};
}

}  // namespace sash::narration
