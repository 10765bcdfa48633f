#pragma once
// How figures hang together: the same sample said again, a slip corrected, a strength and its volume, a share, a sum.
// One class in three files: restatements and corrections (ties.cpp), what qualifies what (attachments.cpp), shares and
// sums (sums.cpp). Private to tie_figures.

#include <cmath>
#include <optional>
#include <string_view>
#include <vector>

#include "narration/inner/matter.h"
#include "narration/inner/scene.h"
#include "narration/inner/tie_weigher.h"

namespace sash::narration {

class Tier {
 public:
  explicit Tier(Scene& s);
  void run();

 private:
  const Phrase& phrase(std::size_t i) const { return s_.phrase_of(s_.figures[i]); }
  std::size_t distance(std::size_t earlier, std::size_t later) const {
    return phrase(later).first - phrase(earlier).first;
  }
  /// Value in coherent units; nothing for ranges and units nobody knows.
  static std::optional<double> base_of(const Phrase& p);
  bool close(std::size_t a, std::size_t b, double tolerance) const {
    if (!base_[a] || !base_[b]) return false;
    return std::abs(*base_[a] - *base_[b]) <= tolerance * std::max(std::abs(*base_[a]), std::abs(*base_[b]));
  }
  bool same_matter(std::size_t a, std::size_t b) const;
  bool same_kind(std::size_t a, std::size_t b) const { return phrase(a).kind == phrase(b).kind; }
  /// The first that stands of the sample figure `i` belongs to.
  std::size_t first_of(std::size_t i) const { return s_.figures[i].same_as.value_or(i); }
  bool word_between(std::size_t a, std::size_t b, const auto& words) const {
    for (std::size_t t = phrase(a).last; t < phrase(b).first; ++t) {
      if (words.has(s_.word(t))) return true;
    }
    return false;
  }
  bool dissolved(std::size_t i) const { return std::string_view(s_.figures[i].subject).ends_with(" solution"); }
  bool negated_between(std::size_t k, std::size_t i) const { return word_between(k, i, WordSet{"not"}); }

  bool marked_slip(std::size_t a, std::size_t b) const;
  /// "9.33 millimoles, times 63.5 gives 592 milligrams": the number between an amount and its mass that turns one into
  /// the other.
  void note_molar_mass(std::size_t i);
  void correct(std::size_t i);
  /// Words that say "the same, put differently".
  bool equated(std::size_t a, std::size_t b) const;
  /// Mass and volume of one portion of anything but a gas: not lighter than foam, not heavier than osmium; and a mass
  /// is never that of the volume of solution it went into.
  bool plausible_density(std::size_t mass, std::size_t volume) const;
  void repeat(std::size_t i);
  /// The figure of the same matter with the very same number, when the number is telling.
  std::optional<std::size_t> said_exactly(std::size_t i) const;
  /// What was expected and what was obtained are two, even when they come out alike.
  bool expected_and_obtained(std::size_t k, std::size_t i) const;
  /// The same number said again with the same meaning: it was recognised by that, or names its matter once more.
  bool is_echo(std::size_t k, std::size_t i) const;
  static std::size_t reach_of(quantity::Kind kind);
  bool is_same_sample(std::size_t k, std::size_t i) const;
  /// "The oil is only about one mole": said of what was measured before.
  bool said_of_the(std::size_t i) const;
  bool only_portion_of_its_matter(std::size_t k, std::size_t i) const;
  bool new_portion(std::size_t k, std::size_t i) const;
  bool same_interval(std::size_t k, std::size_t i) const;
  /// Mass, volume and moles of one portion.
  bool other_unit(std::size_t k, std::size_t i) const;
  /// "in moles that's ...": the portion just spoken of, in moles.
  bool in_moles(std::size_t i) const;
  /// "45 mL of it. ... The density is 1.84, so that's 82.8 grams".
  bool by_density(std::size_t k, std::size_t i) const;
  void attach(std::size_t i);
  void attach_strength(std::size_t i);
  /// A loss in percent is one of what was there before it; other percents belong to the last portion.
  void attach_loss(std::size_t i);
  void attach_to_portion(std::size_t i, std::size_t reach);
  /// Whether figure `a` is so many percent of figure `b` as figure `i` says.
  bool makes_percent(std::size_t a, std::size_t b, std::size_t i) const;
  void attach_yield(std::size_t i);
  /// "three portions of 5 mL", "nine bars at 78 grams each".
  void attach_each(std::size_t i);
  void share(std::size_t i);
  void sum(std::size_t i);
  bool count_times_each(std::size_t i);

  Scene& s_;
  TieWeigher weigher_;
  std::vector<std::optional<double>> base_;  ///< per figure: value in coherent units
};

}  // namespace sash::narration
