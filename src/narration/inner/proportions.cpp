#include "narration/inner/proportions.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace sash::narration {

namespace {

using model::RelationType;
using model::Role;
using quantity::Kind;

class Proportions {
 public:
  Proportions(const Ledger& told, Wirings& to) : told_(told), to_(to) {}

  void run() {
    for (std::size_t i = 0; i < told_.size(); ++i) {
      if (!told_.stands(i)) continue;
      const Kind k = told_.kind(i);
      if (k == Kind::amount || k == Kind::mass) in_the_whole(i);
      if (k == Kind::percent_other) excess(i);
      if (k == Kind::amount || k == Kind::mass || k == Kind::volume) {
        on_top(i);
        each(i);
      }
      if (k == Kind::fraction) fraction(i);
      if (k == Kind::power) power(i);
      mean(i);
    }
  }

 private:
  bool has_any(std::size_t i, std::span<const std::string_view> words) const {
    return std::any_of(words.begin(), words.end(), [&](std::string_view word) { return told_.sentence_has(i, word); });
  }
  bool calculated(std::size_t i) const { return told_.role(i) == Role::stated_result || told_.role(i) == Role::other; }
  bool alike(std::size_t a, std::size_t b) const { return told_.kind(a) == told_.kind(b); }
  bool near(std::size_t a, std::size_t b, int sentences) const { return told_.sentences_between(a, b) <= sentences; }

  /// What was found in an aliquot, times the flask over the aliquot: "1.65 millimoles in ten mils, so 16.5 in the
  /// flask".
  void in_the_whole(std::size_t i) {
    constexpr std::string_view whole[] = {"whole", "all of", "all the", "in all ", "flask", "total",    "bottle",
                                          "glass", "batch",  "altoget", "entire",  "times", "scale it", "jar"};
    constexpr std::size_t reach = 8;
    if (!calculated(i) || told_[i].same_sample_as || !told_[i].sum_of.empty()) return;
    const auto parts = told_.before(i, reach, 2, [&](std::size_t k) {
      return alike(i, k) && told_.same_matter(i, k) && !told_.one_sample(i, k) && calculated(k);
    });
    for (const std::size_t part : parts) {
      const auto volumes = told_.before(i, 40, 10, [&](std::size_t k) {
        const Role role = told_.role(k);
        const bool titrant = role == Role::added || role == Role::solvent;
        return told_.kind(k) == Kind::volume && !titrant && !told_[k].same_sample_as;
      });
      bool first = part == parts.front() && has_any(i, whole) && near(part, i, 3);
      for (std::size_t a = 0; a < volumes.size(); ++a) {
        for (std::size_t b = 0; b < volumes.size(); ++b) {
          const std::size_t taken = volumes[a];
          const std::size_t all = volumes[b];
          if (told_.sized(taken).value >= told_.sized(all).value || !told_.may_be_same_matter(taken, all)) continue;
          const bool plain = first && told_.same_matter(taken, all);
          if (plain) first = false;
          to_.offer(i, plain ? ground::fair : ground::loose, told_.sized(part) * told_.sized(all) / told_.sized(taken),
                    {RelationType::share,
                     {{"part", part, ""}, {"taken", taken, ""}, {"taken_of", all, ""}, {"whole", i, ""}},
                     {},
                     told_[i].subject,
                     "what is in all of it, by the portion"});
        }
      }
    }
  }

  static constexpr std::string_view excess_words_[] = {"excess", "more than", "too much", "surplus",
                                                       "extra",  "on top",    "over the", "to spare"};

  /// What is there beyond what is needed, in percent of what is needed.
  void excess(std::size_t i) {
    constexpr std::size_t reach = 8;
    if (!has_any(i, excess_words_)) return;
    for (const Kind kind : {Kind::amount, Kind::mass}) {
      const auto said = told_.before(i, reach, 4, [&](std::size_t k) { return told_.kind(k) == kind; });
      for (std::size_t a = 0; a < said.size(); ++a) {
        for (std::size_t b = a + 1; b < said.size(); ++b) {
          std::size_t more = said[a];
          std::size_t less = said[b];
          if (told_.sized(more).value < told_.sized(less).value) std::swap(more, less);
          if (told_.one_sample(more, less) || told_.sized(more).value == told_.sized(less).value) continue;
          if (kind == Kind::mass && !told_.same_matter(more, less)) continue;
          const bool plain = a == 0 && b == 1 && kind == Kind::amount && near(i, less, 3) && near(i, more, 3) &&
                             !told_.matter(more).empty() && !told_.matter(less).empty() && !fits_a_ratio(i, more, less);
          to_.offer(i, plain ? ground::fair : ground::loose,
                    (told_.sized(more) - told_.sized(less)) / told_.sized(less),
                    {RelationType::share,
                     {{"whole", less, ""}, {"increased", more, ""}, {"fraction", i, ""}},
                     {},
                     told_[i].subject,
                     "an excess over what is needed"});
        }
      }
    }
  }

  /// Whether it is the excess of one over the other where so many moles of one take so many of the other.
  bool fits_a_ratio(std::size_t i, std::size_t a, std::size_t b) const {
    constexpr double ratios[] = {1.0 / 4, 1.0 / 3, 1.0 / 2, 2, 3, 4};
    if (told_.same_matter(a, b)) return false;
    return std::any_of(std::begin(ratios), std::end(ratios), [&](double ratio) {
      const Sized needed = scaled(told_.sized(b), ratio);
      return told_.agrees(i, (told_.sized(a) - needed) / needed) ||
             told_.agrees(i, (needed - told_.sized(a)) / told_.sized(a));
    });
  }

  /// "10.6 grams, with ten percent on top 11.7."
  void on_top(std::size_t i) {
    constexpr std::size_t reach = 4;
    const auto percents =
        told_.before(i, reach, 1, [&](std::size_t k) { return told_.kind(k) == Kind::percent_other; });
    if (percents.empty()) return;
    const std::size_t percent = percents.front();
    if (!has_any(i, excess_words_) && !has_any(percent, excess_words_) && !told_.said_close(percent, " more")) return;
    const auto wholes = told_.before(i, reach + 2, 2, [&](std::size_t k) {
      return alike(i, k) && told_.same_matter(i, k) && !told_.one_sample(i, k);
    });
    for (const std::size_t whole : wholes) {
      if (told_.sized(whole).value > told_.sized(i).value) continue;
      const Sized gives = told_.sized(whole) * (Sized{1, 0} + told_.sized(percent));
      to_.offer(i, whole == wholes.front() && near(whole, i, 2) ? ground::fair : ground::loose, gives,
                {RelationType::share,
                 {{"whole", whole, ""}, {"fraction", percent, ""}, {"increased", i, ""}},
                 {},
                 told_[i].subject,
                 "so many percent on top"});
    }
  }

  /// "Five tablets weigh 6.55 grams, so 1.31 each."
  void each(std::size_t i) {
    constexpr std::string_view words[] = {"each", "apiece", "a piece", "per ", "every", "one of", "single", "average"};
    constexpr std::size_t reach = 5;
    if (!told_[i].sum_of.empty() || !has_any(i, words)) return;
    const auto counts = told_.before(i, reach, 1, [&](std::size_t k) { return told_.kind(k) == Kind::count; });
    const auto wholes =
        told_.before(i, reach, 1, [&](std::size_t k) { return alike(i, k) && !told_.one_sample(i, k); });
    if (counts.empty() || wholes.empty() || told_.sized(wholes.front()).value <= told_.sized(i).value) return;
    const std::size_t count = counts.front();
    const std::size_t whole = wholes.front();
    const bool of_things = told_[count].text.find("time") == std::string::npos &&
                           told_[count].text.find("twice") == std::string::npos;  // not "three times"
    const bool plain = calculated(i) && of_things && near(count, i, 2) && near(whole, i, 2) &&
                       !told_.matter(i).empty() && told_.same_matter(whole, i);
    to_.offer(i, plain ? ground::fair : ground::loose, told_.sized(whole) / told_.sized(count),
              {RelationType::count_each,
               {{"count", count, ""}, {"each", i, ""}, {"whole", whole, ""}},
               {},
               told_[i].subject,
               "one of so many"});
  }

  /// "25 of the hundred mils: a quarter."
  void fraction(std::size_t i) {
    constexpr std::size_t reach = 6;
    if (!told_[i].fraction_of) return;
    const auto said = told_.before(i, reach, 4, [&](std::size_t k) {
      return (told_.kind(k) == Kind::volume || told_.kind(k) == Kind::mass) && told_.role(k) != Role::solvent;
    });
    for (const std::size_t part : said) {
      for (const std::size_t whole : said) {
        if (!alike(part, whole) || !told_.same_matter(part, whole) || told_.one_sample(part, whole)) continue;
        if (told_.sized(part).value >= told_.sized(whole).value) continue;
        const bool of_it = told_.stands(*told_[i].fraction_of) && told_.one_sample(*told_[i].fraction_of, whole);
        to_.offer(i, of_it && part == said.front() && near(part, i, 1) ? ground::fair : ground::loose,
                  told_.sized(part) / told_.sized(whole),
                  {RelationType::share,
                   {{"part", part, ""}, {"whole", whole, ""}, {"fraction", i, ""}},
                   {},
                   told_[i].subject,
                   "a share of what there is"});
      }
    }
  }

  void power(std::size_t i) {
    constexpr std::size_t reach = 8;
    const auto last = [&](Kind kind) {
      return told_.before(i, reach, 1, [&](std::size_t k) { return told_.kind(k) == kind; });
    };
    const auto currents = last(Kind::current);
    const auto voltages = last(Kind::voltage);
    if (currents.empty() || voltages.empty()) return;
    const std::size_t current = currents.front();
    const std::size_t voltage = voltages.front();
    const bool plain = near(current, i, 2) && near(voltage, i, 2);
    to_.offer(i, plain ? ground::firm : ground::loose, told_.sized(voltage) * told_.sized(current),
              {RelationType::electrolysis,
               {{"voltage", voltage, ""}, {"current", current, ""}, {"power", i, ""}},
               {},
               told_[i].subject,
               "volts times amperes"});
  }

  /// Of the readings of its kind just before that lie close to each other.
  void mean(std::size_t i) {
    constexpr std::string_view words[] = {"average", "averag",   "mean,",  "mean of",
                                          "mean is", "the mean", "a mean", "split the diff"};
    constexpr std::size_t reach = 8;
    constexpr double scatter = 0.1;
    if (std::none_of(std::begin(words), std::end(words),
                     [&](std::string_view word) { return told_.leads_to(i, word); }))
      return;
    const auto close = [&](std::size_t a, std::size_t b) {
      // By what the scale of a thermometer shows, not by the distance from absolute zero.
      const double x = told_[a].reading.value;
      const double y = told_[b].reading.value;
      return told_[a].reading.unit == told_[b].reading.unit && std::abs(x - y) <= scatter * std::abs(x);
    };
    const auto readings =
        told_.before(i, reach, 5, [&](std::size_t k) { return alike(i, k) && !told_.one_sample(i, k); });
    std::vector<SpokenTerm> terms;
    Sized sum;
    std::size_t last = i;
    for (const std::size_t k : readings) {
      if (!close(readings.front(), k)) break;
      terms.push_back({"part", k, ""});
      sum = sum + told_.sized(k);
      last = k;
    }
    for (; terms.size() >= 2; sum = sum - told_.sized(terms.back().figure), terms.pop_back()) {
      std::vector<SpokenTerm> all = terms;
      all.push_back({"mean", i, ""});
      const bool plain = terms.back().figure == last && near(last, i, 3);
      Sized gives = scaled(sum, 1.0 / static_cast<double>(terms.size()));
      to_.offer(i, plain ? ground::fair : ground::loose, gives,
                {RelationType::total, std::move(all), {}, told_[i].subject, "the mean of readings"});
    }
  }

  const Ledger& told_;
  Wirings& to_;
};

}  // namespace

void wire_proportions(const Ledger& told, Wirings& to) { Proportions(told, to).run(); }

}  // namespace sash::narration
