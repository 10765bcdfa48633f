// Which phrases with a unit are quantities of the procedure, and which are the size of a vessel, money, somebody's age,
// an idiom or a thing that is expressly not meant.

#include <algorithm>

#include "narration/inner/scene.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr WordSet vessels{
    "bottom",     "rb",         "beaker",   "beakers",     "flask",      "flasks",    "cylinder",   "cylinders",
    "bottle",     "bottles",    "tub",      "tubs",        "jar",        "jars",      "tube",       "tubes",
    "vial",       "vials",      "funnel",   "burette",     "buret",      "pipette",   "pipettes",   "pipet",
    "syringe",    "syringes",   "crucible", "dish",        "bucket",     "mould",     "mold",       "pan",
    "pot",        "can",        "bag",      "box",         "pack",       "packet",    "mug",        "glass",
    "bowl",       "joint",      "joints",   "fuse",        "bulb",       "lamp",      "heater",     "hotplate",
    "plate",      "mantle",     "kettle",   "container",   "containers", "conical",   "erlenmeyer", "boat",
    "carboy",     "tank",       "reactor",  "test",        "measuring",  "graduated", "volumetric", "supply",
    "charger",    "adapter",    "adaptor",  "transformer", "drum",       "canister",  "sachet",     "dropper",
    "separatory", "separating", "carton",   "jug",         "pitcher",    "balloon",   "condenser",  "column",
    "cuvette",    "cell",       "still",    "microwave",   "laser",      "motor",     "resistor",   "thermometer",
    "ruler",      "rbf",        "tin",      "rod",         "rods",       "stopper",   "clamp",      "needle",
    "tubing",     "screen",     "oven",     "torch",       "cartridge",  "keg",       "barrel",     "pail",
    "barb",       "desiccator", "basin",    "basins",      "cups",       "jars"};

constexpr WordSet vessel_words{
    "round",     "bottom",     "bottomed",   "glass",        "plastic",    "big",        "small",    "tall",
    "little",    "nice",       "new",        "old",          "two",        "three",      "one",      "neck",
    "necked",    "neckd",      "-",          "borosilicate", "class",      "a",          "b",        "clean",
    "dry",       "empty",      "soda",       "pop",          "milk",       "beer",       "wine",     "side",
    "arm",       "filter",     "power",      "hot",          "heating",    "florence",   "kjeldahl", "side-arm",
    "reagent",   "dropping",   "disposable", "screw",        "cap",        "amber",      "brown",    "clear",
    "metal",     "stainless",  "steel",      "squeezy",      "sample",     "centrifuge", "sized",    "size",
    "capacity",  "blue",       "white",      "red",          "green",      "stock",      "bench",    "desk",
    "dc",        "ac",         "usb",        "led",          "halogen",    "immersion",  "gas",      "water",
    "paint",     "jam",        "mason",      "coffee",       "sandwich",   "zip",        "lock",     "measuring",
    "graduated", "volumetric", "erlenmeyer", "conical",      "separating", "separatory", "ground"};

/// The vessel that the phrase sizes: "250 mil beaker", "one litre plastic bottle", "50 mL round-bottom flask".
bool sizes_a_vessel(const Scene& s, const Phrase& p) {
  if (p.kind == Kind::mass && p.number.decimal) return false;  // "39.21 grams, dish 33.44": no size to a hundredth
  std::size_t i = p.last;
  if (s.tokens.is(i, "-")) ++i;
  for (std::size_t k = 0; k < 5 && i < s.size(); ++k, ++i) {
    const std::string_view word = s.word(i);
    const bool direct = s.sentence[i] == s.sentence[p.last - 1];
    if (!direct || s.phrase_at[i]) return false;
    if (vessels.has(word)) {
      // "30 mL test" alone is no vessel; "10 mL can go in" is a verb.
      if (word == "can")
        return !s.tokens.is(i + 1, "go") && !s.tokens.is(i + 1, "be") && k == 0
                   ? s.word_before(p.first) == "a" || s.word_before(p.first) == "the" ||
                         s.word_before(p.first) == "this"
                   : true;
      if (word == "still" || word == "glass" || word == "test" || word == "cell") {
        return vessels.has(s.word(i + 1)) || s.tokens.is(i + 1, "tubes") || word == "glass" || word == "cell";
      }
      return true;
    }
    if (!vessel_words.has(word)) return false;
  }
  return false;
}

constexpr WordSet apparatus{"rod",     "rods",      "electrode", "electrodes", "tube",    "tubes",    "mould",
                            "mold",    "pipe",      "hose",      "tubing",     "needle",  "tray",     "dish",
                            "pan",     "box",       "flask",     "beaker",     "table",   "bench",    "hood",
                            "spatula", "bar",       "stirrer",   "battery",    "funnel",  "bucket",   "tank",
                            "shield",  "screen",    "clamp",     "stand",      "pot",     "saucepan", "jar",
                            "bottle",  "condenser", "crucible",  "test",       "syringe", "ruler"};
constexpr WordSet extents{"inside", "outside", "od",       "id",     "wide", "thick", "tall", "long",
                          "high",   "across",  "diameter", "square", "in",   "bore",  "deep"};

/// "the mould is ten centimetres wide", "two carbon rods ... eight millimeters thick".
bool measures_apparatus(const Scene& s, const Phrase& p) {
  if (p.kind != Kind::length || !extents.has(s.word(p.last)) || s.tokens.is(p.last, "deep")) return false;
  if (s.tokens.is(p.last, "in") && !s.tokens.is(p.last + 1, "diameter")) return false;
  std::optional<std::size_t> piece;
  for (std::size_t t = p.first; t-- > 0 && p.first - t < 18 && !piece;) {
    if (apparatus.has(s.word(t)) && s.word(t + 1) != "of") piece = t;
  }
  if (!piece) return false;
  for (std::size_t i = *piece; i < p.first; ++i) {
    if (!s.phrase_at[i] || *s.phrase_at[i] == *s.phrase_at[p.first]) continue;
    const Phrase& q = s.phrases[*s.phrase_at[i]];
    if (q.fate != Fate::capacity && q.unit_said) return false;
  }
  return true;
}

/// "it goes up to 30 volts 5 amps", "the supply can do 30 volts": what a supply could do.
bool rates_equipment(const Scene& s, const Phrase& p) {
  const bool electric = p.kind == Kind::voltage || p.kind == Kind::current || p.kind == Kind::power;
  if (!electric) return false;
  if (p.first > 0 && s.phrase_at[p.first - 1]) {
    const Phrase& before = s.phrases[*s.phrase_at[p.first - 1]];
    if (before.fate == Fate::capacity && before.last == p.first) return true;
  }
  if (p.first > 1 && s.word_before(p.first) == "and" && s.phrase_at[p.first - 2] &&
      s.phrases[*s.phrase_at[p.first - 2]].fate == Fate::capacity)
    return true;
  constexpr WordSet supplies{"supply", "transformer", "psu", "charger", "adapter"};
  if (s.word_before(p.first) == "to" && s.find_before(p.first, supplies, 5)) return true;
  if (s.find_before(p.first, WordSet{"you", "if"}, 5)) return false;  // "if you go up to an amp"
  const bool up_to =
      s.word_before(p.first) == "to" && s.word_before(p.first, 2) == "up" &&
      (s.word_before(p.first, 3) == "goes" || s.word_before(p.first, 3) == "go" || s.word_before(p.first, 3) == "does");
  const bool can =
      (s.word_before(p.first) == "do" || s.word_before(p.first) == "give" || s.word_before(p.first) == "deliver") &&
      s.word_before(p.first, 2) == "can";
  const bool rated = s.word_before(p.first, 2) == "rated" || s.word_before(p.first) == "rated" ||
                     s.word_before(p.first) == "maximum" || s.word_before(p.first) == "max";
  return up_to || can || rated;
}

/// "apparatus, beaker 400 millilitres, beaker 250 millilitres"
bool is_listed(const Scene& s, const Phrase& p) {
  const std::size_t comma = s.word_before(p.first) == "," ? 2 : 1;
  if (!vessels.has(s.word_before(p.first, comma)) || s.tokens.is(p.last, "of")) return false;
  return s.find_before(p.first, WordSet{"apparatus", "equipment", "kit", "glassware"}, 30).has_value();
}

constexpr WordSet holding{"holds", "hold", "fits", "capacity"};

bool is_capacity(const Scene& s, const Phrase& p) {
  const bool sized = p.kind == Kind::volume || p.kind == Kind::mass || p.kind == Kind::length ||
                     p.kind == Kind::voltage || p.kind == Kind::current || p.kind == Kind::power;
  if (!sized || p.upper) return false;
  // A battery in use gives its voltage to the experiment.
  const bool battery = p.kind == Kind::voltage && (s.tokens.is(p.last, "battery") || s.tokens.is(p.last, "batteries"));
  if (battery) return false;
  if (sizes_a_vessel(s, p) || measures_apparatus(s, p) || rates_equipment(s, p)) return true;
  const bool just = s.word_before(p.first) == "exactly" || s.word_before(p.first) == "about";
  if (p.kind == Kind::volume && holding.has(s.word_before(p.first, just ? 2 : 1))) return true;
  const bool has = s.word_before(p.first) == "has" && vessels.has(s.word_before(p.first, 2));
  if (p.kind == Kind::volume && (has && s.word(p.last) != "of")) return !s.find_after(p.last, WordSet{"of", "in"}, 2);
  if (p.kind == Kind::volume && is_listed(s, p)) return true;
  if (p.kind == Kind::mass && (s.tokens.is(p.last, "line") || s.tokens.is(p.last, "capacity"))) return true;
  if (p.kind == Kind::volume && s.tokens.is(p.last, "capacity")) return true;
  // "it's a litre this funnel holds"
  if (p.kind == Kind::volume && s.find_after(p.last, WordSet{"holds", "takes"}, 5) && s.find_after(p.last, vessels, 4))
    return true;
  // "four tubes, 50 mL each"
  if (p.kind == Kind::volume && s.tokens.is(p.last, "each")) {
    const std::size_t comma = s.word_before(p.first) == "," ? 2 : 1;
    if (p.first >= comma && vessels.has(s.word_before(p.first, comma))) return true;
    if (s.find_before(p.first, WordSet{"jars", "bottles", "tubes", "flasks", "vials", "beakers"}, 6)) return true;
  }
  // "a round bottomed flask, 250 mil", "the burette's 50 mil": nothing but its size is said of it
  std::size_t at = p.first;
  if (s.word_before(at) == ",") --at;
  std::string_view noun = s.word_before(at);
  const bool is_so = noun.ends_with("'s");
  if (is_so) noun.remove_suffix(2);
  const bool ends = p.last >= s.size() || s.tokens.is(p.last, ".") || s.tokens.is(p.last, ",");
  const std::size_t point = p.digits.find('.');
  const bool read_off = point != std::string::npos && !p.digits.ends_with(".5") && !p.digits.ends_with(".25");
  constexpr Acts handling(Act::add, Act::measure, Act::take, Act::obtain, Act::remain, Act::dissolve);
  if (p.kind == Kind::volume && ends && !read_off && at < p.first + (is_so ? 1 : 0) && vessels.has(noun) &&
      !s.act_before(p.first, handling, 8) && !s.find_before(at, WordSet{"in", "into"}, 5))
    return true;
  // "the mantle's an 80 watt one", "it's a twelve inch one"
  constexpr WordSet articles{"a", "an", "the", "-"};
  const bool of_a_thing = p.kind == Kind::power || p.kind == Kind::length || p.kind == Kind::voltage;
  if (of_a_thing && s.tokens.is(p.last, "one") && (articles.has(s.word_before(p.first)) || p.number.article))
    return true;
  // "a beaker, the 250 mil one"
  if (p.kind == Kind::volume && (s.tokens.is(p.last, "one") || s.tokens.is(p.last, "size")) &&
      s.find_before(p.first, vessels, 12)) {
    return true;
  }
  return false;
}

constexpr WordSet money{"dollar", "dollars", "cents", "pence", "quid",    "euro",  "euros",     "bucks",
                        "cost",   "costs",   "price", "paid",  "pay",     "cheap", "expensive", "worth",
                        "spent",  "$",       "£",     "€",     "cheaper", "each"};
constexpr WordSet weighing{"weigh", "weighs", "weighed", "weighing", "mass", "scale", "scales", "balance", "heavy"};

/// "sixty a mole", "at 84 grams a mole": per mole.
bool is_per(const Scene& s, const Phrase& p) {
  const bool frequency = p.kind == Kind::duration && p.number.article;  // "one a day"
  if (frequency && p.first > 0) {
    constexpr WordSet how_often{"once", "twice", "times", "one", "two", "three"};
    return how_often.has(s.word_before(p.first));
  }
  if (!p.number.article || p.kind != Kind::amount || p.first == 0) return false;
  const std::size_t before = s.word_before(p.first) == "for" && p.first > 1 ? p.first - 2 : p.first - 1;
  if (!s.phrase_at[before]) return s.tokens.is_type(before, Token::Type::number);
  const Phrase& q = s.phrases[*s.phrase_at[before]];
  return q.last == before + 1 && (q.unit.empty() || q.kind == Kind::mass || q.kind == Kind::volume);
}

/// "1,380 grams, that's just over three pounds"
bool beside_a_weight(const Scene& s, const Phrase& p) {
  const auto metric = [](const Phrase& q) { return q.unit == "g" || q.unit == "kg" || q.unit == "[oz_av]"; };
  for (std::size_t t = p.first > 22 ? p.first - 22 : 0; t < p.last + 14 && t < s.size(); ++t) {
    if (s.phrase_at[t] && metric(s.phrases[*s.phrase_at[t]]) && !s.find_before(p.first, money, 6) &&
        !s.find_after(p.last, money, 6))
      return true;
  }
  return false;
}

bool is_money(const Scene& s, const Phrase& p) {
  const std::string_view before = s.word_before(p.first);
  if (before == "$" || before == "£" || before == "€") return true;
  if (p.unit != "[lb_av]") return false;
  if (s.find_before(p.first, weighing, 5) || beside_a_weight(s, p)) return false;
  for (std::size_t t = p.first; t-- > 0 && p.first - t < 4;) {
    if (s.mention_at[t] && (s.word_before(p.first) == "is" || s.word_before(p.first) == "was"))
      return false;  // "the water is a pound"
  }
  if (s.tokens.is(p.last, "of") && !s.find_after(p.last, money, 14) && !s.find_before(p.first, money, 6)) return false;
  return !s.tokens.is(p.last, "of") || s.find_after(p.last, money, 14) || s.find_before(p.first, money, 6);
}

/// Weight named as the basis of a price: "a kilo of zinc was nine dollars".
bool is_price_basis(const Scene& s, const Phrase& p) {
  if (p.kind != Kind::mass && p.kind != Kind::volume) return false;
  constexpr WordSet prices{"dollars", "dollar", "pence", "quid", "euros", "bucks", "$", "£", "€"};
  const bool lone = p.number.article || s.word_before(p.first) == "per";
  return lone && (s.find_after(p.last, prices, 10) || s.find_before(p.first, prices, 8));
}

bool is_negated(const Scene& s, const Phrase& p) {
  const std::string_view before = s.word_before(p.first);
  if (before == "got" && s.word_before(p.first, 2).ends_with("n't")) return true;
  return before == "not" || before == "never" || (before == "than" && s.word_before(p.first, 2) == "rather") ||
         (before == "of" && s.word_before(p.first, 2) == "instead" && s.word_before(p.first, 3) == ",");
}

constexpr WordSet keeping{"keep",  "keeps", "kept",  "store", "stored", "lasts", "last",  "shelf",
                          "good",  "cure",  "cures", "age",   "aged",   "dry",   "dried", "left",
                          "leave", "sat",   "sit",   "sits",  "old",    "older"};
constexpr WordSet shows{"video", "videos", "episode", "lecture",    "talk",   "clip",  "channel",
                        "break", "lunch",  "film",    "livestream", "stream", "class", "course",
                        "show",  "school", "podcast", "footage",    "edit"};

bool is_other_time(const Scene& s, const Phrase& p) {
  const std::string_view before = s.word_before(p.first);
  const std::string_view behind = s.word(p.last);
  if (before == "in" && s.word_before(p.first, 2) == "you") return true;  // "see you in a week"
  if (before == "in" && s.word_before(p.first, 2) == "back" &&
      s.find_before(p.first, WordSet{"i'll", "we'll", "be"}, 4))
    return true;  // "I'll be back in two weeks"
  if (behind == "last" && s.word(p.last + 1) == "time") return true;
  constexpr WordSet spent{"battery", "footage", "my"};
  if (behind == "of" && spent.has(s.word(p.last + 1))) return true;
  // "I've got like ten minutes"
  std::size_t have = p.first;
  while (have > 0 && WordSet{"like", "about", "only", "maybe"}.has(s.word_before(have))) --have;
  const std::string_view who = s.word_before(have, 2);
  constexpr WordSet goes_on{"left", "of", "before", "until", "till", "to", "for"};
  if (s.word_before(have) == "got" && (who == "i've" || who == "we've") && !goes_on.has(behind)) return true;
  if (behind == "ago" || (behind == "earlier" && p.unit == "a")) return true;
  constexpr WordSet body{"fingers", "finger", "hands", "tongue", "scales"};
  if (s.find_before(p.first, body, 8) || s.find_after(p.last, body, 4)) return true;
  if (p.unit == "a" || p.unit == "mo") return !s.find_before(p.first, keeping, 6);
  if (p.number.article && (p.unit == "s" || p.unit == "min") && !p.upper && p.value == 1) {
    constexpr WordSet waiting{"for",    "about",  "takes", "take",  "after", "around", "roughly",
                              "nearly", "almost", "than",  "least", "under", "over",   "within"};
    if (p.unit == "s" || !waiting.has(before)) return true;
    if (before == "for" && s.word_before(p.first, 2) == "wait" && !s.find_after(p.last, WordSet{"until"}, 3))
      return false;
    return false;
  }
  if (p.number.article && p.unit == "d" && (behind == "in" || behind == "out")) return true;
  if (before == "next" || before == "last" || before == "past") {
    // "the next ten minutes" of the process stays; "the last twenty years" went above.
    if (s.find_in_sentence(p.first, shows)) return true;
  }
  const bool read_out = s.find_before(p.first, WordSet{"says", "reads", "said", "timer"}, 2).has_value();
  if (read_out) return false;
  if (s.find_after(p.last, shows, 2) || (s.find_before(p.first, shows, 3) && !s.find_after(p.last, keeping, 4)))
    return true;
  if (behind == "-" && (s.tokens.is(p.last + 1, "old") || s.tokens.is(p.last + 1, "long"))) return true;
  return false;
}

/// "one drop at a time": how, not how much.
bool is_manner(const Scene& s, const Phrase& p) {
  const bool at_a_time = s.tokens.is(p.last, "at") && s.tokens.is(p.last + 1, "a") && s.tokens.is(p.last + 2, "time");
  const bool so_often = s.tokens.is(p.last + 4, "times") || s.tokens.is(p.last + 3, "twice");
  return at_a_time && !so_often;
}

bool is_interval(const Scene& s, const Phrase& p) {
  const std::string_view before = s.word_before(p.first);
  const bool per = before == "every" || before == "per" || (before == "each" && p.kind == Kind::duration);
  return per && (p.kind == Kind::duration || p.kind == Kind::temperature || p.kind == Kind::length);
}

bool plain_number(const Phrase& p) { return !p.number.decimal && !p.upper && !p.number.fraction; }

constexpr WordSet attitudes{"happy", "sure",      "certain",    "confident", "positive",  "convinced",
                            "agree", "honest",    "safe",       "ready",     "behind",    "true",
                            "right", "correct",   "guaranteed", "normal",    "certainly", "serious",
                            "legal", "committed", "worth",      "focused",   "fine"};

/// "a cup of tea": a drink, not a volume.
bool is_drink(const Scene& s, const Phrase& p) {
  constexpr WordSet drinks{"tea", "coffee", "cocoa", "beer", "wine", "soup"};
  std::string_view drink = s.word(p.last + 1);
  if (drink.ends_with("'s")) drink.remove_suffix(2);
  return p.number.article && s.word(p.last) == "of" && drinks.has(drink);
}

/// "one mole of aluminium gives one mole of alum": how many to how many.
bool is_ratio(const Scene& s, const Phrase& p) {
  const auto counts_moles = [](const Phrase& q) {
    return q.kind == Kind::amount && q.unit == "mol" && !q.number.decimal && !q.fraction && q.value >= 1 &&
           q.value <= 12 && q.value == static_cast<double>(static_cast<int>(q.value));
  };
  constexpr WordSet relating{"gives", "makes", "needs", "takes",    "give", "make",   "need", "take",
                             "for",   "per",   "to",    "produces", "eats", "reacts", "with", "every"};
  if (!counts_moles(p) || s.find_before(p.first, WordSet{"have", "weighed", "got", "use", "used"}, 4)) return false;
  for (std::size_t t = s.begin_of_sentence(p.first); t < s.end_of_sentence(p.first); ++t) {
    if (!s.phrase_at[t]) continue;
    const Phrase& q = s.phrases[*s.phrase_at[t]];
    if (&q == &p || !counts_moles(q)) continue;
    const std::size_t from = std::min(p.last, q.last);
    for (std::size_t k = from; k < std::max(p.first, q.first); ++k) {
      if (relating.has(s.word(k))) return true;
    }
  }
  return false;
}

/// "about 40 percent power": the setting of an instrument.
bool is_setting(const Scene& s, const Phrase& p) {
  constexpr WordSet settings{"power", "speed", "throttle", "brightness", "charge", "battery", "chance", "opacity"};
  if (p.unit != "%") return false;
  return settings.has(s.word(p.last)) || s.find_before(p.first, WordSet{"battery's", "battery", "charge"}, 2);
}

bool is_percent_idiom(const Scene& s, const Phrase& p) {
  if (p.unit != "%") return false;
  if (attitudes.has(s.word(p.last))) return true;
  const bool whole = p.value == 100 || p.value == 110 || p.value == 99 || p.value == 1000;
  return whole && s.find_before(p.first, WordSet{"i'm", "am", "you're", "be", "we're", "been", "like"}, 2).has_value();
}

/// "a balance that goes down to a milligram": how finely it reads.
bool is_resolution(const Scene& s, const Phrase& p) {
  const bool finest = p.number.article || (p.number.value < 1 && !p.number.written);
  return finest && p.kind == Kind::mass && s.word_before(p.first) == "to" &&
         s.find_before(p.first, WordSet{"scale", "scales", "balance", "reads", "weighs"}, 8);
}

/// "five cups, five straws": things on the table.
bool is_object(const Scene& s, const Phrase& p) {
  if (p.unit != "[cup_us]" || p.number.article || p.fraction || s.word(p.last) == "of") return false;
  const bool matter_behind = p.last < s.size() && s.mention_at[p.last];
  const bool matter_before = p.first > 1 && (s.mention_at[p.first - 1] || s.mention_at[p.first - 2]);
  return !matter_behind && !matter_before && plain_number(p) &&
         s.find_before(p.first, WordSet{"got", "have", "need", "with", "there's", "your", "those", "these"}, 3);
}

/// "one mole of those is 250": what a mole weighs.
bool is_molar(const Scene& s, const Phrase& p) {
  if (p.kind != Kind::amount || p.value != 1 || p.number.decimal) return false;
  for (std::size_t t = p.last; t < p.last + 5 && t < s.size() && s.same_sentence(t, p.first); ++t) {
    if (s.word(t) != "is" && s.word(t) != "weighs") continue;
    const bool number = t + 1 < s.size() && s.phrase_at[t + 1];
    if (!number) return false;
    const Phrase& q = s.phrases[*s.phrase_at[t + 1]];
    return !q.unit_said || q.kind == Kind::mass;
  }
  return false;
}

constexpr WordSet turning{"turn", "turned", "rotate", "rotated", "angle", "tilt", "tilted", "spin", "corner"};
constexpr WordSet optics{"light",   "wavelength", "laser", "absorbance", "absorb",
                         "absorbs", "uv",         "led",   "spectrum",   "filter"};

bool is_other_measure(const Scene& s, const Phrase& p) {
  if (p.unit.empty()) return true;  // rpm, square centimetres, rates
  // "a drop of twelve degrees"
  if (p.unit == "[drp]" && p.number.article && s.word(p.last) == "of" && p.last + 1 < s.size() &&
      s.phrase_at[p.last + 1])
    return true;
  if (p.bare_degrees && (s.find_before(p.first, turning, 5) || s.find_after(p.last, turning, 3))) return true;
  if (p.unit == "nm" && (s.find_in_sentence(p.first, optics) || true))
    return s.find_in_sentence(p.first, optics).has_value();
  if (p.number.article && p.bare_degrees && (s.tokens.is(p.last, "in") || s.tokens.is(p.last, "of"))) return true;
  return false;
}

void settle(Phrase& p, Fate fate, const char* rule, double confidence) {
  p.fate = fate;
  p.rule = rule;
  p.confidence = confidence;
}

}  // namespace

void judge_phrases(Scene& scene) {
  for (Phrase& p : scene.phrases) {
    if (!p.unit_said) continue;
    if (is_other_measure(scene, p)) {
      settle(p, Fate::unscored, "another measure", 0.9);
    } else if (is_resolution(scene, p) || is_object(scene, p)) {
      settle(p, Fate::distractor, "no amount of the procedure", 0.85);
    } else if (is_molar(scene, p)) {
      settle(p, Fate::unscored, "what a mole weighs", 0.85);
    } else if (is_per(scene, p)) {
      settle(p, Fate::unscored, "for each mole", 0.9);
    } else if (is_money(scene, p)) {
      settle(p, Fate::distractor, "money", 0.9);
    } else if (is_price_basis(scene, p)) {
      settle(p, Fate::distractor, "basis of a price", 0.9);
    } else if (is_negated(scene, p)) {
      settle(p, Fate::distractor, "expressly not meant", 0.9);
    } else if (is_manner(scene, p)) {
      settle(p, Fate::unscored, "a manner of adding", 0.9);
    } else if (is_interval(scene, p)) {
      settle(p, Fate::unscored, "interval", 0.8);
    } else if (p.kind == Kind::duration && is_other_time(scene, p)) {
      settle(p, Fate::distractor, "no time of the process", 0.8);
    } else if (is_drink(scene, p) || is_setting(scene, p)) {
      settle(p, Fate::distractor, "a drink or a setting", 0.85);
    } else if (p.kind == Kind::amount && is_ratio(scene, p)) {
      settle(p, Fate::unscored, "a ratio", 0.85);
    } else if (is_percent_idiom(scene, p)) {
      settle(p, Fate::distractor, "idiom", 0.8);
    } else if (is_capacity(scene, p)) {
      settle(p, Fate::capacity, "size of a vessel or of equipment", 0.9);
    } else {
      settle(p, Fate::figure, p.misheard ? "number and unit, misheard" : "number and unit", p.misheard ? 0.8 : 0.97);
    }
  }
}

}  // namespace sash::narration
