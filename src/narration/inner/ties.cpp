// How figures hang together: the same sample said again, a slip corrected, a strength and its volume, a share, a sum.

#include <algorithm>
#include <cmath>

#include "narration/inner/scene.h"
#include "quantity/unit.h"
#include "support/text.h"

namespace sash::narration {

namespace {

using quantity::Kind;

/// The substance without what says in which form it is: "copper(II) sulfate" for its hydrate and its solution.
std::string_view bare(std::string_view subject) {
  if (const std::size_t at = subject.find(" solution"); at != std::string_view::npos) subject = subject.substr(0, at);
  if (subject.ends_with("hydrate"))
    subject = subject.substr(0, subject.rfind(' ') == std::string_view::npos ? subject.size() : subject.rfind(' '));
  return subject;
}

bool is_portion(Kind k) {
  return k == Kind::mass || k == Kind::volume || k == Kind::amount || k == Kind::gas_volume || k == Kind::equivalents;
}
bool is_strength(Kind k) {
  return k == Kind::molar_concentration || k == Kind::mass_percent || k == Kind::volume_percent ||
         k == Kind::mass_concentration;
}

class Tier {
 public:
  explicit Tier(Scene& s) : s_(s) {
    base_.reserve(s.figures.size());
    for (const Draft& d : s.figures) base_.push_back(base_of(s.phrase_of(d)));
  }

  void run() {
    for (std::size_t i = 0; i < s_.figures.size(); ++i) {
      correct(i);
      repeat(i);
      note_molar_mass(i);
      attach(i);
      share(i);
      sum(i);
    }
  }

 private:
  const Phrase& phrase(std::size_t i) const { return s_.phrase_of(s_.figures[i]); }
  std::size_t distance(std::size_t earlier, std::size_t later) const {
    return phrase(later).first - phrase(earlier).first;
  }

  /// Value in coherent units; nothing for ranges and units nobody knows.
  static std::optional<double> base_of(const Phrase& p) {
    if (p.upper) return std::nullopt;
    if (p.unit == "Cel") return p.kind == Kind::temperature ? p.value + 273.15 : p.value;
    if (p.unit == "[degF]") return p.kind == Kind::temperature ? (p.value + 459.67) * 5 / 9 : p.value * 5 / 9;
    const auto unit = quantity::Unit::parse(p.unit);
    if (!unit) return std::nullopt;
    return unit->to_si(p.value);
  }

  bool close(std::size_t a, std::size_t b, double tolerance) const {
    if (!base_[a] || !base_[b]) return false;
    return std::abs(*base_[a] - *base_[b]) <= tolerance * std::max(std::abs(*base_[a]), std::abs(*base_[b]));
  }

  bool same_matter(std::size_t a, std::size_t b) const {
    const std::string_view x = bare(s_.figures[a].subject);
    const std::string_view y = bare(s_.figures[b].subject);
    return !x.empty() && x == y && x != "reaction mixture";
  }

  bool same_kind(std::size_t a, std::size_t b) const { return phrase(a).kind == phrase(b).kind; }

  /// The first that stands of the sample figure `i` belongs to.
  std::size_t first_of(std::size_t i) const { return s_.figures[i].same_as.value_or(i); }

  bool word_between(std::size_t a, std::size_t b, const auto& words) const {
    for (std::size_t t = phrase(a).last; t < phrase(b).first; ++t) {
      if (words.has(s_.word(t))) return true;
    }
    return false;
  }

  bool marked_slip(std::size_t a, std::size_t b) const {
    constexpr WordSet marks{"sorry",   "oops",  "correction", "whoops", "scratch",
                            "misread", "wrong", "naw",        "nah",    "nope"};
    // The slip is taken back at once: the mark stands in the same sentence or opens the next.
    std::size_t reach = std::min(phrase(b).first, phrase(a).last + 9);
    for (std::size_t t = phrase(a).last; t < reach; ++t) {
      const bool dots = s_.word(t) == "." && (s_.word(t + 1) == "." || s_.word_before(t) == ".");
      if (!dots && (s_.word(t) == "." || s_.word(t) == "!" || s_.word(t) == "?")) reach = std::min(reach, t + 4);
    }
    for (std::size_t t = phrase(a).last; t < reach; ++t) {
      const std::string_view w = s_.word(t);
      if (marks.has(w)) return true;
      const std::string_view before = s_.word_before(t);
      const bool pause = before == "," || before == "." || before == "-" || before == "\u2014" || t == phrase(a).last ||
                         before == "grams";
      if (w == "no" && (pause || s_.word(t + 1) == "wait" || s_.word(t + 1) == "hang" || s_.word(t + 1) == "hold" ||
                        s_.word(t + 1) == ",")) {
        return s_.word(t + 1) != "more" && s_.word(t + 1) != "less" && !s_.mention_at[std::min(t + 1, s_.size() - 1)];
      }
      if (w == "wait" && (pause || before == "no")) return true;
      if (w == "mean" && before == "i") return true;
      if (w == "make" && s_.word(t + 1) == "that") return true;
      if (w == "hang" && s_.word(t + 1) == "on") return true;
      if (w == "actually" && pause) return true;
      if (w == "rather" && before == "or") return true;
    }
    return false;
  }

  /// "9.33 millimoles, times 63.5 gives 592 milligrams": the number between an amount and its mass that turns one into
  /// the other.
  void note_molar_mass(std::size_t i) {
    if (i == 0 || !s_.figures[i].same_as) return;
    const Kind kind = phrase(i).kind;
    const std::size_t k = i - 1;
    const bool pair = (kind == Kind::mass && phrase(k).kind == Kind::amount) ||
                      (kind == Kind::amount && phrase(k).kind == Kind::mass);
    if (!pair || !base_[i] || !base_[k] || *base_[i] == 0 || *base_[k] == 0) return;
    const double mass = kind == Kind::mass ? *base_[i] : *base_[k];
    const double amount = kind == Kind::mass ? *base_[k] : *base_[i];
    for (std::size_t t = phrase(k).last; t < phrase(i).first; ++t) {
      if (!s_.phrase_at[t]) continue;
      const Phrase& p = s_.phrases[*s_.phrase_at[t]];
      if (p.fate == Fate::figure || p.value <= 0) continue;
      const double grams = mass / amount / p.value;  // 1 or 1e-3, whichever the coherent unit of mass makes it
      if (std::abs(grams - 1) < 0.01 || std::abs(grams * 1000 - 1) < 0.01) s_.figures[i].molar_mass = p.value;
    }
  }

  void correct(std::size_t i) {
    for (std::size_t k = i; k-- > 0;) {
      if (distance(k, i) > 26) break;
      if (s_.figures[k].corrected_by || !same_kind(k, i)) continue;
      if (!base_[k] || !base_[i] || *base_[k] == *base_[i]) continue;
      const double ratio = *base_[k] == 0 ? 0 : *base_[i] / *base_[k];
      if (ratio < 0.02 || ratio > 50) continue;
      if (!same_matter(k, i) && is_portion(phrase(i).kind) && s_.figures[i].mention != nullptr &&
          s_.figures[k].mention != nullptr)
        continue;
      if (!marked_slip(k, i)) continue;
      s_.figures[k].corrected_by = i;
      if (!s_.figures[i].attached_to) s_.figures[i].attached_to = s_.figures[k].attached_to;
      // What said the slip again goes with it.
      break;
    }
  }

  /// Words that say "the same, put differently".
  bool equated(std::size_t a, std::size_t b) const {
    constexpr WordSet links{"that's", "which", "so",    "or",    "is",    "it's", "equals", "that",
                            "ie",     "comes", "works", "means", "makes", "was",  "=",      "are"};
    const std::size_t from = phrase(a).last;
    const std::size_t until = phrase(b).first;
    if (until < from || until - from > 24) return false;
    std::size_t stops = 0;
    bool link = until - from <= 2;
    for (std::size_t t = from; t < until; ++t) {
      const std::string_view w = s_.word(t);
      if (w == "." || w == "!" || w == "?") ++stops;
      link = link || links.has(w);
    }
    return link && stops <= 1;
  }

  /// Mass and volume of one portion of anything but a gas: not lighter than foam, not heavier than osmium; and a mass
  /// is never that of the volume of solution it went into.
  bool plausible_density(std::size_t mass, std::size_t volume) const {
    if (phrase(mass).kind != Kind::mass || phrase(volume).kind != Kind::volume) return true;
    if (!base_[mass] || !base_[volume] || *base_[volume] == 0) return true;
    const double density = *base_[mass] / *base_[volume];  // g/m3 or kg/m3, as the coherent units are
    return density > 200 && density < 23000;
  }
  bool dissolved(std::size_t i) const { return std::string_view(s_.figures[i].subject).ends_with(" solution"); }

  void repeat(std::size_t i) {
    if (s_.figures[i].same_as) return;
    const Kind kind = phrase(i).kind;
    if (kind == Kind::count || kind == Kind::fraction || kind == Kind::percent_other || kind == Kind::percent_yield ||
        kind == Kind::density)
      return;
    if (const auto exact = said_exactly(i)) {
      s_.figures[i].same_as = first_of(*exact);
      return;
    }
    for (std::size_t k = i; k-- > 0;) {
      const std::size_t far = distance(k, i);
      if (far > reach_of(kind)) break;
      if (s_.figures[k].corrected_by) continue;
      const bool said_before =
          same_kind(k, i) && phrase(k).unit == phrase(i).unit && close(k, i, 1e-9) && is_echo(k, i);
      if (said_before) {
        s_.figures[i].same_as = first_of(k);
        return;
      }
      const bool pointed_at = s_.word_before(phrase(i).first) == "the" && same_kind(k, i) &&
                              phrase(k).unit == phrase(i).unit && close(k, i, 1e-9) && is_portion(kind);
      if (pointed_at || is_same_sample(k, i)) {
        s_.figures[i].same_as = first_of(k);
        return;
      }
    }
  }

  /// The figure of the same matter with the very same number, when the number is telling.
  std::optional<std::size_t> said_exactly(std::size_t i) const {
    const Kind kind = phrase(i).kind;
    const bool portion = kind == Kind::mass || kind == Kind::volume || kind == Kind::amount;
    if (!portion || !phrase(i).number.decimal || s_.figures[i].role == model::Role::product) return std::nullopt;
    for (std::size_t k = i; k-- > 0 && distance(k, i) <= reach_of(kind);) {
      if (s_.figures[k].corrected_by || !same_kind(k, i) || phrase(k).unit != phrase(i).unit) continue;
      if (!close(k, i, 1e-9) || !same_matter(k, i) || new_portion(k, i) || expected_and_obtained(k, i)) continue;
      return k;
    }
    return std::nullopt;
  }

  /// What was expected and what was obtained are two, even when they come out alike.
  bool expected_and_obtained(std::size_t k, std::size_t i) const {
    using model::Role;
    const auto out = [](Role r) { return r == Role::product || r == Role::recovered; };
    const Role a = s_.figures[k].role;
    const Role b = s_.figures[i].role;
    return (out(a) && b == Role::stated_result) || (out(b) && a == Role::stated_result);
  }

  /// The same number said again with the same meaning: it was recognised by that, or names its matter once more.
  bool is_echo(std::size_t k, std::size_t i) const {
    if (expected_and_obtained(k, i)) return false;
    const std::string_view rule = phrase(i).rule;
    if (rule == "said before with its unit" || std::string_view(s_.figures[i].subject_rule) == "the amount said before")
      return true;
    const Kind kind = phrase(i).kind;
    if (kind == Kind::mass && s_.figures[k].subject.empty() && s_.figures[i].subject.empty())
      return distance(k, i) < 12;
    const bool telling = phrase(i).number.decimal && (kind == Kind::mass || kind == Kind::amount);
    return telling && same_matter(k, i) && !new_portion(k, i) && s_.figures[i].role != model::Role::product;
  }

  static std::size_t reach_of(Kind kind) {
    if (kind == Kind::mass || kind == Kind::amount) return 900;
    if (kind == Kind::volume) return 160;
    return kind == Kind::current || kind == Kind::voltage || kind == Kind::duration || kind == Kind::molar_concentration
               ? 260
               : 60;
  }

  bool is_same_sample(std::size_t k, std::size_t i) const {
    const Kind a = phrase(k).kind;
    const Kind b = phrase(i).kind;
    const bool portions = is_portion(a) && is_portion(b);
    const bool refers = b == Kind::amount && a != b && said_of_the(i) && distance(k, i) < 150;
    if (is_portion(b) && distance(k, i) > 60 && !refers) return false;
    if (refers && distance(k, i) > 60) return same_matter(k, i) && only_portion_of_its_matter(k, i);
    if (portions && a != b) return other_unit(k, i);
    if (a != b) return false;
    const std::size_t far = distance(k, i);
    if (phrase(k).upper || phrase(i).upper) return false;
    if (portions) {
      if (!same_matter(k, i)) return false;
      // Said again: the same value near by, or a target and the weighing that meets it.
      if (phrase(k).unit != phrase(i).unit && close(k, i, 0.03)) return equated(k, i);
      if (close(k, i, 1e-6)) return (equated(k, i) || far < 14 || negated_between(k, i)) && !new_portion(k, i);
      using model::Role;
      const bool outcome = s_.figures[i].role == Role::product || s_.figures[i].role == Role::recovered;
      if (outcome && s_.figures[k].role == Role::stated_result) return false;  // expected and obtained
      const bool target =
          s_.phrase_of(s_.figures[k]).hedge == model::Hedge::about ||
          word_between(k, i, WordSet{"need", "want", "aim", "target", "aiming"}) ||
          s_.find_before(phrase(k).first,
                         WordSet{"need", "want", "aim", "aiming", "target", "about", "weighing", "call", "calls"}, 6);
      return target && close(k, i, 0.06) && equated(k, i) && !new_portion(k, i);
    }
    if (a == Kind::temperature) {
      if (phrase(k).unit != phrase(i).unit)
        return far < 30 && base_[k] && base_[i] && std::abs(*base_[k] - *base_[i]) < 1.6;
      return close(k, i, 1e-9) && far < 16 && equated(k, i);
    }
    if (a == Kind::current || a == Kind::voltage) return close(k, i, 1e-6);
    if (a == Kind::duration) return same_interval(k, i);
    if (a == Kind::molar_concentration) {
      if (!close(k, i, 1e-6) || !same_matter(k, i)) return false;
      return equated(k, i) || s_.find_before(phrase(i).first, WordSet{"had", "was", "remember", "same"}, 4).has_value();
    }
    if (a == Kind::length) return phrase(k).unit != phrase(i).unit && close(k, i, 0.13) && far < 20 && equated(k, i);
    if (a == Kind::pressure) return close(k, i, 0.02) && far < 30 && phrase(k).unit != phrase(i).unit;
    return false;
  }

  /// "The oil is only about one mole": said of what was measured before.
  bool said_of_the(std::size_t i) const {
    const Mention* m = s_.figures[i].mention;
    return m != nullptr && m->last <= phrase(i).first && phrase(i).first - m->last < 7 &&
           s_.word_before(m->first) == "the" && s_.same_sentence(m->first, phrase(i).first);
  }
  bool only_portion_of_its_matter(std::size_t k, std::size_t i) const {
    for (std::size_t m = 0; m < i; ++m) {
      if (m != k && is_portion(phrase(m).kind) && same_matter(m, k) && first_of(m) != first_of(k)) return false;
    }
    return true;
  }

  bool negated_between(std::size_t k, std::size_t i) const { return word_between(k, i, WordSet{"not"}); }

  bool new_portion(std::size_t k, std::size_t i) const {
    constexpr WordSet anew{"another", "more", "second", "again", "next", "other", "right"};
    const auto word = s_.find_before(phrase(i).first, anew, 8);
    return word && *word >= phrase(k).last;
  }

  bool same_interval(std::size_t k, std::size_t i) const {
    if (!close(k, i, 1e-6)) return false;
    const std::size_t far = distance(k, i);
    if (s_.find_before(phrase(i).first, WordSet{"its", "those", "full"}, 2)) return true;  // "it's had its 25 minutes"
    if (word_between(k, i, WordSet{"another", "more"}) && far < 20) return false;
    if (phrase(k).unit != phrase(i).unit) return true;  // an hour and sixty minutes are not alike by chance
    if (s_.word(phrase(i).last) == "later" || s_.word(phrase(i).last) == "on" ||
        s_.find_before(phrase(i).first, WordSet{"that", "that's", "those", "after"}, 3))
      return far < 90;
    if (equated(k, i) && far < 20) return true;
    // "two amps for half an hour is ...": said again to compute with.
    constexpr WordSet computing{"amp", "amps", "milliamps", "volts", "coulombs", "times"};
    return s_.find_before(phrase(i).first, computing, 4).has_value() ||
           s_.find_after(phrase(i).last, computing, 5).has_value();
  }

  /// Mass, volume and moles of one portion.
  bool other_unit(std::size_t k, std::size_t i) const {
    const std::size_t gap = phrase(i).first - phrase(k).last;
    if (word_between(k, i, WordSet{"would", "could"}) && gap > 3) return false;
    const auto out = [](model::Role r) { return r == model::Role::product || r == model::Role::recovered; };
    if (out(s_.figures[k].role) && s_.figures[i].role == model::Role::stated_result && gap > 6) return false;
    // "5.60 grams of steel wool, so that's 0.100 moles": right behind and put so, it is the same whatever it was
    // called.
    const bool unnamed = !std::string_view(s_.figures[i].subject_rule).starts_with("named behind");
    const bool right_behind = i == k + 1 && gap < 16 && unnamed && equated(k, i) && phrase(i).kind != Kind::volume &&
                              !word_between(k, i,
                                            WordSet{"should", "need", "expect", "get", "getting", "gives", "give",
                                                    "takes", "makes", "got", "add"}) &&
                              s_.figures[i].role != model::Role::product;
    const Mention* before = s_.figures[k].mention;
    const bool solvent = before != nullptr && (before->water || before->solvent);
    if (!same_matter(k, i) && !(right_behind && !solvent && phrase(i).kind == Kind::amount)) return false;
    // "0.5 moles of it" names its matter anew: only what is put right behind is the same.
    if (!unnamed && (gap > 14 || !equated(k, i))) return false;
    const Kind a = phrase(k).kind;
    const Kind b = phrase(i).kind;
    if (a == Kind::equivalents && b != Kind::amount) return false;
    if (a == Kind::amount && b == Kind::volume) return false;  // so much of a solution is another portion
    using model::Role;
    const Role ra = s_.figures[k].role;
    const Role rb = s_.figures[i].role;
    if ((rb == Role::product || rb == Role::recovered || rb == Role::remainder) && ra != rb) return false;
    if (ra == Role::other && rb != Role::other && a != Kind::density) return false;
    const std::size_t mass = phrase(k).kind == Kind::mass ? k : i;
    const std::size_t volume = phrase(k).kind == Kind::mass ? i : k;
    if (!plausible_density(mass, volume)) return false;
    if (phrase(mass).kind == Kind::mass && phrase(volume).kind == Kind::volume && dissolved(volume) &&
        !by_density(k, i))
      return false;
    if (in_moles(i) && same_matter(k, i) && distance(k, i) < 45) return true;
    if (by_density(k, i)) return true;
    // Another figure of the same kind in between is a new portion.
    for (std::size_t m = k + 1; m < i; ++m) {
      if (phrase(m).kind == a && same_matter(m, k) && s_.figures[m].same_as != std::optional(first_of(k))) return false;
    }
    if (s_.word(phrase(i).last) == "of" && !equated(k, i)) return false;
    if (a == Kind::volume && b == Kind::mass && i == k + 1 && word_between(k, i, WordSet{"weigh", "weighs", "weighed"}))
      return true;
    const bool gas = (a == Kind::amount && b == Kind::gas_volume) || (a == Kind::gas_volume && b == Kind::amount);
    if (gas && gap < 14) return true;
    if (a == Kind::amount && b == Kind::mass && i == k + 1 && gap < 14 && rb != Role::product) return true;
    const bool measured = ra == Role::measured_out || ra == Role::added || ra == Role::solvent;
    return equated(k, i) || (measured && distance(k, i) < 34 && (b == Kind::amount || b == Kind::equivalents));
  }

  /// "in moles that's ...": the portion just spoken of, in moles.
  bool in_moles(std::size_t i) const {
    if (phrase(i).kind != Kind::amount) return false;
    const auto moles = s_.find_before(phrase(i).first, WordSet{"moles"}, 9);
    return moles && s_.word_before(*moles) == "in";
  }

  /// "45 mL of it. ... The density is 1.84, so that's 82.8 grams".
  bool by_density(std::size_t k, std::size_t i) const {
    if (phrase(k).kind != Kind::volume || phrase(i).kind != Kind::mass || distance(k, i) > 60) return false;
    for (std::size_t m = k + 1; m < i; ++m) {
      if (phrase(m).kind == Kind::density) return same_matter(m, i) && phrase(i).first - phrase(m).last < 10;
    }
    return false;
  }

  void attach(std::size_t i) {
    const Kind kind = phrase(i).kind;
    if (is_strength(kind)) return attach_strength(i);
    if (kind == Kind::density) return attach_to_portion(i, 40);
    if (kind == Kind::percent_yield) return attach_yield(i);
    if (kind == Kind::percent_other) return attach_loss(i);
    if (kind == Kind::mass || kind == Kind::volume) return attach_each(i);
  }

  void attach_strength(std::size_t i) {
    if (s_.figures[i].same_as) return;
    if (phrase(i).kind == Kind::molar_concentration && s_.figures[i].role == model::Role::stated_result) {
      // "3.16 grams in a litre, so it ought to be 0.02 molar": still of what was just made.
      const bool just_made = i >= 2 && s_.figures[i - 1].subject == "water" && distance(i - 1, i) < 14 &&
                             phrase(i - 1).kind == Kind::volume && same_matter(i - 2, i) && distance(i - 2, i) < 24;
      if (just_made) s_.figures[i].attached_to = i - 1;
      return;
    }
    if (s_.act_before(phrase(i).first, Acts(Act::hearsay), 8)) return;
    const auto fits = [&](std::size_t k) {
      const Kind kind = phrase(k).kind;
      return (kind == Kind::volume || kind == Kind::mass) && !s_.figures[k].corrected_by;
    };
    // Right before or behind, in the same sentence and about the same matter.
    for (const std::size_t k : {i - 1, i + 1}) {
      if (k >= s_.figures.size() || !fits(k) || !same_matter(k, i)) continue;
      const bool beside =
          s_.same_sentence(phrase(k).first, phrase(i).first) && (k > i ? distance(i, k) : distance(k, i)) < 16;
      if (beside || (k < i && distance(k, i) < 12)) {
        s_.figures[i].attached_to = k;
        return;
      }
    }
    // What is in the burette: its volume is read later.
    if (s_.find_in_sentence(phrase(i).first, WordSet{"burette", "buret"})) {
      for (std::size_t k = i + 1; k < s_.figures.size() && distance(i, k) < 220; ++k) {
        if (phrase(k).kind == Kind::volume && same_matter(k, i) && s_.figures[k].role == model::Role::added) {
          s_.figures[i].attached_to = k;
          return;
        }
      }
      return;
    }
    // The strength of what was just made: of the solution, or of the solvent that was measured. One that is expected or
    // found by titration belongs to no portion.
    if (s_.figures[i].role == model::Role::stated_result || phrase(i).kind != Kind::molar_concentration) return;
    for (std::size_t k = i; k-- > 0;) {
      if (distance(k, i) > 45) return;
      if (is_strength(phrase(k).kind) && same_matter(k, i)) return;  // the strength of that volume was given already
      if (!fits(k) || phrase(k).kind != Kind::volume || phrase(k).unit == "[drp]") continue;
      const bool solvent = s_.figures[k].mention != nullptr && s_.figures[k].mention->water;
      // Made up in a solvent only when the solute was measured.
      bool solute = false;
      for (std::size_t m = i; m-- > 0 && solvent && distance(m, i) < 70 && !solute;) {
        solute = (phrase(m).kind == Kind::mass || phrase(m).kind == Kind::amount) && same_matter(m, i);
      }
      if (same_matter(k, i) || (solvent && solute)) {
        s_.figures[i].attached_to = k;
        return;
      }
    }
  }

  /// A loss in percent is one of what was there before it; other percents belong to the last portion.
  void attach_loss(std::size_t i) {
    if (i > 0 && phrase(i - 1).kind == Kind::mass && distance(i - 1, i) < 24) {
      for (std::size_t k = i - 1; k-- > 0 && distance(k, i) < 160;) {
        if (!makes_percent(i - 1, k, i) || s_.figures[i - 1].role != model::Role::other) continue;
        s_.figures[i].attached_to = first_of(k);
        return;
      }
    }
    attach_to_portion(i, 80);
  }

  void attach_to_portion(std::size_t i, std::size_t reach) {
    for (std::size_t k = i; k-- > 0;) {
      if (distance(k, i) > reach) return;
      const Kind kind = phrase(k).kind;
      if ((kind == Kind::volume || kind == Kind::mass) && same_matter(k, i) && !s_.figures[k].corrected_by) {
        s_.figures[i].attached_to = first_of(k);
        return;
      }
    }
  }

  /// Whether figure `a` is so many percent of figure `b` as figure `i` says.
  bool makes_percent(std::size_t a, std::size_t b, std::size_t i) const {
    if (!same_kind(a, b) || !is_portion(phrase(a).kind) || !base_[a] || !base_[b] || *base_[b] == 0) return false;
    if (s_.figures[a].subject.empty() || s_.figures[b].subject.empty()) return false;  // vessels
    if (s_.figures[a].same_as == std::optional(b)) return false;
    return std::abs(*base_[a] / *base_[b] * 100 - phrase(i).value) < 0.012 * phrase(i).value;
  }

  void attach_yield(std::size_t i) {
    using model::Role;
    std::optional<std::size_t> any;
    // What the percent was worked out from tells which figure was obtained; one that was itself only worked out, last.
    for (const bool worked_out : {false, true}) {
      for (std::size_t a = i; a-- > 0 && distance(a, i) < 90;) {
        for (std::size_t b = i; b-- > 0 && distance(b, i) < 90;) {
          if (a == b || s_.figures[i].role == Role::other || !makes_percent(a, b, i)) continue;
          if ((s_.figures[a].role == Role::stated_result) != worked_out) continue;
          s_.figures[i].attached_to = a;
          return;
        }
      }
    }
    for (std::size_t k = i; k-- > 0;) {
      if (distance(k, i) > 120) break;
      const Kind kind = phrase(k).kind;
      if (kind != Kind::mass && kind != Kind::gas_volume && kind != Kind::volume && kind != Kind::amount) continue;
      if (s_.figures[i].role == Role::other) return;
      const Role role = s_.figures[k].role;
      if (role == Role::product || role == Role::recovered) {
        s_.figures[i].attached_to = k;
        return;
      }
      if (!any && role != Role::stated_result && role != Role::other && same_matter(k, i)) any = k;
    }
    if (any) s_.figures[i].attached_to = any;
  }

  /// "three portions of 5 mL", "nine bars at 78 grams each".
  void attach_each(std::size_t i) {
    const Phrase& p = phrase(i);
    for (std::size_t k = i; k-- > 0;) {
      if (phrase(k).kind != Kind::count || distance(k, i) > 12) continue;
      if (!s_.figures[i].sum_of.empty() || s_.find_before(p.first, WordSet{"would", "makes", "so", "total"}, 3)) return;
      if (!s_.same_sentence(phrase(k).first, p.first)) break;
      if (p.first - phrase(k).last <= 8) s_.figures[i].attached_to = k;
      return;
    }
    const bool each = s_.word(p.last) == "each" || s_.word(p.last) == "apiece";
    if (!each) return;
    for (std::size_t k = i + 1; k < s_.figures.size() && distance(i, k) < 40; ++k) {
      if (phrase(k).kind == Kind::count) {
        s_.figures[i].attached_to = k;
        return;
      }
    }
  }

  void share(std::size_t i) {
    if (phrase(i).kind != Kind::fraction) return;
    for (std::size_t k = i; k-- > 0;) {
      const Kind kind = phrase(k).kind;
      if (kind != Kind::mass && kind != Kind::volume) continue;
      if (s_.figures[k].corrected_by || s_.figures[k].role == model::Role::other) continue;
      // Prefer the product over what was said about theory.
      if (s_.figures[k].role == model::Role::stated_result && s_.figures[k].sum_of.empty()) continue;
      s_.figures[i].fraction_of = first_of(k);
      break;
    }
    // "half of this, so 2 grams"
    if (i + 1 < s_.figures.size() && (phrase(i + 1).kind == Kind::mass || phrase(i + 1).kind == Kind::volume) &&
        distance(i, i + 1) < 8) {
      s_.figures[i + 1].same_as = i;
      s_.figures[i + 1].subject = s_.figures[i].subject;
      s_.figures[i + 1].mention = s_.figures[i].mention;
      s_.figures[i + 1].role = s_.figures[i].role;
    }
  }

  void sum(std::size_t i) {
    const Kind kind = phrase(i).kind;
    if ((kind != Kind::mass && kind != Kind::volume) || !base_[i] || s_.figures[i].same_as) return;
    constexpr WordSet totals{"have", "now",    "altogether", "total", "makes", "together", "combined", "sum", "so",
                             "in",   "scales", "at",         "got",   "be",    "final",    "without",  "of"};
    const bool cue = s_.find_before(phrase(i).first, totals, 6) || s_.find_after(phrase(i).last, totals, 5);
    if (!cue) return;
    if (count_times_each(i)) return;
    if (s_.find_before(phrase(i).first, WordSet{"expect", "most", "should", "theoretical", "theory", "maximum"}, 6))
      return;
    if (phrase(i).hedge != model::Hedge::exact && phrase(i).hedge != model::Hedge::about) return;
    // Addends said just before, of the same dimension, that add up.
    std::vector<std::size_t> addends;
    for (std::size_t k = i; k-- > 0 && addends.size() < 8;) {
      if (distance(k, i) > 900) break;
      if (phrase(k).kind != kind || !base_[k] || s_.figures[k].corrected_by) continue;
      if (s_.figures[k].same_as && phrase(*s_.figures[k].same_as).kind == kind) continue;  // counted already
      if (s_.figures[k].role == model::Role::other || phrase(k).unit == "[drp]") continue;
      if (s_.figures[k].role == model::Role::stated_result && s_.figures[k].sum_of.empty()) continue;
      addends.push_back(k);
    }
    constexpr WordSet joining{"pour", "poured", "pouring", "mix", "mixed", "combine", "combined", "together"};
    bool joined = false;
    for (std::size_t t = phrase(i).first; t-- > 0 && phrase(i).first - t < 40 && kind == Kind::volume && !joined;)
      joined = joining.has(s_.word(t));
    const bool strong =
        joined || s_.find_before(phrase(i).first, WordSet{"total", "altogether", "together", "combined", "makes"}, 6) ||
        s_.find_after(phrase(i).last, WordSet{"altogether", "total", "together", "at", "in"}, 5);
    std::vector<std::size_t> best;
    const double whole = *base_[i];
    const std::size_t n = std::min<std::size_t>(addends.size(), 6);
    double best_score = 1e9;
    for (unsigned mask = 1; mask < (1u << n); ++mask) {
      double total = 0;
      std::size_t terms = 0;
      std::size_t furthest = 0;
      for (std::size_t b = 0; b < n; ++b) {
        if ((mask >> b & 1u) == 0) continue;
        total += *base_[addends[b]];
        ++terms;
        furthest = std::max(furthest, b);
      }
      if (terms < 2 || std::abs(total - whole) > 0.004 * whole) continue;
      const double score = static_cast<double>(furthest * 2 + terms) + std::abs(total - whole) / whole * 100;
      if (score < best_score) {
        best_score = score;
        best.clear();
        for (std::size_t b = 0; b < n; ++b) {
          if (mask >> b & 1u) best.push_back(addends[b]);
        }
      }
    }
    if (best.empty()) return;
    // Three or more addends, or a spoken total: two that happen to add up are not enough.
    const std::string_view subject = s_.figures[i].subject;
    const bool mixture =
        subject == "reaction mixture" || s_.figures[i].mention == nullptr || s_.figures[i].mention->mixture;
    const bool near_by = distance(best.back(), i) < 120;
    if (best.size() < 3 && !(strong || mixture || !near_by)) return;
    if (best.size() < 3 && !strong && !mixture) return;
    const auto restates = [&] {
      return s_.find_before(phrase(i).first, WordSet{"weighed", "add", "adding", "pour"}, 4).has_value();
    };
    if (restates()) return;
    std::sort(best.begin(), best.end());
    s_.figures[i].sum_of = best;
    s_.figures[i].role = model::Role::stated_result;
  }

  bool count_times_each(std::size_t i) {
    for (std::size_t k = i; k-- > 0;) {
      if (distance(k, i) > 60) return false;
      if (phrase(k).kind != Kind::count) continue;
      for (std::size_t each = i; each-- > 0;) {
        if (phrase(each).kind != phrase(i).kind || s_.figures[each].attached_to != k || !base_[each]) continue;
        if (std::abs(*base_[each] * phrase(k).value - *base_[i]) > 0.05 * *base_[i]) continue;
        if (each != i - 1 && k != i - 1) continue;
        if (!same_matter(each, i) && s_.word(phrase(i).last) == "of") continue;
        s_.figures[i].sum_of = each < k ? std::vector{each, k} : std::vector{k, each};
        s_.figures[i].count_times_each = true;
        s_.figures[i].role = model::Role::stated_result;
        return true;
      }
    }
    return false;
  }

  Scene& s_;
  std::vector<std::optional<double>> base_;
};

}  // namespace

void tie_figures(Scene& scene) { Tier(scene).run(); }

}  // namespace sash::narration
