// What part each figure plays: weighed out, added, dissolved in, obtained, a condition of the process, or only said.

#include "narration/inner/scene.h"

namespace sash::narration {

namespace {

using model::Role;
using quantity::Kind;

constexpr WordSet adding{"add",        "adding",     "added",  "adds",     "pour",   "pouring", "poured",  "drip",
                         "dripping",   "goes",       "go",     "drop",     "squirt", "tip",     "tipping", "chase",
                         "titrate",    "squeeze",    "inject", "sprinkle", "dump",   "throw",   "toss",    "acidify",
                         "neutralize", "neutralise", "charge", "spray",    "splash", "dripped", "rub",     "mix",
                         "put",        "syringe",    "top",    "followed", "plus"};
constexpr WordSet weighing{
    "weigh", "weighed", "weighing", "weighs",   "measure",   "measured",   "measuring", "balance", "scale", "scales",
    "took",  "take",    "taking",   "have",     "i've",      "we've",      "there's",   "got",     "use",   "start",
    "using", "here's",  "cut",      "dissolve", "dissolved", "dissolving", "grab",      "count",   "tare"};
constexpr WordSet getting{"got",     "get",       "obtained",  "collected", "yield", "product",  "crude",
                          "gives",   "gave",      "recovered", "back",      "ended", "isolated", "made",
                          "managed", "harvested", "gained",    "filtered",  "dried", "final",    "weighs",
                          "caught",  "scraped",   "left",      "leaves"};
constexpr WordSet washing{"wash",       "rinse",         "washed",        "rinsed",          "washing",
                          "rinsing",    "washes",        "rinses",        "dissolve",        "dissolved",
                          "dissolving", "recrystallise", "recrystallize", "recrystallizing", "recrystallising",
                          "dilute",     "diluted",       "soak",          "extract",         "clean",
                          "cleaned",    "cleaning",      "triturate",     "suspend",         "slurry"};
constexpr WordSet destroying{"destroy",   "quench",     "spit",       "decompose", "hydrolyse",
                             "hydrolyze", "neutralise", "neutralize", "kill",      "calms"};

class Caster {
 public:
  explicit Caster(Scene& s) : s_(s) {}

  void run() {
    for (Draft& d : s_.figures) {
      d.role = role_of(d);
      const Kind k = s_.phrase_of(d).kind;
      if (k == Kind::mass || k == Kind::volume || k == Kind::gas_volume) last_portion_ = &d;
    }
  }

 private:
  bool near(const Phrase& p, const auto& words, std::size_t before, std::size_t behind = 0) const {
    return s_.find_before(p.first, words, before) || (behind > 0 && s_.find_after(p.last, words, behind));
  }

  Role role_of(const Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    switch (p.kind) {
      case Kind::percent_yield:
        return near(p, WordSet{"somebody", "someone", "tells", "book", "literature", "they", "people", "claim"}, 12)
                   ? Role::other
                   : Role::stated_result;
      case Kind::percent_other:
      case Kind::temperature_change:
        return Role::stated_result;
      case Kind::density:
      case Kind::molar_mass:
        return Role::other;
      case Kind::temperature:
        return of_temperature(p);
      case Kind::duration:
        return of_duration(p);
      case Kind::pH:
        return of_acidity(d);
      case Kind::length:
        return of_length(d);
      case Kind::voltage:
      case Kind::current:
      case Kind::power:
      case Kind::pressure:
        return Role::condition;
      case Kind::charge:
      case Kind::energy:
        return Role::stated_result;
      default:
        return of_portion(d);
    }
  }

  Role of_temperature(const Phrase& p) const {
    if (near(p, WordSet{"book", "literature", "handbook", "reference"}, 6)) return Role::other;
    if (near(p, WordSet{"melting", "melts", "melted", "boiling"}, 14) && !near(p, WordSet{"water"}, 2)) {
      return Role::stated_result;
    }
    return Role::condition;
  }

  Role of_duration(const Phrase& p) {
    if (s_.find_in_sentence(p.first, WordSet{"stopwatch", "timer"}) || timing_begun(p.first)) {
      if (p.unit == "s") return Role::stated_result;
    }
    return Role::condition;
  }

  /// Whether somebody was told to start the watch, and the run is being timed.
  bool timing_begun(std::size_t token) {
    constexpr WordSet clocks{"watch", "stopwatch", "timer"};
    for (; scanned_ < token; ++scanned_) {
      if (clocks.has(s_.word(scanned_)) && s_.find_before(scanned_, WordSet{"start", "the", "my", "a"}, 3) &&
          (s_.find_before(scanned_, WordSet{"start", "starting", "started", "hit", "stop"}, 4))) {
        timing_ = true;
      }
    }
    return timing_;
  }

  Role of_acidity(const Draft& d) const {
    const Phrase& p = s_.phrase_of(d);
    const bool read = near(p, WordSet{"says", "reads", "shows", "goes", "strip", "paper", "meter"}, 8);
    if (!read) return Role::condition;
    for (std::size_t i = static_cast<std::size_t>(&d - s_.figures.data()); i-- > 0;) {
      const Phrase& q = s_.phrase_of(s_.figures[i]);
      if (p.first - q.first > 40) break;
      if (q.kind == Kind::pH && s_.figures[i].role == Role::condition) return Role::condition;
    }
    return Role::stated_result;
  }

  Role of_length(const Draft& d) const {
    const Phrase& p = s_.phrase_of(d);
    if (near(p, WordSet{"comes", "works", "be", "measures", "tape", "across", "so", "is"}, 6, 3) && d.subject.empty())
      return Role::stated_result;
    if (near(p, WordSet{"pieces", "cut", "chopped", "snipped"}, 8)) return Role::measured_out;
    if (near(p, WordSet{"comes", "works", "thickness"}, 8)) return Role::stated_result;
    if (near(p, WordSet{"between", "apart", "keep", "deep", "distance", "gap", "depth", "above", "away", "back"}, 5, 3))
      return Role::condition;
    if (near(p, WordSet{"pieces", "ribbon", "strip", "wire", "cut", "length"}, 8, 6) &&
        !near(p, WordSet{"wide", "long", "across"}, 0, 2))
      return Role::measured_out;
    return Role::other;
  }

  Role of_portion(const Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    const bool liquid = d.mention != nullptr && (d.mention->water || d.mention->solvent);
    const bool portion = p.kind == Kind::mass || p.kind == Kind::volume || p.kind == Kind::gas_volume ||
                         p.kind == Kind::amount || p.kind == Kind::fraction || p.kind == Kind::count;
    if (near(p, WordSet{"instead", "comparison", "alternatively", "imagine", "suppose"}, 14, 8)) return Role::other;
    if (near(p, WordSet{"could", "would"}, 8) && near(p, WordSet{"use", "have"}, 4) &&
        !near(p, WordSet{"most", "theoretical"}, 10))
      return Role::other;
    if (near(p, WordSet{"tells", "book", "recipe", "literature", "they"}, 6)) return Role::other;
    if (portion && s_.find_in_sentence(p.first, WordSet{"bucket", "waste"})) return Role::other;
    const bool made_up =
        near(p, WordSet{"to"}, 3) &&
        (near(p, WordSet{"made", "make", "top", "topped", "diluted", "dilute", "fill", "filled", "bring", "brought"},
              8)) &&
        near(p, WordSet{"up", "mark", "line", "diluted", "dilute"}, 5, 3);
    if (p.kind == Kind::volume && made_up) return Role::measured_out;
    if (portion && near(p, WordSet{"sum", "calculate", "calculated"}, 6) && p.kind != Kind::amount)
      return Role::stated_result;
    if (std::string_view(d.subject_rule) == "what is boiled down") return Role::condition;
    if (portion && (s_.find_in_sentence(p.first, WordSet{"theory", "theoretical"}) ||
                    (s_.word_before(p.first) == "be" && s_.word_before(p.first, 2) == "would"))) {
      const bool obtained = near(p, WordSet{"got", "have", "back"}, 4);
      if (!obtained && p.kind != Kind::amount) return Role::stated_result;
    }
    if (p.kind == Kind::mass && std::string_view(d.subject_rule) == "the metal of the piece") {
      if (near(p, WordSet{"lost", "lose"}, 4)) return Role::other;
      if (near(p, WordSet{"down"}, 4)) return Role::remainder;
      return near(p, WordSet{"now", "gained", "put", "after"}, 8) ? Role::product : Role::measured_out;
    }
    if (p.kind == Kind::mass && d.subject.empty()) return Role::other;
    const bool second_half = p.first * 2 > s_.size();
    const std::size_t me = static_cast<std::size_t>(&d - s_.figures.data());
    if (p.kind == Kind::mass && me >= 2) {
      // What is left of two weighings of a vessel.
      std::size_t vessels = 0;
      for (std::size_t i = me; i-- > 0 && vessels < 2;) {
        if (s_.phrase_of(s_.figures[i]).kind != Kind::mass || !s_.figures[i].subject.empty()) break;
        ++vessels;
      }
      if (vessels == 2 && !near(p, WordSet{"back", "recovered"}, 3, 5))
        return second_half ? Role::product : Role::measured_out;
    }
    if (std::string_view(d.subject_rule) == "what is in the burette") {
      return near(p, WordSet{"reading", "reads", "says"}, 5) ? Role::other : Role::added;
    }
    if (d.subject == "electrons" || d.subject == "gas") return d.subject == "gas" ? Role::other : Role::stated_result;
    if (near(p, WordSet{"lost", "lose", "loses", "spilled", "spilt"}, 4)) return Role::other;
    if (p.kind == Kind::mass || p.kind == Kind::volume || p.kind == Kind::gas_volume) {
      if (near(p, WordSet{"rest", "remaining", "remainder", "leftover"}, 5) ||
          near(p, WordSet{"left", "leftover", "remaining"}, 0, 3)) {
        return Role::remainder;
      }
    }
    if (portion &&
        (near(p, WordSet{"theoretical", "expect", "expected", "should", "most", "maximum", "calculated", "ought"}, 8) ||
         near(p, WordSet{"altogether", "total", "theoretical", "expected"}, 0, 5) || near(p, WordSet{"total"}, 4))) {
      return Role::stated_result;
    }
    if (portion && near(p, WordSet{"required", "least"}, 5) &&
        near(p, WordSet{"need", "needs", "required", "require"}, 8) && !near(p, adding, 14, 0) &&
        p.kind != Kind::volume)
      return Role::stated_result;
    if (portion && near(p, WordSet{"back", "recovered"}, 3, 5)) return Role::recovered;
    if (p.kind == Kind::gas_volume) {
      if (near(p, WordSet{"read", "says", "cylinder", "collected", "got", "caught", "measured", "syringe"}, 8))
        return Role::product;
      return Role::stated_result;
    }
    if (liquid &&
        (p.kind == Kind::volume || p.kind == Kind::count || p.kind == Kind::mass || p.kind == Kind::volume_percent)) {
      if (d.mention->water && s_.find_in_sentence(p.first, destroying)) return Role::added;
      if (d.mention->water && !near(p, washing, 20) && last_portion_ != nullptr && last_portion_->role == Role::added &&
          last_portion_->mention != nullptr && last_portion_->mention->water &&
          near(p, WordSet{"more", "then"}, 4, 1)) {
        return Role::added;
      }
      return Role::solvent;
    }
    if (p.kind == Kind::molar_concentration || p.kind == Kind::mass_percent || p.kind == Kind::volume_percent ||
        p.kind == Kind::mass_concentration) {
      return of_strength(d);
    }
    if (p.kind == Kind::equivalents || p.kind == Kind::amount) {
      if (last_portion_ != nullptr && last_portion_->subject == d.subject &&
          p.first - s_.phrase_of(*last_portion_).first < 50) {
        return last_portion_->role;
      }
      if (last_portion_ != nullptr && last_portion_->mention != nullptr && d.mention != nullptr &&
          last_portion_->mention->name == d.mention->name && p.first - s_.phrase_of(*last_portion_).first < 50) {
        return last_portion_->role;
      }
      return Role::stated_result;
    }
    const bool product =
        second_half && d.mention != nullptr && std::string_view(d.subject_rule) == "the product of the procedure";
    if (product) return near(p, WordSet{"comparison", "shop", "store"}, 10) ? Role::other : Role::product;
    // The product weighed when much has been measured before: it is there.
    const bool named_product = s_.product && d.mention != nullptr && d.mention->name == s_.mentions[*s_.product].name;
    const bool late =
        second_half && me >= 4 && s_.product && s_.phrase_of(d).first > s_.mentions[*s_.product].last + 60;
    if (named_product && late && p.kind == Kind::mass &&
        near(p, WordSet{"have", "got", "now", "is", "was", "weighs", "gives", "that's", "left", "pure", "crude", "dry"},
             6) &&
        !near(p, WordSet{"take", "weigh", "weighed", "add", "took", "use"}, 6)) {
      return Role::product;
    }
    if (second_half &&
        near(p, WordSet{"now", "crude", "product", "yield", "dried", "gained", "collected", "pure", "final", "finally"},
             5) &&
        near(p, getting, 6) && p.kind != Kind::volume) {
      return Role::product;
    }
    if (near(p,
             WordSet{"weigh", "weighed", "weighing", "measure", "measured", "measuring", "balance", "have", "i've",
                     "there's"},
             6)) {
      return Role::measured_out;
    }
    if (near(p, adding, 7) || near(p, WordSet{"goes", "added"}, 0, 6)) return Role::added;
    // What is weighed late and was never put in came out.
    const bool solid = p.kind == Kind::mass ||
                       (p.kind == Kind::volume && d.mention != nullptr && !d.mention->water && !d.mention->solvent);
    if (solid && p.first * 20 > s_.size() * 11 && !d.subject.empty() && !near(p, adding, 8) && p.unit != "[drp]") {
      bool put_in = false;
      for (std::size_t i = 0; i < me && !put_in; ++i) put_in = s_.figures[i].subject == d.subject;
      if (!put_in && near(p,
                          WordSet{"got", "get", "have", "i've", "is", "that's", "weighs", "there's", "gives", "balance",
                                  "about", "leaves", "are"},
                          6, 4))
        return Role::product;
    }
    if (p.kind == Kind::volume && near(p, WordSet{"next", "then"}, 5)) return Role::added;
    if (near(p, weighing, 10)) return Role::measured_out;
    if (p.kind == Kind::volume && s_.word(p.last) == "of" &&
        near(p, WordSet{"then", "now", "with", "and", "plus", "need"}, 3))
      return Role::added;
    if (d.mention != nullptr && d.mention->acid && p.kind == Kind::volume) return Role::added;
    if (p.kind == Kind::volume && p.unit == "[drp]") return Role::added;
    if (near(p, WordSet{"dry", "dried"}, 6)) return Role::added;  // a drying agent
    if (near(p, adding, 20)) return Role::added;
    return Role::measured_out;
  }

  Role of_strength(const Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    // Said beside its volume it plays the volume's part.
    const std::size_t me = static_cast<std::size_t>(&d - s_.figures.data());
    const auto beside = [&](std::size_t i) {
      const Draft& other = s_.figures[i];
      const Phrase& q = s_.phrase_of(other);
      const bool portion = q.kind == Kind::volume || q.kind == Kind::mass;
      return portion && other.mention != nullptr && d.mention != nullptr && other.mention->name == d.mention->name;
    };
    if (me > 0 && beside(me - 1) && s_.same_sentence(s_.phrase_of(s_.figures[me - 1]).first, p.first))
      return s_.figures[me - 1].role;
    if (near(p, WordSet{"makes", "should", "be", "gives", "comes", "works", "going"}, 7)) {
      const bool made = near(p, WordSet{"makes", "gives", "that's"}, 5) && !near(p, WordSet{"should"}, 7) &&
                        last_portion_ != nullptr && last_portion_->role == Role::solvent;
      return made ? Role::measured_out : Role::stated_result;
    }
    if (me > 0) {
      // "we should have 0.037 moles in there, so that's 0.25 molar": what follows from what is expected is expected.
      const Draft& before = s_.figures[me - 1];
      const bool follows =
          near(p, WordSet{"so", "that's", "which", "makes"}, 8) && p.first - s_.phrase_of(before).first < 26;
      if (follows && before.role == Role::stated_result && s_.phrase_of(before).kind == Kind::amount)
        return Role::stated_result;
    }
    if (me + 1 < s_.figures.size() && beside(me + 1)) return of_portion(s_.figures[me + 1]);
    if (s_.find_in_sentence(p.first, WordSet{"burette", "buret"})) return Role::added;
    if (near(p, WordSet{"label", "bottle", "store", "book"}, 8)) return Role::other;
    const bool matches = last_portion_ != nullptr && last_portion_->mention != nullptr && d.mention != nullptr &&
                         (last_portion_->mention->name == d.mention->name || last_portion_->mention->water);
    if (matches && p.first - s_.phrase_of(*last_portion_).first < 40) {
      if (p.kind == Kind::mass_percent && last_portion_->mention->water) return Role::stated_result;
      return last_portion_->role == Role::solvent ? Role::measured_out : last_portion_->role;
    }
    if (near(p, WordSet{"that's", "is", "it's", "makes", "so"}, 4)) return Role::stated_result;
    return Role::other;
  }

  Scene& s_;
  const Draft* last_portion_ = nullptr;
  std::size_t scanned_ = 0;
  bool timing_ = false;
};

}  // namespace

void settle_roles(Scene& scene) { Caster(scene).run(); }

}  // namespace sash::narration
