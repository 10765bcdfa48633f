#include "narration/inner/tier.h"

#include <algorithm>
#include <cmath>

#include "quantity/unit.h"

namespace sash::narration {

using quantity::Kind;

std::optional<double> Tier::base_of(const Phrase& p) {
  if (p.upper) return std::nullopt;
  if (p.unit == "Cel") return p.kind == Kind::temperature ? p.value + 273.15 : p.value;
  if (p.unit == "[degF]") return p.kind == Kind::temperature ? (p.value + 459.67) * 5 / 9 : p.value * 5 / 9;
  const auto unit = quantity::Unit::parse(p.unit);
  if (!unit) return std::nullopt;
  return unit->to_si(p.value);
}

bool Tier::same_matter(std::size_t a, std::size_t b) const {
  const std::string_view x = bare(s_.figures[a].subject);
  const std::string_view y = bare(s_.figures[b].subject);
  return !x.empty() && x == y && x != "reaction mixture";
}

Tier::Tier(Scene& s) : s_(s), weigher_(s) {
  base_.reserve(s.figures.size());
  for (const Draft& d : s.figures) base_.push_back(base_of(s.phrase_of(d)));
}

void Tier::run() {
  for (std::size_t i = 0; i < s_.figures.size(); ++i) {
    correct(i);
    repeat(i);
    s_.figures[i].same_as = weigher_.same_sample(i, s_.figures[i].same_as);
    note_molar_mass(i);
    attach(i);
    share(i);
    sum(i);
  }
}

bool Tier::marked_slip(std::size_t a, std::size_t b) const {
  constexpr WordSet marks{"sorry", "oops", "correction", "whoops", "scratch", "misread", "wrong", "naw", "nah", "nope"};
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
    constexpr WordSet pausing{",", ".", "-", "\u2014", "grams", "uh", "um", "er", "oh", "actually", "wait"};
    const bool pause = pausing.has(before) || t == phrase(a).last;
    if (w == "no" && (pause || s_.word(t + 1) == "wait" || s_.word(t + 1) == "hang" || s_.word(t + 1) == "hold" ||
                      s_.word(t + 1) == ",")) {
      return s_.word(t + 1) != "more" && s_.word(t + 1) != "less" && !s_.mention_at[std::min(t + 1, s_.size() - 1)];
    }
    if (w == "wait" && (pause || before == "no")) return true;
    if (w == "mean" && before == "i") return true;
    if (w == "make" && s_.word(t + 1) == "that") return true;
    if ((w == "hang" || w == "hold") && s_.word(t + 1) == "on") return true;
    if (w == "actually" && pause) return true;
    if (w == "rather" && before == "or") return true;
  }
  return false;
}

void Tier::note_molar_mass(std::size_t i) {
  if (i == 0 || !s_.figures[i].same_as) return;
  const Kind kind = phrase(i).kind;
  const std::size_t k = i - 1;
  const bool pair =
      (kind == Kind::mass && phrase(k).kind == Kind::amount) || (kind == Kind::amount && phrase(k).kind == Kind::mass);
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

void Tier::correct(std::size_t i) {
  for (std::size_t k = i; k-- > 0;) {
    if (distance(k, i) > 26) break;
    if (s_.figures[k].corrected_by || !same_kind(k, i)) continue;
    if (!base_[k] || !base_[i] || *base_[k] == *base_[i]) continue;
    const double ratio = *base_[k] == 0 ? 0 : *base_[i] / *base_[k];
    if (ratio < 0.02 || ratio > 50) continue;
    const bool at_once = phrase(i).first - phrase(k).last < 6;  // whatever it was said of, it was taken back
    if (!at_once && !same_matter(k, i) && is_portion(phrase(i).kind) && s_.figures[i].mention != nullptr &&
        s_.figures[k].mention != nullptr)
      continue;
    if (!marked_slip(k, i)) continue;
    s_.figures[k].corrected_by = i;
    if (!s_.figures[i].attached_to) s_.figures[i].attached_to = s_.figures[k].attached_to;
    // What said the slip again goes with it.
    break;
  }
}

bool Tier::equated(std::size_t a, std::size_t b) const {
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

bool Tier::plausible_density(std::size_t mass, std::size_t volume) const {
  if (phrase(mass).kind != Kind::mass || phrase(volume).kind != Kind::volume) return true;
  if (!base_[mass] || !base_[volume] || *base_[volume] == 0) return true;
  const double density = *base_[mass] / *base_[volume];  // g/m3 or kg/m3, as the coherent units are
  return density > 200 && density < 23000;
}

void Tier::repeat(std::size_t i) {
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
    const bool said_before = same_kind(k, i) && phrase(k).unit == phrase(i).unit && close(k, i, 1e-9) && is_echo(k, i);
    if (said_before) {
      s_.figures[i].same_as = first_of(k);
      return;
    }
    const bool pointed_at = WordSet{"the", "whole", "full", "original"}.has(s_.word_before(phrase(i).first)) &&
                            same_kind(k, i) && phrase(k).unit == phrase(i).unit && close(k, i, 1e-9) &&
                            is_portion(kind);
    if (pointed_at || is_same_sample(k, i)) {
      s_.figures[i].same_as = first_of(k);
      return;
    }
  }
}

std::optional<std::size_t> Tier::said_exactly(std::size_t i) const {
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

bool Tier::expected_and_obtained(std::size_t k, std::size_t i) const {
  using model::Role;
  const auto out = [](Role r) { return r == Role::product || r == Role::recovered; };
  const Role a = s_.figures[k].role;
  const Role b = s_.figures[i].role;
  return (out(a) && b == Role::stated_result) || (out(b) && a == Role::stated_result);
}

bool Tier::is_echo(std::size_t k, std::size_t i) const {
  if (expected_and_obtained(k, i)) return false;
  const std::string_view rule = phrase(i).rule;
  if (rule == "said before with its unit" || std::string_view(s_.figures[i].subject_rule) == "the amount said before")
    return true;
  const Kind kind = phrase(i).kind;
  if (kind == Kind::mass && s_.figures[k].subject.empty() && s_.figures[i].subject.empty()) return distance(k, i) < 12;
  const bool telling = phrase(i).number.decimal && (kind == Kind::mass || kind == Kind::amount);
  return telling && same_matter(k, i) && !new_portion(k, i) && s_.figures[i].role != model::Role::product;
}

std::size_t Tier::reach_of(Kind kind) {
  if (kind == Kind::mass || kind == Kind::amount) return 900;
  if (kind == Kind::volume) return 160;
  return kind == Kind::current || kind == Kind::voltage || kind == Kind::duration || kind == Kind::molar_concentration
             ? 260
             : 60;
}

bool Tier::is_same_sample(std::size_t k, std::size_t i) const {
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

bool Tier::said_of_the(std::size_t i) const {
  const Mention* m = s_.figures[i].mention;
  return m != nullptr && m->last <= phrase(i).first && phrase(i).first - m->last < 7 &&
         s_.word_before(m->first) == "the" && s_.same_sentence(m->first, phrase(i).first);
}

bool Tier::only_portion_of_its_matter(std::size_t k, std::size_t i) const {
  for (std::size_t m = 0; m < i; ++m) {
    if (m != k && is_portion(phrase(m).kind) && same_matter(m, k) && first_of(m) != first_of(k)) return false;
  }
  return true;
}

bool Tier::new_portion(std::size_t k, std::size_t i) const {
  constexpr WordSet anew{"another", "more", "second", "again", "next", "other", "right"};
  const auto word = s_.find_before(phrase(i).first, anew, 8);
  return word && *word >= phrase(k).last;
}

bool Tier::same_interval(std::size_t k, std::size_t i) const {
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

bool Tier::other_unit(std::size_t k, std::size_t i) const {
  const std::size_t gap = phrase(i).first - phrase(k).last;
  if (by_density(k, i)) return true;
  if (phrase(k).kind == Kind::volume && phrase(i).kind == Kind::mass && i == k + 1 && gap < 12 && !dissolved(k) &&
      word_between(k, i, WordSet{"weigh", "weighs", "weighed"}))
    return true;
  if (s_.figures[k].subject == "water" && phrase(i).kind == Kind::amount && phrase(k).kind == Kind::volume)
    return false;
  const bool gas_turned = phrase(k).kind == Kind::amount && phrase(i).kind == Kind::gas_volume && same_matter(k, i);
  if (gas_turned && gap < 32 && word_between(k, i, WordSet{"works", "is", "that's", "makes", "so", "comes"}) &&
      !expected_and_obtained(k, i) && s_.figures[i].role != model::Role::product)
    return true;
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
  if (phrase(mass).kind == Kind::mass && phrase(volume).kind == Kind::volume && dissolved(volume) && !by_density(k, i))
    return false;
  if (in_moles(i) && same_matter(k, i) && distance(k, i) < 45) return true;
  if (by_density(k, i)) return true;
  // Another figure of the same kind in between is a new portion.
  for (std::size_t m = k + 1; m < i; ++m) {
    if (phrase(m).kind == a && same_matter(m, k) && s_.figures[m].same_as != std::optional(first_of(k))) return false;
  }
  if (s_.word(phrase(i).last) == "of" && !equated(k, i)) return false;
  const bool gas = (a == Kind::amount && b == Kind::gas_volume) || (a == Kind::gas_volume && b == Kind::amount);
  if (gas && gap < 14) return true;
  if (a == Kind::amount && b == Kind::mass && i == k + 1 && gap < 14 && rb != Role::product) return true;
  const bool measured = ra == Role::measured_out || ra == Role::added || ra == Role::solvent;
  return equated(k, i) || (measured && distance(k, i) < 34 && (b == Kind::amount || b == Kind::equivalents));
}

bool Tier::in_moles(std::size_t i) const {
  if (phrase(i).kind != Kind::amount) return false;
  const auto moles = s_.find_before(phrase(i).first, WordSet{"moles"}, 9);
  return moles && s_.word_before(*moles) == "in";
}

bool Tier::by_density(std::size_t k, std::size_t i) const {
  if (phrase(k).kind != Kind::volume || phrase(i).kind != Kind::mass || distance(k, i) > 60) return false;
  for (std::size_t m = k + 1; m < i; ++m) {
    if (phrase(m).kind == Kind::density) return same_matter(m, i) && phrase(i).first - phrase(m).last < 10;
  }
  return false;
}

void tie_figures(Scene& scene) { Tier(scene).run(); }

}  // namespace sash::narration
