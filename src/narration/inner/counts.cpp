// Counts of portions and of pieces that have an amount each, and shares of what was measured before.

#include <algorithm>

#include "narration/inner/kind_rules.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr WordSet portions{
    "portions",    "portion",  "lots",       "washes",    "batches", "aliquots", "doses",    "additions", "tablets",
    "bars",        "pieces",   "strips",     "chunks",    "pellets", "sticks",   "cubes",    "capsules",  "pills",
    "sachets",     "squares",  "rinses",     "helpings",  "discs",   "disks",    "coins",    "candles",   "granules",
    "shots",       "splashes", "goes",       "scoops",    "lumps",   "crystals", "packets",  "parts",     "loads",
    "extractions", "slices",   "balls",      "marbles",   "sheets",  "bags",     "teabags",  "sachets",   "packets",
    "tubs",        "nails",    "medallions", "tealights", "beads",   "rocks",    "spoonfuls"};

/// Things that hold or handle material: counting them says nothing of an amount, even with a number behind.
constexpr WordSet things{"tubes",    "flasks", "beakers", "bottles", "people",  "students", "groups", "minutes",
                         "hours",    "runs",   "times",   "volumes", "moles",   "flasks",   "vials",  "burettes",
                         "pipettes", "jars",   "cups",    "classes", "degrees", "goggles",  "gloves", "funnels"};
constexpr WordSet washing{"wash",      "washed",     "washing", "washes", "rinse",     "rinsed",   "rinsing", "extract",
                          "extracted", "extraction", "shake",   "shaken", "triturate", "backwash", "pull",    "pulled"};

/// "53 grams a piece", "1.9 g each", "45 grams apiece"
bool says_each(const Scene& s, const Phrase& amount) {
  const std::string_view behind = s.word(amount.last);
  return behind == "each" || behind == "apiece" || (behind == "in" && s.word(amount.last + 1) == "each") ||
         (behind == "a" &&
          (s.word(amount.last + 1) == "piece" || s.word(amount.last + 1) == "time" || s.word(amount.last + 1) == "go"));
}

bool is_portion(const Phrase& q) {
  return (q.fate == Fate::figure || q.fate == Fate::capacity) && (q.kind == Kind::mass || q.kind == Kind::volume);
}

/// "wash it, ten mils, three times", "20 mL each time, and I do that twice": the amount comes first.
bool washed_with_before(const Scene& s, std::size_t token) {
  for (std::size_t t = token; t-- > 0 && token - t < 26;) {
    if (!s.phrase_at[t]) continue;
    const Phrase& q = s.phrases[*s.phrase_at[t]];
    if (!q.unit_said) continue;
    if (!is_portion(q) || q.unit == "[drp]") return false;
    const bool each_time = (s.word(q.last) == "each" && s.word(q.last + 1) == "time") ||
                           (s.word(q.last) == "at" && s.word(q.last + 1) == "a") || s.word(q.last) == "each";
    const bool near = s.same_sentence(q.first, token) && token - q.last < 4;
    if (each_time) return true;
    for (std::size_t w = token; near && w-- > 0 && token - w < 30;) {
      if (washing.has(s.word(w))) return true;
    }
    return near && s.word_before(token) == "," && token - q.last == 1;
  }
  return false;
}

/// The amount phrase that says how much each of the counted is: "(three portions) of 5 mL", "(nine bars) at 78 grams
/// each".
const Phrase* each_amount(const Scene& s, std::size_t index, std::size_t noun_last) {
  const Phrase& count = s.phrases[index];
  for (std::size_t i = index + 1; i < s.phrases.size(); ++i) {
    const Phrase& q = s.phrases[i];
    if (q.first > noun_last + 10 || !s.same_sentence(q.first, count.first)) break;
    if (q.fate != Fate::figure && q.fate != Fate::capacity) continue;
    if (q.kind != Kind::mass && q.kind != Kind::volume) continue;
    const std::string_view before = s.word_before(q.first);
    constexpr WordSet joins{"of", "at",   "with",  ",",   "about", "around", "roughly",
                            "in", "each", "using", "say", "are",   "a",      "-"};
    if (joins.has(before) || s.word(q.last) == "each" || q.first == noun_last) return &q;
  }
  return nullptr;
}

/// "(forty bags) ..., and there's two and a half grams in every one of them".
bool amount_in_every(const Scene& s, std::size_t index) {
  const Phrase& count = s.phrases[index];
  for (std::size_t i = index + 1; i < s.phrases.size() && s.phrases[i].first < count.last + 40; ++i) {
    const Phrase& q = s.phrases[i];
    if (q.fate != Fate::figure || (q.kind != Kind::mass && q.kind != Kind::volume)) continue;
    if (s.find_after(q.last, WordSet{"each", "every", "apiece"}, 5)) return true;
  }
  return false;
}

bool named_each_before(const Scene& s, std::size_t index, std::string_view noun) {
  const Phrase& count = s.phrases[index];
  for (std::size_t i = index; i-- > 0;) {
    const Phrase& q = s.phrases[i];
    if (count.first - q.first > 40) return false;
    if (q.fate != Fate::figure || (q.kind != Kind::mass && q.kind != Kind::volume)) continue;
    const bool each =
        says_each(s, q) || s.word_before(q.first) == "each" || (s.word(q.last) == "a" && s.word(q.last + 1) == noun);
    if (!each) continue;
    const std::size_t begin = s.begin_of_sentence(q.first);
    for (std::size_t t = begin; t < count.first; ++t) {
      if (s.word(t) == noun || (noun.ends_with('s') && s.word(t) == noun.substr(0, noun.size() - 1))) return true;
    }
  }
  return false;
}

bool plain_count(const Phrase& p) {
  return p.value >= 2 && p.value < 100 && !p.number.decimal && !p.fraction && !p.upper;
}

void make_count(Phrase& p) {
  p.kind = Kind::count;
  p.unit = "1";
  p.fate = Fate::figure;
  p.unit_said = true;
  p.rule = "portions with an amount each";
  p.confidence = 0.9;
}

/// "twice" at token `i` as a count.
Phrase times_of(std::string_view word, std::size_t i) {
  Phrase p;
  p.first = i;
  p.last = p.number_last = i + 1;
  p.value = word == "twice" ? 2 : 3;
  p.kind = Kind::count;
  p.unit = "1";
  p.unit_said = true;
  p.fate = Fate::figure;
  p.rule = "washed so many times with an amount each";
  p.confidence = 0.85;
  return p;
}

constexpr WordSet taking{"take",   "took",     "taking", "pour",     "poured",  "pouring", "use",    "used",
                         "add",    "added",    "put",    "weigh",    "weighed", "save",    "keep",   "kept",
                         "goes",   "scoop",    "tip",    "transfer", "spoon",   "set",     "remove", "transferred",
                         "filter", "dissolve", "freeze", "grind",    "went",    "leave"};

}  // namespace

void settle_count(Scene& s, std::size_t index) {
  Phrase& p = s.phrases[index];
  if (p.unit_said || p.fraction || p.number.decimal || p.upper) return;
  std::size_t noun = p.last;
  constexpr WordSet sized{"small", "equal", "little", "separate", "more", "big",
                          "fresh", "of",    "tiny",   "single",   "nice", "good"};
  for (int k = 0; k < 2 && sized.has(s.word(noun)); ++k) ++noun;
  // "two 5 mL portions", "2 x 5 mL": the amount stands between
  if (s.word(noun) == "x" || s.word(noun) == "×") ++noun;
  if (noun < s.size() && s.phrase_at[noun] && plain_count(p)) {
    const Phrase& amount = s.phrases[*s.phrase_at[noun]];
    const bool by_so_much = noun > p.last || portions.has(s.word(amount.last));
    if (amount.first == noun && amount.unit_said && is_portion(amount) && by_so_much) return make_count(p);
  }
  const std::string_view word = s.word(noun);
  const bool times = word == "times";
  const bool piece = !times && word.size() > 3 && word.ends_with('s') && !things.has(word) && p.value >= 2 &&
                     noun < s.size() && s.tokens.is_type(noun, Token::Type::word);
  if (!portions.has(word) && !times && !piece) return;
  if (times && noun != p.last) return;
  bool each = false;
  if (portions.has(word) || times) {
    each = each_amount(s, index, noun + 1) != nullptr ||
           (!times && (named_each_before(s, index, word) || amount_in_every(s, index))) ||
           (times && washed_with_before(s, p.first));
  } else {
    const Phrase* amount = each_amount(s, index, noun + 1);
    each =
        amount != nullptr && (says_each(s, *amount) || (s.word_before(amount->first) == "at" && is_portion(*amount)));
  }
  if (!each) return;
  p.last = noun + 1;
  for (std::size_t t = p.first; t < p.last; ++t) s.phrase_at[t] = index;
  make_count(p);
}

/// "twice with 20 mL": a count without a number word of its own.
void add_twice(Scene& s) {
  std::vector<Phrase> made;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const std::string_view word = s.word(i);
    if ((word != "twice" && word != "thrice") || s.phrase_at[i]) continue;
    std::size_t next = i + 1;
    if (s.word(next) == "more" || s.word(next) == ",") ++next;
    const bool with = s.word(next) == "with" || s.word(next) == "using";
    if (!with && s.word(i + 1) != "more" && s.word(i + 1) != "as" && washed_with_before(s, i)) {
      made.push_back(times_of(word, i));
      continue;
    }
    // "twice, 20 mL each"
    if (!with && next == i + 2 && next < s.size() && s.phrase_at[next]) {
      const Phrase& each = s.phrases[*s.phrase_at[next]];
      if (is_portion(each) && each.unit_said && (says_each(s, each) || s.find_before(i, washing, 14)))
        made.push_back(times_of(word, i));
      continue;
    }
    if (!with) continue;
    for (std::size_t k = next + 1; k < next + 8 && k < s.size(); ++k) {
      if (!s.phrase_at[k]) continue;
      const Phrase& each = s.phrases[*s.phrase_at[k]];
      if (each.fate != Fate::figure || (each.kind != Kind::volume && each.kind != Kind::mass)) break;
      made.push_back(times_of(word, i));
      break;
    }
  }
  if (made.empty()) return;
  s.phrases.insert(s.phrases.end(), made.begin(), made.end());
  std::sort(s.phrases.begin(), s.phrases.end(), [](const Phrase& a, const Phrase& b) { return a.first < b.first; });
  s.phrase_at.assign(s.size(), std::nullopt);
  for (std::size_t p = 0; p < s.phrases.size(); ++p) {
    for (std::size_t t = s.phrases[p].first; t < s.phrases[p].last; ++t) s.phrase_at[t] = p;
  }
}

void settle_share(Scene& s, std::size_t index) {
  Phrase& p = s.phrases[index];
  if (!p.fraction || p.unit_said) return;
  std::size_t next = p.last;
  const bool of = s.word(next) == "of";
  if (of) ++next;
  constexpr WordSet pointing{"it", "that", "this", "them", "these", "those", "the", "my", "our", "what"};
  if (!pointing.has(s.word(next))) return;
  if (!of && s.word(next) != "the" && s.word(next) != "my" && s.word(next) != "our" && s.word(next) != "this") return;
  if (s.word(next) == "the" &&
      (s.word(next + 1) == "time" || s.word(next + 1) == "price" || s.word(next + 1) == "battle" ||
       s.word(next + 1) == "reason" || s.word(next + 1) == "way" || s.word(next + 1) == "amount")) {
    return;
  }
  // Taken from a material, not compared with one: the verb tells.
  const auto verb_before = s.find_before(p.first, taking, 12);
  const auto verb_behind = s.find_after(next + 1, taking, 5);
  if (!verb_before && !verb_behind) return;
  if (s.find_before(p.first, WordSet{"used", "use"}, 3) && !of) return;
  p.kind = Kind::fraction;
  p.unit = "1";
  p.fate = Fate::figure;
  p.rule = "share of what was measured before";
  p.confidence = 0.75;
}

}  // namespace sash::narration
