#include "narration/inner/yields.h"

#include <algorithm>

namespace sash::narration {

namespace {

using model::RelationType;
using model::Role;
using quantity::Kind;

class Yields {
 public:
  Yields(const Ledger& told, Wirings& to) : told_(told), to_(to) {}

  void run() {
    for (std::size_t i = 0; i < told_.size(); ++i) {
      if (!told_.stands(i) || told_.role(i) == Role::other) continue;
      const Kind k = told_.kind(i);
      if (k == Kind::percent_yield || k == Kind::percent_other) against_theory(i);
      if (k == Kind::percent_yield) of_the_steps(i);
    }
  }

 private:
  bool is_portion(std::size_t k) const {
    return told_.kind(k) == Kind::mass || told_.kind(k) == Kind::amount || told_.kind(k) == Kind::gas_volume ||
           told_.kind(k) == Kind::volume;
  }

  /// "A mole of it weighs ...": what a conversion goes by.
  bool is_one_mole(std::size_t k) const { return told_.kind(k) == Kind::amount && told_[k].reading.value == 1; }

  void against_theory(std::size_t i) {
    constexpr std::size_t reach = 60;
    constexpr std::size_t ahead = 3;
    std::vector<std::size_t> near = told_.before(i, reach, reach, [&](std::size_t k) { return is_portion(k); });
    for (std::size_t k = i + 1; k < told_.size() && k <= i + ahead; ++k) {
      if (told_.stands(k) && is_portion(k)) near.push_back(k);
    }
    for (const std::size_t actual : near) {
      for (const std::size_t whole : near) {
        if (actual == whole || told_.kind(actual) != told_.kind(whole) || told_.one_sample(actual, whole)) continue;
        if (is_one_mole(actual) || is_one_mole(whole)) continue;
        offer(i, actual, whole, near);
      }
    }
  }

  void offer(std::size_t i, std::size_t actual, std::size_t whole, const std::vector<std::size_t>& near) {
    if (!could_be(i, actual, whole)) return;
    if (told_.kind(i) != Kind::percent_yield && !(in_one_breath(i, actual, whole) && said_to_be_expected(whole)))
      return;
    const bool volumes = told_.kind(actual) == Kind::gas_volume || told_.kind(actual) == Kind::volume;
    SpokenRelation r;
    r.label = told_[i].subject;
    r.rule = "obtained against expected";
    if (volumes) {
      r.type = RelationType::share;
      r.terms = {{"part", actual, ""}, {"whole", whole, ""}, {"fraction", i, ""}};
    } else {
      r.type = RelationType::yield;
      r.terms = {{"actual", actual, ""}, {"theoretical", whole, ""}, {"percent", i, ""}};
    }
    to_.offer(i, ground_of(i, actual, whole, near), told_.sized(actual) / told_.sized(whole), std::move(r));
  }

  /// The last two portions of one sort before the percentage, whatever they are taken for: "3.40 grams, and it would be
  /// 4.53, which makes it 75 per cent".
  bool in_one_breath(std::size_t percent, std::size_t actual, std::size_t whole) const {
    constexpr std::size_t reach = 6;
    if (actual > percent || whole > percent || told_.sized(whole).value <= told_.sized(actual).value) return false;
    const auto last =
        told_.before(percent, reach, 2, [&](std::size_t k) { return told_.kind(k) == told_.kind(whole); });
    const auto has = [&](std::size_t k) { return std::find(last.begin(), last.end(), k) != last.end(); };
    for (std::size_t k = std::max(actual, whole) + 1; k < percent; ++k) {
      if (told_.stands(k) && told_[k].reading.unit == "%") return false;  // that one compares them
    }
    return has(actual) && has(whole) && told_.sentences_between(std::min(actual, whole), percent) <= 3 &&
           !told_.matter(actual).empty();
  }

  bool said_to_be_expected(std::size_t whole) const {
    constexpr std::string_view words[] = {"theor", "should",  "would",   "could", "expect", "possible",
                                          "maxim", "perfect", "at most", "ideal", "at best"};
    return std::any_of(std::begin(words), std::end(words),
                       [&](std::string_view word) { return told_.sentence_has(whole, word); });
  }

  /// Among many figures some two have any ratio: only what was obtained, of one matter, is tried.
  bool could_be(std::size_t percent, std::size_t actual, std::size_t whole) const {
    if (in_one_breath(percent, actual, whole) && said_to_be_expected(whole)) return true;
    const auto to = told_[percent].attached_to;
    const bool tied = to && told_.stands(*to) && told_.one_sample(*to, actual);
    const bool got = told_.role(actual) == Role::product || told_.role(actual) == Role::recovered;
    const bool pooled = !told_[actual].sum_of.empty() && told_.same_matter(actual, percent);
    const bool last = told_.role(actual) == Role::stated_result && nearest_figure(actual, percent);
    if (!tied && !pooled && !(last && told_.same_matter(actual, percent)) &&
        !(got && told_.may_be_same_matter(actual, percent)))
      return false;
    return told_.may_be_same_matter(actual, whole) || (expected(whole) && nearest_figure(whole, percent));
  }
  bool nearest_figure(std::size_t a, std::size_t b) const { return (a > b ? a - b : b - a) <= 3; }

  /// How well the words bear it out that `percent` is `actual` of `whole`.
  double ground_of(std::size_t percent, std::size_t actual, std::size_t whole,
                   const std::vector<std::size_t>& near) const {
    const auto to = told_[percent].attached_to;
    const bool tied = to && told_.stands(*to) && told_.one_sample(*to, actual);
    const bool got = told_.role(actual) == Role::product || told_.role(actual) == Role::recovered;
    const bool same = told_.same_matter(actual, whole);
    if (in_one_breath(percent, actual, whole)) {
      if (said_to_be_expected(whole)) return told_.may_be_same_matter(actual, whole) ? ground::firm : ground::fair;
      if (same && (tied || got)) return ground::fair;
    }
    if (!tied || !same)
      return tied && told_.may_be_same_matter(actual, whole) && expected(whole) && nearest(whole, actual, percent, near)
                 ? ground::fair
                 : ground::loose;
    if (expected(whole)) {
      if (!got && told_.role(actual) != Role::stated_result) return ground::loose;
      return nearest(whole, actual, percent, near) ? ground::firm : ground::weak;
    }
    // Kept of what there was: of what was measured out or obtained last.
    if (whole > actual || told_.sized(whole).value < told_.sized(actual).value) return ground::loose;
    const auto last = told_.before(actual, actual, 1, [&](std::size_t k) {
      return told_.kind(k) == told_.kind(actual) && told_.same_matter(k, actual) && !told_.one_sample(k, actual) &&
             told_.role(k) != Role::stated_result && told_.role(k) != Role::other &&
             told_.sized(k).value >= told_.sized(actual).value;
    });
    const bool kept =
        !last.empty() && told_.one_sample(last.front(), whole) && (got || told_.role(whole) == Role::product);
    return kept ? ground::fair - 0.01 : ground::loose;
  }

  bool expected(std::size_t k) const { return told_.role(k) == Role::stated_result && told_[k].sum_of.empty(); }

  /// Whether no other expected amount of that sort stands between.
  bool nearest(std::size_t whole, std::size_t actual, std::size_t percent, const std::vector<std::size_t>& near) const {
    const auto apart = [&](std::size_t k) { return k > percent ? k - percent : percent - k; };
    return std::none_of(near.begin(), near.end(), [&](std::size_t k) {
      return k != whole && k != actual && told_.kind(k) == told_.kind(whole) && expected(k) &&
             told_.same_matter(k, actual) && apart(k) < apart(whole) && !told_.one_sample(k, whole);
    });
  }

  /// Two steps after one another.
  void of_the_steps(std::size_t i) {
    const auto steps = told_.before(i, 40, 4, [&](std::size_t k) { return told_.kind(k) == Kind::percent_yield; });
    const bool overall = told_.sentence_has(i, "overall") || told_.sentence_has(i, "both steps") ||
                         told_.sentence_has(i, "two steps") || told_.sentence_has(i, "all in all");
    for (std::size_t a = 0; a < steps.size(); ++a) {
      for (std::size_t b = a + 1; b < steps.size(); ++b) {
        to_.offer(i, overall && steps.size() == 2 ? ground::firm : ground::loose,
                  told_.sized(steps[a]) * told_.sized(steps[b]),
                  {RelationType::share,
                   {{"whole", steps[b], ""}, {"fraction", steps[a], ""}, {"part", i, ""}},
                   {},
                   told_[i].subject,
                   "the yields of two steps after one another"});
      }
    }
  }

  const Ledger& told_;
  Wirings& to_;
};

}  // namespace

void wire_yields(const Ledger& told, Wirings& to) { Yields(told, to).run(); }

}  // namespace sash::narration
