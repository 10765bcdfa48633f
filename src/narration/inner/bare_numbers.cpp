// Numbers whose unit was not said: "the thermometer says 62", "and then 12.6", "ten of 95 percent ethanol". One becomes
// a figure only when its sentence or its neighbour makes the unit certain; all others are counts of things, places in a
// row, years and idioms, and stay out.

#include <algorithm>
#include <cmath>

#include "narration/inner/bare_readings.h"
#include "quantity/unit.h"

namespace sash::narration {

namespace {

using quantity::Kind;

/// "25, no, sorry, 27 seconds": the unit of what corrects it.
std::optional<Meaning> by_correction(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (index + 1 < s.phrases.size()) {
    const Phrase& next = s.phrases[index + 1];
    const bool close = next.first > p.last && next.first - p.last <= 14 && next.unit_said && next.fate == Fate::figure;
    constexpr WordSet pausing{",",  "no",   "\u2014", "-",        "uh",   "um", "er",
                              "oh", "wait", "sorry",  "actually", "hang", "."};
    if (close && pausing.has(s.word(p.last))) {
      for (std::size_t i = p.last; i < std::min(p.last + 5, next.first); ++i) {
        const bool no = s.word(i) == "no" && (i == p.last || pausing.has(s.word(i - 1)));
        const bool hold = (s.word(i) == "hold" || s.word(i) == "hang") && s.word(i + 1) == "on";
        if (no || hold || s.word(i) == "sorry" || s.word(i) == "wait" || s.word(i) == "oops" ||
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
            s.word(i) == "lie" || (s.word(i) == "mean" && s.word(i - 1) == "i")) {
          const double ratio = before.value == 0 ? 0 : p.value / before.value;
          if (ratio > 0.05 && ratio < 20) return Meaning{before.kind, before.unit, "corrects the figure before", 0.85};
        }
      }
    }
  }
  return std::nullopt;
}

constexpr WordSet extents{"wide", "long", "thick", "deep", "across", "high", "tall"};

constexpr WordSet weighing{"weighs", "weighed", "weigh", "weighing", "balance", "scale",
                           "scales", "mass",    "tare",  "weight",   "grams"};

constexpr WordSet containers{"dish",   "boat",  "beaker", "flask", "paper", "crucible", "vial", "tube",
                             "bottle", "watch", "glass",  "empty", "tin",   "bowl",     "pan",  "jar"};

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

/// "the dish with it on was 134.7 and the dish is 124.2, so I got ten and a half grams": the unit comes with the rest.
std::optional<Meaning> by_net_weight(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction || p.upper || !s.find_before(p.first, containers, 8)) return std::nullopt;
  if (!governed_by_state(s, p) && !s.find_before(p.first, WordSet{"was", "is", "weighs", "plus"}, 4))
    return std::nullopt;
  for (std::size_t i = index + 1; i < s.phrases.size() && s.phrases[i].first < p.last + 26; ++i) {
    const Phrase& q = s.phrases[i];
    if (q.fate == Fate::figure && is_mass(q) && q.unit_said && q.value < p.value * 1.2)
      return like(&q, "weighed with its vessel, the unit behind", 0.75);
  }
  return std::nullopt;
}

/// "Burette said 0.40 at the start", "the first proper titre, 20.85": a volume while a titration is under way.
std::optional<Meaning> by_titration(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  constexpr WordSet signs{"burette", "buret",  "titre", "titer",     "titration",
                          "titrate", "titres", "rough", "concordant"};
  if (p.fraction || p.upper || p.value < 0 || p.value > 60 || !p.number.decimal) return std::nullopt;
  bool titrating = false;
  for (std::size_t t = p.first; t-- > 0 && p.first - t < 45 && !titrating;) titrating = signs.has(s.word(t));
  const std::string_view before = s.word_before(p.first);
  const bool read = governed_by_state(s, p) || before == "," || before == "." || before == "at" || before == ">>";
  if (!titrating || !read) return std::nullopt;
  return Meaning{Kind::volume, "mL", "read off a burette", 0.75};
}

/// "up by 45", "it took six", "then another two": of the kind and in the unit of what was just said.
std::optional<Meaning> by_going_on(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction || p.upper) return std::nullopt;
  const std::string_view before = s.word_before(p.first);
  if (before == "which" && s.word_before(p.first, 2) == "of")
    return like(last_figure(s, index, 12, is_mass), "of what was just weighed", 0.8);
  constexpr WordSet states_behind{"empty", "loaded", "naked"};
  if (states_behind.has(s.word(p.last)) && (p.number.decimal || p.value > 20)) {
    if (const Phrase* mass = weighed_alike(s, index)) return like(mass, "a vessel without or with its load", 0.8);
  }
  if (before == "by" &&
      s.find_before(p.first, WordSet{"up", "down", "dropped", "rose", "cooled", "warmed", "gone"}, 5)) {
    const Phrase* last = last_figure(s, index, 40, is_temperature);
    if (last != nullptr) return Meaning{Kind::temperature_change, last->unit, "a change of what was just read", 0.75};
  }
  if (before == "took" || before == "takes") {
    const Phrase* last = last_figure(s, index, 30, [](const Phrase&) { return true; });
    if (last != nullptr && is_duration(*last)) return like(last, "another time, in the unit before", 0.7);
  }
  if (before == "another" && p.last < s.size()) {
    const bool ends = ends_clause(s, p);
    const Phrase* last = last_figure(s, index, 40, [](const Phrase& q) { return is_volume(q) || is_mass(q); });
    if (ends && last != nullptr) return like(last, "another so much, in the unit before", 0.7);
  }
  const bool bare_piece = s.find_before(p.first, WordSet{"bare", "empty", "tare"}, 5).has_value();
  if (bare_piece && p.number.decimal)
    return like(last_figure(s, index, 40, is_mass), "weight beside another weight", 0.75);
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
  // No vessel is read to a thousandth.
  const std::size_t point = p.digits.find('.');
  if (point != std::string::npos && p.digits.size() - point > 3 && p.value >= 1) {
    if (const Phrase* mass = weighed_alike(s, index)) return like(mass, "as finely as only a balance reads", 0.8);
  }
  const Phrase* last = last_figure(s, index, 45, measured);
  const bool of_solution = last != nullptr && (last->kind == Kind::amount || last->kind == Kind::molar_concentration);
  for (std::size_t t = p.first; of_solution && t-- > 0 && p.first - t < 30;) {
    if (s.word(t) == "ph" && p.value < 14 && p.value > last->value * 2)
      return Meaning{Kind::pH, "[pH]", "where pH is spoken of", 0.7};
  }
  if (last != nullptr && (governed_by_state(s, p) || s.word_before(p.first) == "then" ||
                          s.word_before(p.first) == "and" || s.word_before(p.first) == ",")) {
    // The same thing measured again has about the same size; ten times as much is something else.
    const double ratio = last->value == 0 ? 0 : p.value / last->value;
    if (last->kind == Kind::mass) return like(weighed_alike(s, index), "unit of the figure before", 0.75);
    if (ratio > 0.1 && ratio < 10) return like(last, "unit of the figure before", 0.75);
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
  const auto measure = [&](const Phrase& q) {
    const bool amount = q.kind == Kind::amount && q.value > 0 && p.value / q.value > 0.2 && p.value / q.value < 5;
    return is_mass(q) || is_volume(q) || (amount && p.first - q.last < 16);
  };
  if (s.find_in_sentence(p.first, WordSet{"every"}))
    return std::nullopt;  // "four of the iron for every three": a ratio
  if (!p.number.written && !p.number.decimal && p.value < 5)
    return std::nullopt;  // "two of the aldehyde make one of the benzoin", "one borax takes up two of acid"
  const bool liquid =
      s.mention_at[next] && (s.mentions[*s.mention_at[next]].water || s.mentions[*s.mention_at[next]].solvent);
  if (liquid) {
    if (const Phrase* volume = last_figure(s, index, 300, is_volume); volume != nullptr && volume->unit != "L")
      return like(volume, "so much of a liquid, in the unit before", 0.8);
  }
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
  const bool up = s.find_before(p.first, WordSet{"up"}, 7).has_value();
  const bool made =
      s.find_before(p.first, WordSet{"make", "made", "making", "top", "topped", "fill", "filled", "dilute", "diluted"},
                    7)
          .has_value();
  if (!made || (!up && !s.find_before(p.first, WordSet{"dilute", "diluted"}, 4))) return std::nullopt;
  return like(last_figure(s, index, 60, is_volume), "made up to a volume", 0.85);
}

/// "theory says 28.0" right behind what was found.
std::optional<Meaning> by_hearsay(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction ||
      !find_or_asked(s, p, WordSet{"theory", "book", "literature", "label", "handbook", "calculation"}, 4))
    return std::nullopt;
  const Phrase* last = last_figure(s, index, 16, [](const Phrase&) { return true; });
  if (last == nullptr || last->value <= 0 || p.value / last->value < 0.5 || p.value / last->value > 2)
    return std::nullopt;
  return like(last, "what is said of the same", 0.75);
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
      (before == "out" && (earlier == "take" || earlier == "took" || earlier == "draw" || earlier == "pipette")) ||
      before == "use" || before == "add" || before == "take" || before == "using" || before == "adding";
  if (!put || s.find_before(p.first, WordSet{"don't", "never", "not"}, 3)) return std::nullopt;
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
  constexpr WordSet pointing{"all", "of", "from", "than", "minus", "the", "those", "less", "theory", "its"};
  const bool telling =
      p.number.decimal && p.digits.size() >= 4;  // three digits and a point hardly come twice by chance
  if (p.fraction || p.upper || (!telling && !pointing.has(s.word_before(p.first)))) return std::nullopt;
  const bool broken = p.value != std::floor(p.value);
  if (p.last < s.size() && s.phrase_at[p.last]) return std::nullopt;  // "the 24 40 joint"
  if (p.value < 13 && !p.number.decimal && !broken) return std::nullopt;
  for (std::size_t i = index; i-- > 0 && p.first - s.phrases[i].first < 900;) {
    const Phrase& q = s.phrases[i];
    const bool measured = q.kind == Kind::mass || q.kind == Kind::volume || q.kind == Kind::gas_volume ||
                          q.kind == Kind::amount || (q.kind == Kind::duration && s.word_before(p.first) == "its");
    if (q.fate == Fate::figure && measured && q.unit_said && q.value == p.value && !q.upper)
      return like(&q, "said before with its unit", 0.75);
  }
  return std::nullopt;
}

/// "five hundred in these, a hundred in this one, so that's six hundred altogether": what the last of a sort add up to.
std::optional<Meaning> by_adding_up(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  constexpr WordSet totals{"altogether", "total", "all", "together"};
  if (p.fraction || p.upper || !(s.find_after(p.last, totals, 3) || s.find_before(p.first, totals, 4)))
    return std::nullopt;
  const Phrase* last = last_figure(s, index, 60, [](const Phrase& q) { return is_mass(q) || is_volume(q); });
  if (last == nullptr) return std::nullopt;
  double sum = 0;
  std::size_t parts = 0;
  for (std::size_t i = index; i-- > 0 && p.first - s.phrases[i].first < 90;) {
    const Phrase& q = s.phrases[i];
    if (q.fate != Fate::figure || q.kind != last->kind || q.unit != last->unit || q.upper) continue;
    sum += q.value;
    if (++parts >= 2 && std::abs(sum - p.value) < 1e-6 * sum) return like(last, "what the last ones add up to", 0.8);
  }
  return std::nullopt;
}

std::optional<Meaning> by_density(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.value > 25 || p.value < 0.0005 ||
      !(s.find_before(p.first, WordSet{"density", "gravity", "density's", "densities"}, 5) ||
        s.find_after(p.last, WordSet{"density"}, 4)))
    return std::nullopt;
  return Meaning{Kind::density, "g/mL", "density without its unit", 0.85};
}

/// "25 mils ... it's zero point nine so that is 22.5 grams": what turns the volume before into the mass behind, or the
/// other way about.
std::optional<Meaning> by_mass_and_volume(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction || p.upper || !p.number.decimal || index + 1 >= s.phrases.size()) return std::nullopt;
  const Phrase& next = s.phrases[index + 1];
  if (!next.unit_said || next.first - p.last > 10 || !(is_mass(next) || is_volume(next))) return std::nullopt;
  const Phrase* before = last_figure(s, index, 30, [](const Phrase& q) { return is_mass(q) || is_volume(q); });
  if (before == nullptr || before->kind == next.kind) return std::nullopt;
  const auto size = [](const Phrase& q) {  // in g or mL
    const auto unit = quantity::Unit::parse(q.unit);
    return unit ? unit->to_si(q.value) * (is_mass(q) ? 1e3 : 1e6) : 0;
  };
  const double mass = is_mass(next) ? size(next) : size(*before);
  const double volume = is_mass(next) ? size(*before) : size(next);
  constexpr double as_rounded = 0.03;
  if (volume <= 0 || std::abs(mass / volume / p.value - 1) > as_rounded) return std::nullopt;
  return Meaning{Kind::density, "g/mL", "turns the volume into the mass", 0.9};
}

/// "72 on this one, Fahrenheit": the scale comes a few words later.
std::optional<Meaning> by_scale_behind(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction) return std::nullopt;
  for (std::size_t t = p.last; t < s.size() && t < p.last + 6 && s.same_sentence(t, p.first); ++t) {
    if (s.phrase_at[t] && s.word(t) != "one") return std::nullopt;
    const std::string_view word = s.word(t);
    const bool fahrenheit = word == "fahrenheit";
    if (!fahrenheit && word != "celsius" && word != "centigrade") continue;
    return Meaning{Kind::temperature, fahrenheit ? "[degF]" : "Cel", "its scale is said behind", 0.9};
  }
  return std::nullopt;
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

/// "in moles that's just over 0.81": the unit was said before.
std::optional<Meaning> by_moles(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  if (p.fraction || p.value > 100) return std::nullopt;
  const auto unit = find_or_asked(s, p, WordSet{"moles", "mole", "millimoles"}, 10);
  constexpr WordSet each{"per", "a", "every", "each"};
  if (!unit || s.phrase_at[*unit] || each.has(s.word_before(*unit))) return std::nullopt;
  for (std::size_t t = *unit; t < p.first; ++t) {
    if (s.phrase_at[t] || s.word(t) == "grams" || s.word(t) == "mass" || s.word(t) == "weight") return std::nullopt;
  }
  const bool milli = s.word(*unit) == "millimoles";
  return Meaning{Kind::amount, milli ? "mmol" : "mol", "an amount, its unit said before", 0.85};
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
  const bool few = p.upper && p.value < 10 && !p.number.decimal;  // "three or four boiling chips"
  if ((p.upper && !few) || p.number.decimal || p.last >= s.size()) return false;
  const Token& next = s.tokens[p.last];
  if (next.type != Token::Type::word || s.phrase_at[p.last]) return false;
  constexpr WordSet function_words{
      "that's", "that",       "this",    "per",    "are",   "were",   "give",     "and",     "so",     "but",
      "which",  "that",       "on",      "in",     "or",    "of",     "then",     "now",     "with",   "as",
      "to",     "for",        "because", "is",     "at",    "if",     "it",       "we",      "i",      "the",
      "you",    "from",       "by",      "okay",   "just",  "when",   "where",    "while",   "after",  "before",
      "again",  "again,",     "here",    "there",  "long",  "wide",   "thick",    "deep",    "across", "high",
      "tall",   "line",       "mark",    "ish",    "isn't", "give",   "perfect",  "already", "though", "exactly",
      "oh",     "into",       "out",     "since",  "until", "loaded", "empty",    "wet",     "dry",    "going",
      "off",    "altogether", "total",   "apiece", "each",  "more",   "straight", "right",   "up",     "down",
      "by",     "plus",       "minus",   "over",   "gives", "was",    "went",     "before"};
  return !function_words.has(next.text);
}

std::optional<Meaning> by_concentration(const Scene& s, std::size_t index) {
  const Phrase& p = s.phrases[index];
  const bool spoken_of = s.find_before(p.first, WordSet{"concentration", "molarity", "concentrations"}, 16).has_value();
  if (!spoken_of || p.fraction || p.value > 30) return std::nullopt;
  if (!p.number.decimal && !governed_by_state(s, p)) return std::nullopt;
  return Meaning{Kind::molar_concentration, "mol/L", "a concentration by its context", 0.75};
}

/// "the cylinder's a 250", "it goes up to 360": how large a thing is, or how far it goes.
bool is_size(const Scene& s, const Phrase& p) {
  const std::string_view before = s.word_before(p.first);
  const std::string_view earlier = s.word_before(p.first, 2);
  if ((before == "a" || before == "an") && !p.number.decimal && earlier != "that's" && earlier != "it's") return true;
  const bool up_to = before == "to" && s.word_before(p.first, 2) == "up";
  return up_to && s.word_before(p.first, 3) == "goes";
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
  if (s.word_before(p.first) == "of" && s.word_before(p.first, 2) == "out" && s.word_before(p.first, 3) == "times")
    return std::nullopt;  // "nine times out of ten"
  if (s.find_before(p.first, WordSet{"marks", "score", "mark"}, 5)) return std::nullopt;
  if (s.find_before(p.first, WordSet{"log", "logarithm", "don't"}, 3)) return std::nullopt;
  if (auto m = by_correction(s, index)) return m;
  if (auto m = by_mass_and_volume(s, index)) return m;
  if (auto m = by_mark(s, index)) return m;
  if (auto m = by_extent(s, index)) return m;
  const bool pronoun = p.value == 1 && !p.number.written && !p.number.decimal && !p.upper &&
                       !WordSet{"is", "at", "to", "of", "around", "about", "says"}.has(s.word_before(p.first));
  if (pronoun || is_molar_mass(s, index) || is_size(s, p)) return std::nullopt;
  if (auto m = by_scale_behind(s, index)) return m;
  if (auto m = by_moles(s, index)) return m;
  if (auto m = by_said_again(s, index)) return m;
  if (auto m = by_part_of_list(s, index)) return m;
  if (auto m = by_making_up(s, index)) return m;
  if (p.number.decimal && s.word(p.last) == "times") {
    if (auto m = by_echo(s, index)) return m;
  }
  if (is_counting(s, p) && s.word(p.last) != "no") return std::nullopt;
  if (auto m = by_factor(s, index)) return m;
  if (auto m = by_mean(s, index)) return m;
  if (auto m = by_reckoning(s, index)) return m;
  if (is_titre(s, index)) return Meaning{Kind::volume, "mL", "a titre beside another", 0.8};
  if (auto m = by_contrast(s, index)) return m;
  if (auto m = by_pressure(s, index)) return m;
  if (auto m = by_going_on(s, index)) return m;
  if (auto m = by_hearsay(s, index)) return m;
  if (p.number.decimal && s.word(p.last) == "of") {
    if (auto m = by_echo(s, index)) return m;
  }
  if (auto m = by_of_material(s, index)) return m;
  if (auto m = by_echo(s, index)) return m;
  if (auto m = by_adding_up(s, index)) return m;
  if (auto m = by_putting_in(s, index)) return m;
  if (auto m = by_density(s, index)) return m;
  if (auto m = by_concentration(s, index)) return m;
  if (auto m = by_acidity(s, index)) return m;
  if (auto m = by_titration(s, index)) return m;
  if (auto m = by_net_weight(s, index)) return m;
  if (auto m = by_waiting(s, index)) return m;
  if (auto m = by_reading_out(s, index)) return m;
  if (auto m = by_instrument(s, index)) return m;
  if (auto m = by_weighing(s, index)) return m;
  if (auto m = by_temperature(s, index)) return m;
  if (auto m = by_last_spoken(s, index)) return m;
  if (auto m = by_shared_unit(s, index)) return m;
  if (auto m = by_same_preposition(s, index)) return m;
  if (auto m = by_parallel(s, index)) return m;
  return by_likeness(s, index);
}

}  // namespace

void judge_bare_numbers(Scene& scene) {
  join_readings(scene);
  // A second time over what stayed open: its neighbours are known now.
  for (std::size_t k = 0; k < 2 * scene.phrases.size(); ++k) {
    const std::size_t i = k % scene.phrases.size();
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
