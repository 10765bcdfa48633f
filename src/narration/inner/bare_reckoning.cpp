// Bare numbers that the numbers around them explain: what two figures of one sort add up to or differ by, what a
// percent was taken of, what a mass and a molar mass make, what a titration was reckoned with. That a sum comes out
// right to the last digit is hardly chance.

#include <algorithm>
#include <array>
#include <cmath>

#include "narration/inner/bare_readings.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr std::size_t reach_back = 70;    // tokens
constexpr std::size_t reach_behind = 36;  // tokens
constexpr double least_whole = 13;        // smaller whole numbers come out right by chance

int decimals(const Phrase& p) {
  const std::size_t point = p.digits.find('.');
  return point == std::string::npos ? 0 : static_cast<int>(p.digits.size() - point - 1);
}

bool is_telling(const Phrase& p) {
  if (p.fraction || p.upper || p.value <= 0) return false;
  return p.value >= least_whole || decimals(p) > 1 || (decimals(p) == 1 && p.value >= 1);
}

bool adds_up(Kind k) {
  return k == Kind::mass || k == Kind::volume || k == Kind::gas_volume || k == Kind::amount || k == Kind::pressure;
}

/// "12", "0.25", not "0.5" or "3": small numbers come out right by chance.
bool has_two_digits(const Phrase& p) { return p.value * std::pow(10, decimals(p)) >= 9.5; }

/// Whether `sum` is what `a` and `b` make, as far as they were rounded.
bool comes_to(const Phrase& a, const Phrase& b, double made, const Phrase& sum) {
  const int fewest = std::min({decimals(a), decimals(b), decimals(sum)});
  const int most = std::max({decimals(a), decimals(b), decimals(sum)});
  const double rounding = fewest == most ? 1e-6 : 0.51 * std::pow(10, -fewest);
  return std::abs(made - sum.value) < rounding;
}

bool near_ratio(double a, double b, double within) { return b != 0 && std::abs(a / b - 1) < within; }

/// The phrases around the number that it may hang together with: figures, and other bare numbers.
class Reckoner {
 public:
  Reckoner(const Scene& s, std::size_t index) : s_(s), p_(s.phrases[index]) {
    for (std::size_t i = index; i-- > 0 && p_.first - s.phrases[i].first < reach_back;) take(s.phrases[i]);
    for (std::size_t i = index + 1; i < s.phrases.size() && s.phrases[i].first < p_.last + reach_behind; ++i)
      take(s.phrases[i]);
  }

  std::optional<Meaning> meaning() const {
    if (p_.fraction || p_.upper || p_.value <= 0) return std::nullopt;
    if (is_telling(p_)) {
      if (auto m = by_two_figures()) return m;
      if (auto m = by_one_more_bare()) return m;
      if (auto m = by_multiple()) return m;
      if (auto m = by_thousandths()) return m;
      if (auto m = by_percent()) return m;
    }
    if (!p_.number.decimal && !is_telling(p_)) return std::nullopt;
    if (auto m = by_molar_mass()) return m;
    return by_titration();
  }

 private:
  static constexpr std::size_t most = 14;
  struct Few {
    std::array<const Phrase*, most> all{};
    std::size_t size = 0;
    void add(const Phrase& q) {
      if (size < most) all[size++] = &q;
    }
    auto begin() const { return all.begin(); }
    auto end() const { return all.begin() + static_cast<std::ptrdiff_t>(size); }
  };

  void take(const Phrase& q) {
    if (q.upper || q.fraction || q.value <= 0) return;
    if (q.fate == Fate::figure) figures_.add(q);
    if (q.fate == Fate::open && !q.unit_said) bare_.add(q);
  }

  static std::size_t gap(const Phrase& a, const Phrase& b) {
    return a.first < b.first ? b.first - std::min(a.last, b.first) : a.first - std::min(b.last, a.first);
  }

  std::optional<Meaning> by_two_figures() const {
    for (const Phrase* a : figures_) {
      if (!adds_up(a->kind)) continue;
      for (const Phrase* b : figures_) {
        if (a == b || a->kind != b->kind || a->unit != b->unit || a->value < b->value) continue;
        if (gap(*a, p_) > 40 && gap(*b, p_) > 40) continue;
        if (!has_two_digits(*b)) continue;
        const bool sum = comes_to(*a, *b, a->value + b->value, p_);
        const bool difference = a->value != b->value && comes_to(*a, *b, a->value - b->value, p_);
        if (sum || difference) return like(a, "what two figures add up to or differ by", 0.8);
      }
    }
    return std::nullopt;
  }

  /// "the dish with it was 39.21, the dish 33.44, so 5.77 grams"
  std::optional<Meaning> by_one_more_bare() const {
    for (const Phrase* other : bare_) {
      if (gap(*other, p_) > 26 || other->value == p_.value) continue;
      const double difference = std::abs(other->value - p_.value);
      for (const Phrase* a : figures_) {
        const std::size_t behind = std::max(other->first, p_.first);
        if (a->kind == Kind::temperature && a->bare_degrees && a->first > behind && a->first - behind < 22 &&
            comes_to(*other, p_, difference, *a))
          return Meaning{Kind::temperature, a->unit, "warmer or colder by what is said", 0.8};
        if (!adds_up(a->kind) || gap(*a, p_) > 40 || !has_two_digits(*a)) continue;
        const bool exact = decimals(p_) >= 1 || (p_.value >= 100 && other->value >= 100);
        const bool as_exact = decimals(*other) == decimals(p_) ||
                              (decimals(*a) > 0 && std::max(decimals(*other), decimals(p_)) == decimals(*a));
        const bool parted = (exact || decimals(*other) > 0) && as_exact && std::abs(difference - a->value) < 1e-6;
        const bool rest = decimals(p_) + decimals(*other) > 0 && a->value > 100 &&
                          comes_to(*other, p_, other->value + p_.value, *a) && is_telling(*other);
        if (parted || rest) return like(a, "differs from another number by what is said", 0.8);
      }
    }
    return std::nullopt;
  }

  /// "the whole flask has ten times as much, so 12.4"
  std::optional<Meaning> by_multiple() const {
    if (!s_.find_before(p_.first, WordSet{"times", "twice", "double", "half", "halve"}, 10)) return std::nullopt;
    constexpr std::array multiples = {10.0, 5.0, 4.0, 2.0, 0.5, 20.0, 2.5};
    for (const Phrase* a : figures_) {
      if (!adds_up(a->kind) || a->first > p_.first || gap(*a, p_) > 30) continue;
      for (const double m : multiples) {
        if (near_ratio(p_.value, a->value * m, 1e-6)) return like(a, "so many times as much", 0.8);
      }
    }
    return std::nullopt;
  }

  /// "0.153 grams, so 153": the same in thousandths
  std::optional<Meaning> by_thousandths() const {
    for (const Phrase* a : figures_) {
      if (a->first > p_.first || gap(*a, p_) > 60 || !has_two_digits(*a)) continue;
      if (!near_ratio(p_.value, a->value * 1000, 1e-6)) continue;
      if (a->unit == "g" || a->unit == "mol" || a->unit == "L")
        return Meaning{a->kind, "m" + a->unit, "the same in thousandths", 0.8};
    }
    return std::nullopt;
  }

  /// "you'd get 172, so 92 percent": what the percent was taken of
  std::optional<Meaning> by_percent() const {
    for (const Phrase* share : figures_) {
      if (share->unit != "%" || !share->unit_said || share->first < p_.last || share->first - p_.last > 26) continue;
      if (share->value == 100 || share->value == 50 || share->value < 5) continue;
      for (const Phrase* a : figures_) {
        const bool change = a->kind == Kind::temperature && decimals(p_) > 0 && a->bare_degrees;
        if (!(adds_up(a->kind) || change) || a->value == p_.value) continue;
        const double larger = std::max(a->value, p_.value);
        const double smaller = std::min(a->value, p_.value);
        const double rounding = 0.51 * std::pow(10, -decimals(*share));
        if (std::abs(smaller / larger * 100 - share->value) < rounding && change)
          return Meaning{Kind::temperature_change, a->unit, "what the percent behind was taken of", 0.75};
        if (std::abs(smaller / larger * 100 - share->value) < rounding)
          return like(a, "what the percent behind was taken of", 0.8);
      }
    }
    return std::nullopt;
  }

  /// "33.6 grams, divided by 84, 0.4"
  std::optional<Meaning> by_molar_mass() const {
    constexpr double as_rounded = 0.015;
    for (const Phrase* molar : bare_) {
      if (molar->value < 12 || molar->value > 600 || molar->first > p_.first || p_.first - molar->last > 14) continue;
      for (const Phrase* a : figures_) {
        if (a->first > p_.first) continue;
        const bool grams = a->kind == Kind::mass && (a->unit == "g" || a->unit == "mg");
        if (grams && near_ratio(p_.value * molar->value, a->value, as_rounded))
          return Meaning{Kind::amount, a->unit == "mg" ? "mmol" : "mol", "a mass through the molar mass", 0.85};
        const bool amount = a->kind == Kind::amount && (a->unit == "mol" || a->unit == "mmol");
        if (amount && near_ratio(a->value * molar->value, p_.value, as_rounded))
          return Meaning{Kind::mass, a->unit == "mmol" ? "mg" : "g", "an amount times the molar mass", 0.85};
      }
    }
    return std::nullopt;
  }

  /// "24.80 times 0.05 is 1.24 millimoles": the volume, or the strength
  std::optional<Meaning> by_titration() const {
    constexpr double as_rounded = 0.012;
    for (const Phrase* n : figures_) {
      if (n->kind != Kind::amount || n->unit != "mmol" || n->first < p_.last || n->first - p_.last > 16) continue;
      for (const Phrase* other : figures_) {
        if (!near_ratio(other->value * p_.value, n->value, as_rounded)) continue;
        if (other->kind == Kind::volume && other->unit == "mL")
          return Meaning{Kind::molar_concentration, "mol/L", "turns the volume into the amount", 0.85};
        if (other->kind == Kind::molar_concentration && other->unit == "mol/L")
          return Meaning{Kind::volume, "mL", "turns the strength into the amount", 0.85};
      }
    }
    return std::nullopt;
  }

  const Scene& s_;
  const Phrase& p_;
  Few figures_;
  Few bare_;
};

}  // namespace

std::optional<Meaning> by_reckoning(const Scene& s, std::size_t index) { return Reckoner(s, index).meaning(); }

}  // namespace sash::narration
