#include "narration/inner/arithmetic.h"

#include <algorithm>

namespace sash::narration {

namespace {

using model::RelationType;
using model::Role;
using quantity::Kind;

class Arithmetic {
 public:
  Arithmetic(const Ledger& told, Wirings& to) : told_(told), to_(to) {}

  void run() {
    for (std::size_t i = 0; i < told_.size(); ++i) {
      if (!told_.stands(i)) continue;
      sum(i);
      difference(i);
      warmed(i);
      fraction(i);
      loss(i);
      percent_of(i);
      purity(i);
      how_many(i);
    }
  }

 private:
  bool alike(std::size_t a, std::size_t b) const {
    const auto sort = [](Kind k) { return k == Kind::gas_volume ? Kind::volume : k; };
    return sort(told_.kind(a)) == sort(told_.kind(b));
  }
  bool adds_up(std::size_t i) const {
    const Kind k = told_.kind(i);
    return k == Kind::mass || k == Kind::volume || k == Kind::gas_volume || k == Kind::amount || k == Kind::duration ||
           k == Kind::length;
  }
  /// Something that was arrived at, not chosen.
  bool arrived_at(std::size_t i) const {
    const Role r = told_.role(i);
    return r == Role::stated_result || r == Role::remainder || r == Role::product || r == Role::recovered;
  }

  void sum(std::size_t i) {
    const SpokenFigure& f = told_[i];
    if (f.sum_of.empty() || std::any_of(f.sum_of.begin(), f.sum_of.end(), [&](auto k) { return !told_.stands(k); }))
      return;
    if (f.count_times_each) return count_each(i);
    if (std::any_of(f.sum_of.begin(), f.sum_of.end(), [&](auto k) { return !alike(i, k); })) return;
    std::vector<SpokenTerm> terms;
    Sized gives;
    for (const std::size_t k : f.sum_of) {
      terms.push_back({"part", k, told_[k].subject});
      gives = gives + told_.sized(k);
    }
    terms.push_back({"whole", i, ""});
    to_.offer(i, ground::firm, gives, {RelationType::total, std::move(terms), {}, f.subject, "a sum"});
    other_sums(i);
  }

  /// What else may have been added up: the figures of that sort just before, two of them or more.
  void other_sums(std::size_t i) {
    constexpr std::size_t reach = 12;
    constexpr std::size_t most = 6;
    const auto parts = told_.before(i, reach, most, [&](std::size_t k) {
      return alike(i, k) && !told_.one_sample(i, k) && told_[k].sum_of.empty();
    });
    Sized gives;
    std::vector<SpokenTerm> terms;
    for (const std::size_t k : parts) {
      gives = gives + told_.sized(k);
      terms.push_back({"part", k, told_[k].subject});
      if (terms.size() < 2) continue;
      std::vector<SpokenTerm> all = terms;
      all.push_back({"whole", i, ""});
      to_.offer(i, ground::faint, gives, {RelationType::total, std::move(all), {}, told_[i].subject, "a sum"});
    }
  }

  void count_each(std::size_t i) {
    std::vector<SpokenTerm> terms;
    Sized gives{1, 0};
    for (const std::size_t k : told_[i].sum_of) {
      if (told_.kind(k) != Kind::count && !alike(i, k)) return;
      terms.push_back({told_.kind(k) == Kind::count ? "count" : "each", k, ""});
      gives = gives * told_.sized(k);
    }
    terms.push_back({"whole", i, ""});
    to_.offer(i, ground::firm, gives,
              {RelationType::count_each, std::move(terms), {}, told_[i].subject, "so many of so much"});
  }

  /// The rest, the net weight, the loss: one figure less another of its sort. Either operand may be the larger one.
  void difference(std::size_t i) {
    constexpr std::size_t reach = 30;
    constexpr std::size_t most = 9;
    const bool result = arrived_at(i) || told_.role(i) == Role::other ||
                        (told_.kind(i) == Kind::volume && told_.role(i) == Role::added) ||
                        (told_.kind(i) == Kind::mass && told_.role(i) == Role::measured_out);
    if (!adds_up(i) || !result || !told_[i].sum_of.empty()) return;
    const auto before =
        told_.before(i, reach, most, [&](std::size_t k) { return alike(i, k) && !told_.one_sample(i, k); });
    const auto plain = plain_difference(i, before);
    for (std::size_t a = 0; a < before.size(); ++a) {
      for (std::size_t b = a + 1; b < before.size(); ++b) {
        std::size_t more = before[b];
        std::size_t less = before[a];
        if (told_.sized(less).value > told_.sized(more).value) std::swap(more, less);
        const Sized gives = told_.sized(more) - told_.sized(less);
        const bool is_plain = plain && plain->first == more && plain->second == less;
        if (told_.one_sample(more, less) || gives.value <= 0) continue;
        if (!is_plain && (!told_.may_be_same_matter(more, less) ||
                          !(told_.may_be_same_matter(i, more) || told_.may_be_same_matter(i, less))))
          continue;
        to_.offer(i, is_plain ? told_.matter(more).empty() ? ground::firm : ground::fair : ground::faint, gives,
                  {RelationType::total,
                   {{"part", more, ""}, {"less", less, ""}, {"whole", i, ""}},
                   {},
                   told_[i].subject,
                   "what is left of one when the other is taken away"});
      }
    }
  }

  /// The larger and the smaller one that the words make `i` the difference of; `before` are the figures of its sort,
  /// the nearest first.
  std::optional<std::pair<std::size_t, std::size_t>> plain_difference(std::size_t i,
                                                                      const std::vector<std::size_t>& before) const {
    if (told_.matter(i).empty()) return std::nullopt;
    const auto value = [&](std::size_t k) { return told_.sized(k).value; };
    const auto calculated = [&](std::size_t k) { return told_.role(k) == Role::stated_result; };
    // Gross and tare: the last two weighings of a vessel.
    if (told_.kind(i) == Kind::mass && !calculated(i)) {
      std::vector<std::size_t> vessels;
      for (const std::size_t k : before) {
        if (told_.matter(k).empty() && told_.role(k) == Role::other) vessels.push_back(k);
      }
      constexpr std::size_t reach = 6;
      const bool near = vessels.size() >= 2 && i - vessels[0] <= reach && told_.sentences_between(vessels[0], i) <= 3;
      const bool heavier = near && std::max(value(vessels[0]), value(vessels[1])) > value(i);
      if (heavier && value(vessels[0]) != value(vessels[1]) && !known_already(vessels[0], vessels[1], i)) {
        const bool filled = value(vessels[0]) > value(vessels[1]);
        return std::pair{vessels[filled ? 0 : 1], vessels[filled ? 1 : 0]};
      }
    }
    if (told_.role(i) == Role::measured_out) return std::nullopt;
    if (const auto pair = last_two(i, before)) return pair;
    // Burette readings, the last two.
    const auto reading = [&](std::size_t k) { return told_.kind(k) == Kind::volume && told_.role(k) == Role::other; };
    if (told_.kind(i) == Kind::volume && before.size() >= 2 && reading(before[0]) && reading(before[1]) &&
        told_.sentences_between(before[1], i) <= 2 && told_.same_matter(before[0], before[1]) &&
        value(before[0]) > value(before[1]))
      return std::pair{before[0], before[1]};
    // What was taken, lost or left was said last; the whole is the last larger one of the matter before it.
    std::vector<std::size_t> smaller;
    for (const std::size_t k : before) {
      const bool taken = told_.role(i) == Role::remainder && !calculated(k);
      const bool lost = told_.role(i) == Role::product && told_.role(k) == Role::other;
      const bool left = told_.role(i) == Role::other && told_.role(k) == Role::remainder;
      if (told_.same_matter(i, k) && (taken || lost || left)) smaller.push_back(k);
    }
    if (told_.role(i) == Role::remainder && !before.empty() && !calculated(before.front()) &&
        told_.kind(i) != Kind::amount)
      smaller.push_back(before.front());  // "900 of water, 680 of tea: 220 of water stay in the leaves"
    for (const std::size_t less : smaller) {
      const bool loss = told_.role(i) == Role::product;
      const auto more = std::find_if(before.begin(), before.end(), [&](std::size_t k) {
        return k < less && !calculated(k) && told_.same_matter(i, k) && value(k) > value(less) && value(k) > value(i) &&
               (!loss || told_.role(k) == Role::product);
      });
      if (more != before.end() && !known_already(*more, less, i)) return std::pair{*more, less};
    }
    return std::nullopt;
  }

  /// "40 less 16.5, that's 23.5"; "the key was 8.412, now it's 8.604, so 192 milligrams went on".
  std::optional<std::pair<std::size_t, std::size_t>> last_two(std::size_t i,
                                                              const std::vector<std::size_t>& before) const {
    constexpr std::string_view words[] = {"minus", "less",      "lost",    "loss",   "lose", "gone",
                                          "used",  "take away", "differ",  "subtra", "gain", "missin",
                                          "eaten", "reacted",   "heavier", "lighter"};
    constexpr std::size_t reach = 5;
    if (before.size() < 2 || i - before[0] > reach) return std::nullopt;
    const std::size_t near = before[0];
    const auto other = std::find_if(before.begin() + 1, before.end(), [&](std::size_t k) {
      return told_.same_matter(k, near) && !told_.one_sample(k, near) &&
             told_.sized(k).value != told_.sized(near).value;
    });
    if (other == before.end()) return std::nullopt;
    const bool larger_first = told_.sized(*other).value > told_.sized(near).value;
    const std::size_t more = larger_first ? *other : near;
    const std::size_t less = larger_first ? near : *other;
    if (told_.sized(i).value >= told_.sized(more).value || told_.sentences_between(near, i) > 2) return std::nullopt;
    const bool said = std::any_of(std::begin(words), std::end(words),
                                  [&](std::string_view word) { return told_.sentence_has(i, word); });
    // Of other matter: two weighings of one thing, and what came on or off.
    const bool of_it = told_.same_matter(i, near) && i - *other <= reach;
    const bool weighed_twice = told_.kind(i) == Kind::mass && !told_.same_matter(i, near) &&
                               told_.role(near) != Role::stated_result && told_.role(*other) != Role::stated_result;
    if (!said || !(of_it || weighed_twice) || known_already(more, less, i)) return std::nullopt;
    return std::pair{more, less};
  }

  /// Whether a figure between is that difference: the weighings have served.
  bool known_already(std::size_t a, std::size_t b, std::size_t i) const {
    const Sized difference = told_.sized(a) - told_.sized(b);
    for (std::size_t k = std::max(a, b) + 1; k < i; ++k) {
      const bool taken = told_.role(k) == Role::measured_out || told_.role(k) == Role::added;
      if (told_.stands(k) && alike(k, i) && !taken &&
          told_.agrees(k, scaled(difference, difference.value < 0 ? -1 : 1)))
        return true;
    }
    return false;
  }

  /// How much warmer or colder, or how warm after it.
  void warmed(std::size_t i) {
    const bool change = told_.kind(i) == Kind::temperature_change;
    if (!change && told_.kind(i) != Kind::temperature) return;
    constexpr std::size_t reach = 10;
    const auto temperatures = [&](std::size_t from) {
      return told_.before(from, reach, 4, [&](std::size_t k) { return told_.kind(k) == Kind::temperature; });
    };
    if (change) {
      std::vector<std::size_t> t = temperatures(i);
      if (i + 1 < told_.size() && told_.stands(i + 1) && told_.kind(i + 1) == Kind::temperature) t.push_back(i + 1);
      for (std::size_t a = 0; a < t.size(); ++a) {
        for (std::size_t b = a + 1; b < t.size(); ++b) {
          std::size_t more = t[a];
          std::size_t less = t[b];
          if (told_.sized(less).value > told_.sized(more).value) std::swap(more, less);
          const bool close = told_.sentences_between(i, t[a]) <= 1 &&
                             (told_.sentences_between(i, t[b]) <= 3 || told_.same_matter(t[a], t[b]) || t.size() == 2);
          const bool plain = a == 0 && b == 1 && close && told_[more].reading.unit == told_[less].reading.unit &&
                             told_.role(i) == Role::stated_result && told_.may_be_same_matter(more, less);
          to_.offer(i, plain ? ground::fair : ground::loose, told_.sized(more) - told_.sized(less),
                    {RelationType::total,
                     {{"part", more, ""}, {"less", less, ""}, {"whole", i, ""}},
                     {},
                     told_[i].subject,
                     "how much warmer one temperature is than the other"});
        }
      }
    }
  }

  /// "Half of that, so 50 mils."
  void fraction(std::size_t i) {
    const SpokenFigure& f = told_[i];
    if (f.kind != Kind::fraction || !f.fraction_of || !told_.stands(*f.fraction_of)) return;
    constexpr std::size_t ahead = 3;
    const std::size_t whole = *f.fraction_of;
    for (std::size_t k = i + 1; k < told_.size() && k <= i + ahead; ++k) {
      if (!told_.stands(k) || !alike(k, whole)) continue;
      const bool its = told_.one_sample(k, i);
      if (!its && !told_.may_be_same_matter(k, whole)) continue;
      to_.offer(k, its ? ground::fair : ground::loose, told_.sized(whole) * told_.sized(i),
                {RelationType::share,
                 {{"whole", whole, ""}, {"fraction", i, ""}, {"part", k, ""}},
                 {},
                 told_[k].subject,
                 "a share of what was measured"});
    }
  }

  /// A percentage that was lost, taken off or kept: of what there was before, or what it left.
  void loss(std::size_t i) {
    const Kind k = told_.kind(i);
    if (k != Kind::percent_other) return;
    constexpr std::size_t around = 10;
    std::vector<std::size_t> near = told_.before(i, around, 8, [&](std::size_t f) { return adds_up(f); });
    for (std::size_t f = i + 1; f < told_.size() && f <= i + 2; ++f) {
      if (told_.stands(f) && adds_up(f)) near.push_back(f);
    }
    for (const std::size_t whole : near) {
      for (const std::size_t other : near) {
        if (whole == other || !alike(whole, other) || whole > other || told_.one_sample(whole, other)) continue;
        if (told_.sized(other).value >= told_.sized(whole).value || !told_.may_be_same_matter(whole, other)) continue;
        const std::size_t last = std::max(i, other);
        const bool left = told_[i].attached_to && told_.one_sample(*told_[i].attached_to, other) &&
                          told_.same_matter(whole, other) && told_.role(other) != Role::other &&
                          told_.role(other) != Role::stated_result && !larger_between(whole, other);
        const Sized kept = told_.sized(other) / told_.sized(whole);
        const Sized lost = Sized{1, 0} - told_.sized(i);
        const auto offer = [&](const char* slot, double grounds, const Sized& share, const char* rule) {
          to_.offer(last, grounds, last == i ? share : told_.sized(whole) * (*slot == 'r' ? lost : told_.sized(i)),
                    {RelationType::share,
                     {{"whole", whole, ""}, {slot, other, ""}, {"fraction", i, ""}},
                     {},
                     told_[other].subject,
                     rule});
        };
        const double said = told_.sized(i).value;
        const bool nearer = std::abs(1 - kept.value - said) < std::abs(kept.value - said);
        offer("rest", left && nearer ? ground::fair : ground::loose, Sized{1, 0} - kept,
              "what a loss in percent leaves");
        offer("part", ground::loose, kept, "a percentage of what there was");
      }
    }
  }

  /// Whether another figure that could be the whole stands between.
  bool larger_between(std::size_t whole, std::size_t part) const {
    for (std::size_t k = whole + 1; k < part; ++k) {
      if (told_.stands(k) && alike(k, part) && told_.same_matter(k, part) && !told_.one_sample(k, whole) &&
          told_.role(k) != Role::stated_result && told_.sized(k).value > told_.sized(part).value)
        return true;
    }
    return false;
  }

  /// "Three per cent of a hundred grams would be three grams": what is in a mixture.
  void percent_of(std::size_t i) {
    if (told_.kind(i) != Kind::mass && told_.kind(i) != Kind::volume) return;
    constexpr std::size_t reach = 8;
    if (told_.role(i) != Role::stated_result && told_.role(i) != Role::other) return;
    const Sample& sample = told_.sample_of(i);
    if (!sample.strengths.empty() || !told_[i].sum_of.empty()) return;  // a solution itself
    const auto percents = told_.before(i, reach, 3, [&](std::size_t k) {
      return told_.kind(k) == (told_.kind(i) == Kind::mass ? Kind::mass_percent : Kind::volume_percent);
    });
    for (const std::size_t p : percents) {
      if (!told_.may_be_same_matter(i, p)) continue;
      const auto wholes =
          told_.before(i, 3 * reach, 6, [&](std::size_t k) { return alike(i, k) && !told_.matter(k).empty(); });
      for (const std::size_t whole : wholes) {
        const bool its = told_[p].attached_to && told_.stands(*told_[p].attached_to) &&
                         told_.one_sample(*told_[p].attached_to, whole);
        const bool calculated = told_.role(i) == Role::stated_result && !told_.one_sample(i, whole);
        const bool first = told_.before(i, i - p, 1, [&](std::size_t k) { return k > p && alike(i, k); }).empty();
        const double grounds = its && calculated && first && told_.same_matter(i, p) ? ground::fair : ground::loose;
        to_.offer(i, grounds, told_.sized(whole) * told_.sized(p),
                  {RelationType::share,
                   {{"whole", whole, ""}, {"fraction", p, ""}, {"part", i, ""}},
                   {},
                   told_[i].subject,
                   "so many percent of what there is"});
      }
    }
  }

  /// How much of a sample is the substance that was found in it.
  void purity(std::size_t i) {
    constexpr std::size_t reach = 60;
    const auto to = told_[i].attached_to;
    if (told_.kind(i) != Kind::mass_percent || told_.role(i) != Role::stated_result || !to || !told_.stands(*to))
      return;
    for (const std::size_t part : told_.sample_of(*to).members) {
      if (!told_.stands(part) || told_.kind(part) != Kind::mass || told_.role(part) != Role::stated_result || part > i)
        continue;
      const auto wholes = told_.before(i, reach, 8, [&](std::size_t k) {
        return told_.kind(k) == Kind::mass && told_.role(k) == Role::measured_out && !told_.one_sample(k, part) &&
               !told_[k].same_sample_as;
      });
      for (const std::size_t whole : wholes) {
        to_.offer(i, wholes.size() == 1 ? ground::fair : ground::loose, told_.sized(part) / told_.sized(whole),
                  {RelationType::share,
                   {{"whole", whole, ""}, {"part", part, ""}, {"fraction", i, ""}},
                   {},
                   told_[i].subject,
                   "how much of the sample was found to be it"});
      }
    }
  }

  /// "At fifty milligrams a cup that is 37 cups."
  void how_many(std::size_t i) {
    const Role role = told_.role(i);
    if (told_.kind(i) != Kind::count || (role != Role::stated_result && role != Role::other && role != Role::product))
      return;
    for (std::size_t each = i > 3 ? i - 3 : 0; each < told_.size() && each <= i + 3; ++each) {
      if (!told_.stands(each) || !adds_up(each) || told_[each].attached_to != i) continue;
      const auto wholes = told_.before(std::min(i, each), 10, 4, [&](std::size_t k) {
        return alike(k, each) && told_.same_matter(k, each) && told_.sized(k).value > told_.sized(each).value;
      });
      for (const std::size_t whole : wholes) {
        if (!told_.agrees(whole, told_.sized(i) * told_.sized(each))) continue;
        to_.offer(i, ground::fair, told_.sized(i),
                  {RelationType::count_each,
                   {{"count", i, ""}, {"each", each, ""}, {"whole", whole, ""}},
                   {},
                   told_[i].subject,
                   "how many of a size are in the whole"});
      }
    }
  }

  const Ledger& told_;
  Wirings& to_;
};

}  // namespace

void wire_arithmetic(const Ledger& told, Wirings& to) { Arithmetic(told, to).run(); }

}  // namespace sash::narration
