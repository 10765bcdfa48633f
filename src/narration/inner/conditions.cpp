#include "narration/inner/conditions.h"

#include <string_view>

#include "narration/inner/matter.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr WordSet drying{"oven", "dry", "dried", "drying", "desiccator", "rack", "cure", "cured", "curing", "airing"};
constexpr WordSet melting{"melting", "boiling", "melts", "boils", "melted", "melt"};

/// Words that may stand between a thing and how warm it is.
constexpr WordSet linking{"at",     "is",     "to",      "above",   "was",    "are",  "hang",  "on",    ",",
                          "about",  "now",    "around",  "the",     "uh",     "um",   "just",  "still", "already",
                          "reads",  "nearly", "almost",  "over",    "under",  "up",   "down",  "in",    "heat",
                          "heated", "bring",  "warm",    "warmed",  "cooled", "gets", "got",   "has",   "reached",
                          "hits",   "sits",   "kept",    "be",      "going",  "set",  "said",  "says",  "of",
                          "i'm",    "i've",   "keeping", "between", "which",  "that", "stays", "held",  "running",
                          "today",  "means",  "my",      "reading", "on,",    "goes", "went",  "came",  "beaker",
                          "pan",    "pot",    "flask",   "dish",    "'s"};
constexpr WordSet saying_so{"at", "is", "to", "was", "are", "reads", "gets", "reached", "hits", "says", "between"};
constexpr WordSet apparatus{"bath",     "baths",     "hotplate",   "plate",     "mantle",     "room",    "heater",
                            "lab",      "furnace",   "kiln",       "incubator", "circulator", "bath's",  "oven's",
                            "room's",   "garage",    "mantle's",   "plate's",   "outside",    "weather", "thermostat",
                            "sandbath", "waterbath", "hotplate's", "shed",      "kitchen"};

}  // namespace

const Mention* Conditions::linked(const Phrase& p) const {
  const Mention* near = before_in_sentence(p.first, false);
  if (near == nullptr || p.first - near->last > 8) return nullptr;
  const std::string_view lead = s_.word_before(near->first);
  if (near->water && (lead == "in" || lead == "into" || lead == "under" || lead == "with")) return nullptr;  // a bath
  bool said = s_.word(near->last - 1).ends_with("'s");
  for (std::size_t i = near->last; i < p.first; ++i) {
    if (!linking.has(s_.word(i))) return nullptr;
    said = said || saying_so.has(s_.word(i));
  }
  return said ? near : nullptr;
}

bool Conditions::of_apparatus(const Phrase& p) const {
  const auto thing = s_.find_before(p.first, apparatus, 9);
  if (thing && s_.find_before(*thing, WordSet{"on"}, 3) && s_.word(*thing) != "bath") return false;  // stands on it
  if (!thing) return s_.word(p.last) == "outside" || s_.word(p.last) == "room";
  for (std::size_t i = *thing + 1; i < p.first; ++i) {
    if (!linking.has(s_.word(i)) && s_.word(i) != "temperature") return false;
  }
  return true;
}

About Conditions::dried(const Phrase& p) const {
  const Mention* product = s_.product_at(p.first);
  return product != nullptr ? of(product, "what is dried") : contents(p.first);
}

About Conditions::contents(std::size_t token) const {
  const About mixture{std::string(pot), nullptr, "the pot"};
  const std::size_t since = s_.workup_before(token).value_or(0);
  if (!s_.figures.empty()) {
    const Draft& last = s_.figures.back();
    const Phrase& q = s_.phrase_of(last);
    const bool strength = q.kind == Kind::molar_concentration || q.kind == Kind::mass_percent;
    const bool acid = last.mention != nullptr && last.mention->acid;
    if (strength && !acid && token - q.last < 40 && !behind(q.last) &&
        !s_.act_before(q.first, Acts(Act::add, Act::hearsay), 12))
      return {last.subject, last.mention, "the solution just made"};
  }
  const Draft* only = nullptr;
  bool water = false;
  for (std::size_t i = s_.figures.size(); i-- > 0;) {
    const Draft& d = s_.figures[i];
    const Phrase& p = s_.phrase_of(d);
    if (p.first < since) break;
    if ((p.kind != Kind::mass && p.kind != Kind::volume) || d.subject.empty() || d.subject == pot) continue;
    if (d.mention == nullptr && p.unit == "[drp]") continue;
    if (only != nullptr && bare(only->subject) != bare(d.subject)) {
      const bool other_water = d.mention != nullptr && d.mention->water;
      const bool only_water = only->mention != nullptr && only->mention->water;
      if (!other_water && !only_water) return mixture;
      if (water) return mixture;
      water = true;
      if (!other_water) only = &d;
      continue;
    }
    if (only == nullptr) only = &d;
  }
  if (only == nullptr) return mixture;
  const bool wet = s_.phrase_of(*only).kind == Kind::volume ||
                   (only->mention != nullptr && (only->mention->water || only->mention->mixture));
  if (!water) return wet && since == 0 ? About{only->subject, only->mention, "the only material in hand"} : mixture;
  // Dissolved in water: the solution when its strength was just given, otherwise whatever is in the pot.
  for (std::size_t i = s_.figures.size(); i-- > 0 && token - s_.phrase_of(s_.figures[i]).first < 45;) {
    const Draft& d = s_.figures[i];
    const Kind k = s_.phrase_of(d).kind;
    const bool strength = k == Kind::molar_concentration || k == Kind::mass_percent;
    if (strength && bare(d.subject) == bare(only->subject)) return {d.subject, d.mention, "the solution just made"};
  }
  return mixture;
}

About Conditions::temperature(const Phrase& p) const {
  if (s_.find_before(p.first, melting, 14)) {
    if (const Mention* m = before_in_sentence(p.first, false)) return of(m, "named before");
    return of(s_.product_at(p.first), "the product of the procedure");
  }
  if (of_apparatus(p)) return {"", nullptr, "how warm the apparatus is"};
  if (const Mention* m = linked(p)) return of(m, "named before");
  if (const auto named = behind(p.last); named && named->mention != nullptr && s_.word(p.last) != "of") {
    return of(named->mention, "named behind");
  }
  constexpr WordSet coming_over{"distil", "distill", "distilling", "distillation", "head", "vapour", "vapor", "comes"};
  if (const auto over = s_.find_before(p.first, coming_over, 9)) {
    const bool comes = s_.word(*over) == "comes" && s_.word(*over + 1) != "over";
    if (!comes && s_.product_at(p.first) != nullptr) return of(s_.product_at(p.first), "what distils");
  }
  if (s_.find_before(p.first, WordSet{"thermometer"}, 7) && s_.find_before(p.first, WordSet{"top", "head"}, 5)) {
    return of(s_.product_at(p.first), "what distils");
  }
  if (s_.find_in_sentence(p.first, drying)) return dried(p);
  // A second temperature of the same thing.
  for (std::size_t i = s_.figures.size(); i-- > 0;) {
    const Draft& last = s_.figures[i];
    const Phrase& q = s_.phrase_of(last);
    if (p.first - q.first > 25) break;
    const bool warmth = q.kind == Kind::temperature || q.kind == Kind::temperature_change;
    if (warmth && (!last.subject.empty() || p.first - q.last < 14))
      return {last.subject, last.mention, "as the temperature before"};
  }
  return contents(p.first);
}

About Conditions::duration(const Phrase& p) const {
  if (s_.find_in_sentence(p.first, drying)) return dried(p);
  if (!s_.figures.empty()) {
    const Draft& last = s_.figures.back();
    if (std::string_view(last.subject_rule) == "what is dried" && p.first - s_.phrase_of(last).last < 30)
      return {last.subject, last.mention, "what is dried"};
  }
  for (const auto& at : {p.last + 3, p.first - std::min<std::size_t>(p.first, 3)}) {
    if (at >= s_.size() || !s_.phrase_at[at] || !s_.same_sentence(at, p.first)) continue;
    const Kind k = s_.phrases[*s_.phrase_at[at]].kind;
    if (k == Kind::current || k == Kind::charge) return {"", nullptr, "how long the current flows"};
  }
  return contents(p.first);
}

About Conditions::acidity(const Phrase& p) const {
  if (const Mention* m = linked(p); m != nullptr && !m->water) return of(m, "named before");
  constexpr WordSet adding{"adding", "add", "pour"};
  std::size_t seen = 0;
  for (std::size_t i = s_.figures.size(); i-- > 0 && seen < 3; ++seen) {
    const Draft& last = s_.figures[i];
    const Phrase& q = s_.phrase_of(last);
    if (p.first - q.first > 60) break;
    const bool strength = q.kind == Kind::molar_concentration || q.kind == Kind::mass_percent;
    if (strength && !s_.find_in_sentence(q.first, adding))
      return {last.subject, last.mention, "the solution spoken of"};
  }
  return {std::string(pot), nullptr, "the pot"};
}

}  // namespace sash::narration
