// Which volumes are of gas: those read off a gas syringe or over water, those that so many moles fill, the volume of a
// mole itself, and those that go on from one of them. And which are of liquid although a gas is spoken of: what is
// pipetted, poured, run in.
//
// Sources: molar volume of an ideal gas 22.4 to 24.8 L/mol between 0 and 25 Cel at 1 atm or 1 bar (CODATA 2018).

#include <algorithm>
#include <cmath>

#include "narration/inner/kind_rules.h"

namespace sash::narration {

namespace {

using quantity::Kind;

constexpr double least_molar_volume = 22.3;  // L/mol
constexpr double most_molar_volume = 24.9;

constexpr WordSet liquid_acts{"pipette", "pipetted", "pour",  "poured", "dissolve", "dissolved", "titre", "burette",
                              "dilute",  "diluted",  "rinse", "wash",   "washed",   "stir",      "acid",  "water"};
constexpr WordSet running_in{"titre", "titrate", "titrating", "titration", "burette", "endpoint", "indicator", "run"};

std::optional<double> litres(const Phrase& p) {
  if (p.unit == "L") return p.value;
  if (p.unit == "mL" || p.unit == "cm3") return p.value / 1000;
  return std::nullopt;
}

std::optional<double> moles(const Phrase& p) {
  if (p.unit == "mol") return p.value;
  if (p.unit == "mmol") return p.value / 1000;
  return std::nullopt;
}

class Gases {
 public:
  explicit Gases(Scene& s) : s_(s) {}

  void run() {
    for (std::size_t i = 0; i < s_.phrases.size(); ++i) {
      Phrase& p = s_.phrases[i];
      if (p.fate != Fate::figure || p.kind != Kind::volume || !litres(p)) continue;
      if (const Mention* m = matter_behind(p)) {
        p.state = m->gas ? State::gas : State::liquid;
      } else if (is_handled(p) || is_of_liquid(p)) {
        p.state = State::liquid;
      } else if (is_molar_volume(p) || fills(i) || is_caught(p) || goes_on(i)) {
        p.state = State::gas;
      }
    }
    // What is gas when it is said again was gas before.
    for (std::size_t i = 0; i < s_.phrases.size(); ++i) {
      Phrase& p = s_.phrases[i];
      if (p.fate != Fate::figure || p.kind != Kind::volume || p.state != State::unknown || !litres(p) ||
          p.digits.size() < 3)
        continue;
      for (std::size_t k = i + 1; k < s_.phrases.size() && s_.phrases[k].first - p.first < 200; ++k) {
        const Phrase& q = s_.phrases[k];
        const bool again = q.state == State::gas && q.unit == p.unit && q.value == p.value;
        if (again && q.fate == Fate::figure) p.state = State::gas;
      }
    }
  }

 private:
  /// "(25 mL) of acid"
  const Mention* matter_behind(const Phrase& p) const {
    return s_.word(p.last) == "of" ? mention_behind(s_, p.last, 3) : nullptr;
  }

  /// "I pipette 25 mL of the pink stuff", "the acid ... and it took 10.4 mL"
  bool is_handled(const Phrase& p) const {
    if (s_.find_before(p.first, WordSet{"pipette", "pipetted", "pour", "poured", "add", "dilute"}, 4)) return true;
    const bool some_of = s_.word(p.last) == "of" && s_.word(p.last + 1) == "the";
    if (some_of && s_.find_before(p.first, WordSet{"take", "took"}, 3)) return true;
    if (!s_.find_before(p.first, WordSet{"took", "takes", "needed", "titre"}, 3)) return false;
    return titrated(p, 40);
  }

  bool titrated(const Phrase& p, std::size_t reach) const {
    for (std::size_t t = p.first; t-- > 0 && p.first - t < reach;) {
      if (running_in.has(s_.word(t))) return true;
    }
    return false;
  }

  /// "the repeat is 27.94 mL" behind a burette, "a hundred and fifty mil" behind the lye it is of: no gas meant.
  bool is_of_liquid(const Phrase& p) const {
    const std::size_t from = p.first > 3 ? p.first - 3 : 0;
    for (std::size_t t = from; t < p.first; ++t) {
      if (s_.mention_at[t] && s_.same_sentence(t, p.first) && !s_.mentions[*s_.mention_at[t]].gas &&
          s_.word_before(p.first) == ",")
        return true;
    }
    constexpr WordSet handling{"pipette", "aliquot", "dilution", "conical"};
    if (s_.find_before(p.first, handling, 8) || s_.find_after(p.last, handling, 8)) return true;
    if (s_.word_before(p.first) == "to" && s_.find_before(p.first, WordSet{"make", "made", "up"}, 3)) return true;
    return titrated(p, 60) && !gas_spoken_of(p.first, 12);
  }

  bool is_molar_volume(const Phrase& p) const {
    if (p.unit != "L" || p.value < least_molar_volume || p.value > most_molar_volume) return false;
    for (std::size_t t = p.first > 40 ? p.first - 40 : 0; t < p.last + 8 && t < s_.size(); ++t) {
      if (s_.word(t) == "mole" || s_.word(t) == "gas" || s_.word(t) == "moles") return true;
    }
    return false;
  }

  bool gas_spoken_of(std::size_t token, std::size_t reach) const {
    for (std::size_t t = token; t-- > 0 && token - t < reach;) {
      if (s_.word(t) == "gas" || (s_.mention_at[t] && s_.mentions[*s_.mention_at[t]].gas)) return true;
    }
    return false;
  }

  /// "0.2 moles of ammonia ... that's 4.8 litres": what so many moles fill.
  bool fills(std::size_t index) const {
    const Phrase& p = s_.phrases[index];
    const double volume = *litres(p);
    for (std::size_t i = index; i-- > 0 && p.first - s_.phrases[i].first < 70;) {
      const Phrase& q = s_.phrases[i];
      const auto n = moles(q);
      if (q.fate != Fate::figure || q.kind != Kind::amount || !n || *n <= 0) continue;
      const double each = volume / *n;
      if (each > least_molar_volume && each < most_molar_volume && gas_spoken_of(p.first, 150)) return true;
    }
    return false;
  }

  /// "the syringe says 41.8": caught in a gas syringe or over water, and nothing liquid since.
  bool is_caught(const Phrase& p) const {
    if (liquid_near(p)) return false;
    for (std::size_t t = p.first; t-- > 0 && p.first - t < 200;) {
      if (s_.word(t) == "pipette" || s_.word(t) == "burette") return false;
      if (s_.word(t) == "syringe" && s_.word_before(t) == "gas") return true;
      const bool over_water = s_.word(t) == "water" && s_.word_before(t) == "over";
      const bool upside = s_.word(t) == "upside" || s_.word(t) == "inverted" || s_.word(t) == "eudiometer";
      if ((over_water || upside) && gas_spoken_of(p.first, 200)) return true;
    }
    return false;
  }

  bool liquid_near(const Phrase& p) const {
    for (std::size_t t = p.first; t-- > 0 && p.first - t < 12;) {
      if (!s_.same_sentence(t, p.first)) break;
      if (liquid_acts.has(s_.word(t)) && s_.word_before(t) != "over") return true;
    }
    return s_.word(p.last) == "of" && !gas_spoken_of(std::min(p.last + 3, s_.size()), 3);
  }

  /// The volume of gas before, said again, or read on.
  bool goes_on(std::size_t index) const {
    const Phrase& p = s_.phrases[index];
    if (liquid_near(p)) return false;
    bool nearest = true;
    for (std::size_t i = index; i-- > 0 && p.first - s_.phrases[i].first < 300;) {
      const Phrase& q = s_.phrases[i];
      if (q.fate != Fate::figure || q.kind != Kind::volume) continue;
      const auto before = litres(q);
      if (!before) continue;
      if (q.state == State::gas && std::abs(*before - *litres(p)) < 1e-6 * *before && p.number.digits.size() > 2)
        return true;
      if (nearest && q.state == State::gas && p.first - q.last < 220) {
        const double ratio = *litres(p) / *before;
        if (ratio > 0.2 && ratio < 5) return true;
      }
      nearest = false;
    }
    return false;
  }

  Scene& s_;
};

}  // namespace

void settle_gases(Scene& s) { Gases(s).run(); }

}  // namespace sash::narration
