// What part each figure plays: weighed out, added, dissolved in, obtained, a condition of the process, or only said.

#include <string>
#include <string_view>
#include <unordered_set>

#include "narration/inner/matter.h"
#include "narration/inner/role_weigher.h"
#include "narration/inner/scene.h"

namespace sash::narration {

namespace {

using model::Role;
using quantity::Kind;

constexpr WordSet metal_pieces{"cathode", "anode", "strip", "electrode", "plate", "foil", "nail", "coin", "wire"};
constexpr Acts measuring(Act::measure, Act::take, Act::have);
constexpr WordSet first_persons{"i", "i'm", "i've", "i'll", "we", "we've", "we're", "we'll", "my", "mine", "our"};

class Caster {
 public:
  explicit Caster(Scene& s) : s_(s), weigher_(s) {}

  void run() {
    for (Draft& d : s_.figures) {
      d.role = weigher_.weigh(place(d), role_of(d));
      note(d);
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
      case Kind::percent_other:
        return s_.act_before(p.first, Acts(Act::hearsay), 12) || only_supposed(p) ||
                       (p.kind == Kind::percent_other && near(p, WordSet{"theory", "theoretical"}, 4))
                   ? Role::other
                   : Role::stated_result;
      case Kind::temperature_change:
        return Role::stated_result;
      case Kind::density:
        return of_density(d);
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
        return near(p, WordSet{"if"}, 8) || only_supposed(p) ? Role::other : Role::condition;
      case Kind::charge:
      case Kind::energy:
        return Role::stated_result;
      default:
        return of_portion(d);
    }
  }

  Role of_temperature(const Phrase& p) const {
    if (s_.act_before(p.first, Acts(Act::hearsay), 6) || only_supposed(p)) return Role::other;
    if (near(p, WordSet{"solubility", "boils", "decomposes", "sublimes"}, 6)) return Role::other;
    const bool comes_over = near(p, WordSet{"over"}, 8) && near(p, WordSet{"comes", "came", "coming"}, 9);
    if (comes_over) return Role::stated_result;
    if (near(p, WordSet{"melting", "melts", "melted", "melt", "boiling"}, 14) && !near(p, WordSet{"water"}, 2))
      return Role::stated_result;
    return Role::condition;
  }

  Role of_duration(const Phrase& p) {
    if (s_.act_before(p.first, Acts(Act::hearsay), 6) || only_supposed(p)) return Role::other;
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

  Role of_density(const Draft& d) const {
    const Phrase& p = s_.phrase_of(d);
    const Mention* product = s_.product_at(p.first);
    const bool made = product != nullptr && bare(product->name) == bare(d.subject) && s_.workup_before(p.first);
    return made || near(p, WordSet{"makes", "works", "comes", "found", "gives"}, 4) ? Role::stated_result : Role::other;
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

  static bool is_portion(Kind k) {
    return k == Kind::mass || k == Kind::volume || k == Kind::gas_volume || k == Kind::amount || k == Kind::fraction ||
           k == Kind::count;
  }

  /// Whether the nearest act among the `reach` tokens before is one of `wanted`.
  bool governed_by(const Phrase& p, Acts wanted, std::size_t reach) const {
    constexpr Acts any(Act::measure, Act::take, Act::add, Act::obtain, Act::recover, Act::lose, Act::remain, Act::have);
    const auto act = s_.act_before(p.first, any, reach);
    return act && wanted.has(s_.acts[*act]);
  }

  std::size_t place(const Draft& d) const { return static_cast<std::size_t>(&d - s_.figures.data()); }

  /// Whether the figure belongs to what is only thought of: "you could use", "for comparison", and what goes on from
  /// "if you want to start from vinegar" until the presenter speaks of the doing again.
  bool only_supposed(const Phrase& p) const {
    if (const auto act = s_.act_before(p.first, Acts(Act::suppose), 14); act && s_.same_sentence(*act, p.first))
      return true;
    if (s_.act_after(p.last, Acts(Act::suppose), 4)) return true;
    std::size_t sentence = s_.sentence[p.first];
    for (std::size_t back = 0; back < 8 && s_.punctuated; ++back) {
      const std::size_t begin = s_.sentence_begin[sentence];
      const std::size_t end = s_.sentence_begin[sentence + 1];
      bool opens = false;
      for (std::size_t t = begin; t < end; ++t) {
        if (first_persons.has(s_.word(t))) return false;
        opens = opens || (s_.acts[t] == Act::suppose && s_.word(t) == "if");
      }
      if (opens) return true;
      if (sentence == 0) return false;
      --sentence;
    }
    return false;
  }

  /// What is read aloud of a book or a label, or thrown out.
  bool only_told(const Phrase& p) const {
    return s_.act_before(p.first, Acts(Act::hearsay), 8) ||
           (is_portion(p.kind) &&
            (s_.find_in_sentence(p.first, WordSet{"waste", "disposal"}) ||
             (s_.find_in_sentence(p.first, WordSet{"bucket"}) && !s_.act_before(p.first, Acts(Act::obtain), 6))));
  }

  bool made_up(const Phrase& p) const {
    constexpr WordSet making{"made",   "make", "making", "top",   "topped",  "topping", "diluted",
                             "dilute", "fill", "filled", "bring", "brought", "filling", "diluting"};
    return p.kind == Kind::volume && near(p, WordSet{"to"}, 3) && near(p, making, 8) &&
           near(p, WordSet{"up", "mark", "line", "diluted", "dilute"}, 5, 3);
  }

  /// Weighings of a vessel right before, with and without what is in it.
  bool nets(std::size_t me) const {
    std::size_t vessels = 0;
    for (std::size_t i = me; i-- > 0 && vessels < 2;) {
      if (s_.phrase_of(s_.figures[i]).kind != Kind::mass || !s_.figures[i].subject.empty()) break;
      ++vessels;
    }
    return vessels == 2;
  }

  /// Whether that substance was measured in before figure `me`.
  bool put_in(std::size_t me) const { return put_in_.count(std::string(bare(s_.figures[me].subject))) != 0; }

  bool anything_in() const { return anything_in_; }

  /// Whether that substance came out and was weighed already: what is weighed again goes on to something else.
  bool weighed_before(std::size_t me) const { return came_out_.count(std::string(bare(s_.figures[me].subject))) != 0; }

  /// What has gone in and come out up to here.
  void note(const Draft& d) {
    const bool in = d.role == Role::measured_out || d.role == Role::added;
    anything_in_ = anything_in_ || in || d.role == Role::solvent;
    if (in && is_portion(s_.phrase_of(d).kind)) put_in_.emplace(bare(d.subject));
    if (d.role == Role::product) came_out_.emplace(bare(d.subject));
  }

  Role of_portion(const Draft& d) {
    const Phrase& p = s_.phrase_of(d);
    const std::string_view rule = d.subject_rule;
    if (only_supposed(p) || only_told(p)) return Role::other;
    if (made_up(p)) return Role::measured_out;
    if (rule == "what is boiled down") return Role::condition;
    if (d.subject == "electrons") return Role::stated_result;
    if (d.subject == "gas") return Role::other;
    if (rule == "what was asked for") return Role::stated_result;
    if (p.kind == Kind::molar_concentration || p.kind == Kind::mass_percent || p.kind == Kind::volume_percent ||
        p.kind == Kind::mass_concentration) {
      return of_strength(d);
    }
    if (p.kind == Kind::mass && near(p, WordSet{"gained", "deposited", "gain"}, 3)) return Role::product;
    if (p.kind == Kind::mass && rule == "the metal of the piece") return of_piece(d);
    if (p.kind == Kind::mass && d.subject.empty()) return Role::other;
    if (rule == "what is in the burette") {
      if (near(p, WordSet{"average", "mean"}, 5)) return Role::stated_result;
      return near(p, WordSet{"reading", "reads", "says"}, 3) && !near(p, WordSet{"took", "used"}, 4) &&
                     readings_differ(d)
                 ? Role::other
                 : Role::added;
    }
    if (const auto told = of_balance(d)) return *told;
    const bool liquid = d.subject == "water" || (d.mention != nullptr && (d.mention->water || d.mention->solvent));
    if (liquid && (p.kind == Kind::volume || p.kind == Kind::count || p.kind == Kind::mass)) return of_solvent(d);
    if (p.kind == Kind::equivalents || p.kind == Kind::amount) return of_amount(d);
    if (p.kind == Kind::mass && worked_out(d)) return s_.figures[place(d) - 1].role;
    if (came_out(d)) return Role::product;
    return of_reagent(d);
  }

  /// Whether the burette is read against an earlier reading: then a reading is no volume run in.
  bool readings_differ(const Draft& d) const {
    const Phrase& p = s_.phrase_of(d);
    for (std::size_t t = p.last; t < s_.size() && t < p.last + 60; ++t) {
      if (s_.word(t) == "used" || s_.word(t) == "difference" || s_.word(t) == "minus") return true;
    }
    return near(p, WordSet{"starting", "start", "initial"}, 4);
  }

  static Role obtained_gas(bool read) { return read ? Role::product : Role::stated_result; }

  /// What the words around a portion say outright: lost, left, expected, recovered, netted.
  std::optional<Role> of_balance(const Draft& d) const {
    const Phrase& p = s_.phrase_of(d);
    const bool mass_or_volume = p.kind == Kind::mass || p.kind == Kind::volume || p.kind == Kind::gas_volume;
    const std::size_t me = place(d);
    const bool back = s_.act_before(p.first, Acts(Act::recover), 3) || s_.act_after(p.last, Acts(Act::recover), 5);
    if (p.kind == Kind::mass && nets(me) && !back) {
      const bool out = (s_.workup_before(p.first) || p.first * 2 > s_.size()) && anything_in();
      return out && !weighed_before(me) && !(put_in(me) && !came_out(d)) ? Role::product : Role::measured_out;
    }
    if (governed_by(p, Acts(Act::lose), 4)) return Role::other;
    if (mass_or_volume && (governed_by(p, Acts(Act::remain), 5) || s_.act_after(p.last, Acts(Act::remain), 5) ||
                           near(p, WordSet{"left"}, 0, 3)))
      return Role::remainder;
    constexpr WordSet totals{"altogether", "total", "theoretical", "expected", "combined", "all"};
    const bool reckoned = s_.act_before(p.first, Acts(Act::reckon), 8) || near(p, totals, 0, 4);
    const bool to_be_added = near(p, WordSet{"need", "needs"}, 8) && p.kind == Kind::volume && d.mention != nullptr &&
                             !d.mention->water && !near(p, WordSet{"least"}, 5);
    if (is_portion(p.kind) && reckoned && !to_be_added) return Role::stated_result;
    if (is_portion(p.kind) && near(p, WordSet{"least", "required"}, 5) && near(p, WordSet{"need", "needs", "take"}, 8))
      return Role::stated_result;
    if (is_portion(p.kind) && back && (put_in(me) || p.kind != Kind::mass)) return Role::recovered;
    if (p.kind == Kind::gas_volume) {
      constexpr WordSet caught{"read",    "says", "cylinder", "collected", "got",   "caught", "measured", "syringe",
                               "collect", "have", "gave",     "get",       "reads", "filled", "balloon"};
      return obtained_gas(near(p, caught, 8));
    }
    return std::nullopt;
  }

  /// Which piece is weighed: "cathode".
  std::string_view piece_of(const Phrase& p) const {
    for (std::size_t t = p.first; t-- > 0 && p.first - t < 12;) {
      std::string_view word = s_.word(t);
      if (word.ends_with("'s")) word.remove_suffix(2);
      if (metal_pieces.has(word)) return word;
    }
    return {};
  }

  /// A strip or a plate on the balance: lighter than before it is what remains, heavier it carries the product.
  Role of_piece(const Draft& d) const {
    const Phrase& p = s_.phrase_of(d);
    if (governed_by(p, Acts(Act::lose), 4)) return Role::other;
    for (std::size_t i = place(d); i-- > 0;) {
      const Draft& before = s_.figures[i];
      const Phrase& q = s_.phrase_of(before);
      const bool same_piece = q.kind == Kind::mass && q.unit == p.unit && before.role == Role::measured_out &&
                              std::string_view(before.subject_rule) == "the metal of the piece" &&
                              piece_of(q) == piece_of(p);
      if (!same_piece || p.value < q.value * 0.8 || p.value > q.value * 1.25) continue;
      if (p.value < q.value) return Role::remainder;
      return p.value > q.value ? Role::product : Role::measured_out;
    }
    if (near(p, WordSet{"down"}, 4)) return Role::remainder;
    if (near(p, WordSet{"now", "put", "after", "picked"}, 8)) return Role::product;
    return Role::measured_out;
  }

  Role of_solvent(const Draft& d) const {
    const Phrase& p = s_.phrase_of(d);
    const bool water = d.subject == "water";
    if (water && (s_.act_before(p.first, Acts(Act::destroy), 14) || s_.act_after(p.last, Acts(Act::destroy), 10)))
      return Role::added;
    const bool washing = s_.act_before(p.first, Acts(Act::wash, Act::dissolve), 20).has_value();
    if (water && !washing && last_portion_ != nullptr && last_portion_->role == Role::added &&
        last_portion_->mention != nullptr && last_portion_->mention->water && near(p, WordSet{"more", "then"}, 4, 1))
      return Role::added;
    // The pot is poured into water, or water on what has reacted.
    constexpr WordSet tipping{"poured", "tipped", "pour", "tip", "dumped", "dump"};
    if (water && near(p, tipping, 4) && s_.word_before(p.first) == "into" && !washing) return Role::added;
    return Role::solvent;
  }

  Role of_amount(const Draft& d) const {
    const Phrase& p = s_.phrase_of(d);
    if (s_.find_after(p.last, WordSet{"would", "gives", "should", "could"}, 2)) return Role::stated_result;
    if (last_portion_ == nullptr || p.first - s_.phrase_of(*last_portion_).first >= 50) return Role::stated_result;
    const bool same =
        last_portion_->subject == d.subject ||
        (last_portion_->mention != nullptr && d.mention != nullptr && last_portion_->mention->name == d.mention->name);
    return same ? last_portion_->role : Role::stated_result;
  }

  /// "0.0149 moles of iodoform, and times the molar mass it's 5.88 grams": of an amount that was itself worked out.
  bool worked_out(const Draft& d) const {
    const std::size_t me = place(d);
    if (me == 0) return false;
    const Draft& before = s_.figures[me - 1];
    const Phrase& q = s_.phrase_of(before);
    const Phrase& p = s_.phrase_of(d);
    const auto act = s_.act_before(p.first, Acts(Act::obtain, Act::measure), 4);
    constexpr WordSet turning{"makes", "make", "gives", "comes"};
    const bool weighed = act && !turning.has(s_.word(*act));
    return q.kind == Kind::amount && before.role != Role::product && before.role != Role::recovered &&
           bare(before.subject) == bare(d.subject) && p.first - q.last < 16 && !weighed;
  }

  /// Whether the portion is what the procedure yielded.
  bool came_out(const Draft& d) const {
    const Phrase& p = s_.phrase_of(d);
    if (d.subject.empty() || p.unit == "[drp]") return false;
    const std::size_t me = place(d);
    const Mention* product = s_.product_at(p.first);
    const bool made = product != nullptr && bare(product->name) == bare(d.subject);
    const auto got = s_.act_before(p.first, Acts(Act::obtain), 7);
    const auto taken = s_.act_before(p.first, Acts(Act::measure, Act::take, Act::add), 6);
    const bool on_balance = near(p, WordSet{"scale", "scales", "balance"}, 5, 4);
    if (taken && !on_balance && (!got || *taken > *got)) return false;
    if (s_.act_before(p.first, Acts(Act::dissolve), 2)) return false;  // it goes on to something else
    constexpr WordSet finished{"crude", "pure", "dry", "dried", "product", "crystals", "needles", "lovely", "plates"};
    const bool looks = near(p, finished, 0, 5) || near(p, WordSet{"crude", "dry", "dried", "finally"}, 7);
    const bool isolated = s_.workup_before(p.first).has_value();
    const bool in = put_in(me);
    const bool by_product_noun =
        std::string_view(d.subject_rule) == "by what it looks like" && (isolated || p.first * 2 > s_.size());
    if (by_product_noun) return true;
    if (made) {
      if (me >= 2 && looks && (isolated || p.first * 2 > s_.size())) return true;
      const bool told = got || on_balance || s_.act_before(p.first, Acts(Act::have), 6) ||
                        near(p, WordSet{"is", "was", "it's", "are"}, 2);
      if (isolated && told && me >= 3) return true;
      if (!in && me >= 3 && p.first * 2 > s_.size()) return true;
      return false;
    }
    // Weighed late and never put in: it came out.
    const bool liquid_reagent = p.kind == Kind::volume && d.mention != nullptr && d.mention->acid;
    return !in && p.first * 20 > s_.size() * 11 && me >= 3 && !liquid_reagent && d.subject != "reaction mixture" &&
           (got || on_balance || s_.act_before(p.first, Acts(Act::have), 6) ||
            near(p, WordSet{"is", "that's", "about"}, 3)) &&
           !s_.act_before(p.first, Acts(Act::add), 8);
  }

  Role of_reagent(const Draft& d) const {
    const Phrase& p = s_.phrase_of(d);
    if (p.unit == "[drp]") return Role::added;
    if (!anything_in()) return Role::measured_out;  // there is nothing to add it to
    const auto add = s_.act_before(p.first, Acts(Act::add), 7);
    const auto measure = s_.act_before(p.first, measuring, 7);
    const bool liquid = p.kind == Kind::volume;
    if (add && (!measure || *add > *measure)) return Role::added;
    if (measure && liquid && near(p, WordSet{"now", "then", "next"}, 4) && near(p, WordSet{"need"}, 2))
      return Role::added;
    if (measure) return Role::measured_out;
    if (s_.act_after(p.last, Acts(Act::add), 6)) return Role::added;
    const bool acid = d.mention != nullptr && d.mention->acid;
    if (liquid && !acid && washing_goes_on(p)) return Role::solvent;
    if (liquid && near(p, WordSet{"next", "then", "now"}, 5)) return Role::added;
    if (liquid && s_.word(p.last) == "of" && near(p, WordSet{"with", "and", "need"}, 3)) return Role::added;
    if (liquid && d.mention != nullptr && d.mention->acid) return Role::added;
    if (near(p, WordSet{"dry", "dried", "drying"}, 6) && near(p, WordSet{"over", "with"}, 4)) return Role::added;
    if (liquid && goes_in_next(p)) return Role::added;
    if (s_.act_before(p.first, measuring, 12)) return Role::measured_out;
    if (s_.act_before(p.first, Acts(Act::add), 20)) return Role::added;
    return Role::measured_out;
  }

  /// "Then twice with 25 mL of bicarb. Then 20 mL of brine.": what was last done is washing.
  bool washing_goes_on(const Phrase& p) const {
    constexpr Acts others(Act::add, Act::measure, Act::take, Act::obtain);
    for (std::size_t t = p.first; t-- > 0 && p.first - t < 60;) {
      if (s_.acts[t] == Act::wash) return true;
      if (others.has(s_.acts[t])) return false;
    }
    return false;
  }

  /// "... It goes in drop by drop": the sentence behind puts it in.
  bool goes_in_next(const Phrase& p) const {
    std::size_t begin = s_.end_of_sentence(p.first);
    for (; begin < s_.size() && begin < p.last + 24; begin = s_.end_of_sentence(begin)) {
      for (std::size_t t = begin; t < s_.end_of_sentence(begin) && t < begin + 4; ++t) {
        if (s_.acts[t] == Act::add) return true;
      }
    }
    return false;
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
    if (near(p, WordSet{"label", "bottle", "store"}, 8)) return Role::other;
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
  RoleWeigher weigher_;
  const Draft* last_portion_ = nullptr;
  std::unordered_set<std::string> put_in_;  ///< substances, without their form
  std::unordered_set<std::string> came_out_;
  bool anything_in_ = false;
  std::size_t scanned_ = 0;
  bool timing_ = false;
};

}  // namespace

void settle_roles(Scene& scene) { Caster(scene).run(); }

}  // namespace sash::narration
