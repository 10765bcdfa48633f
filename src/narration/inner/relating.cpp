#include "narration/inner/relating.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "chem/molar_mass.h"
#include "chem/names.h"
#include "narration/inner/processes.h"
#include "narration/inner/reacting.h"
#include "narration/inner/samples.h"

namespace sash::narration {

namespace {

using model::RelationType;
using model::Role;
using quantity::Kind;

class Relater {
 public:
  explicit Relater(const Reading& reading) : figures_(reading.figures), samples_(samples_of(reading)) {}

  std::vector<SpokenRelation> run() {
    for (const Sample& sample : samples_) restatement(sample);
    for (std::size_t i = 0; i < figures_.size(); ++i) {
      if (figures_[i].corrected_by) continue;
      solution_made(i);
      dilution(i);
      sum(i);
      share(i);
      difference(i);
      yield(i);
    }
    for (SpokenRelation& r : reactions(figures_, samples_)) out_.push_back(std::move(r));
    for (SpokenRelation& r : processes(figures_, samples_, out_)) out_.push_back(std::move(r));
    return std::move(out_);
  }

 private:
  Kind kind(std::size_t i) const { return figures_[i].kind; }
  bool same_matter(std::size_t a, std::size_t b) const {
    const std::string x = substance_of(figures_[a].subject);
    return !x.empty() && x == substance_of(figures_[b].subject);
  }

  void add(RelationType type, std::vector<SpokenTerm> terms, std::map<std::string, std::string> given,
           std::string label, const char* rule, double confidence) {
    out_.push_back({type, std::move(terms), std::move(given), std::move(label), rule, confidence});
  }

  const Sample& sample_of(std::size_t i) const {
    const auto it = std::find_if(samples_.begin(), samples_.end(), [&](const Sample& s) {
      return std::find(s.members.begin(), s.members.end(), i) != s.members.end();
    });
    return *it;
  }

  /// One portion in several quantities.
  void restatement(const Sample& sample) {
    const std::string& subject = figures_[sample.members.front()].subject;
    std::vector<SpokenTerm> terms;
    std::set<Kind> kinds;
    const bool solution = !sample.strengths.empty();
    for (const std::size_t i : sample.members) {
      const char* slot = slot_of(kind(i), solution);
      if (slot == nullptr) continue;
      terms.push_back({slot, i, ""});
      kinds.insert(kind(i));
    }
    for (const std::size_t i : sample.densities) {
      terms.push_back({"density", i, ""});
      kinds.insert(Kind::density);
    }
    const bool gas = kinds.count(Kind::gas_volume) != 0;
    std::map<std::string, std::string> given;
    if (!subject.empty()) given["substance"] = counted_as_atoms(terms).value_or(substance_of(subject));
    for (const std::size_t i : sample.members) {
      // As said, rounded, as long as it is that of the substance.
      if (figures_[i].molar_mass && weighs_about(substance_of(subject), *figures_[i].molar_mass))
        given["molar_mass"] = fmt::format("{} g/mol", *figures_[i].molar_mass);
    }
    if (gas && kinds.count(Kind::amount) != 0) {
      add(RelationType::gas_given_off, with_room(terms), given, subject, "moles and volume of a gas", 0.85);
    } else if (solution && kinds.size() >= 2) {
      for (const std::size_t i : sample.strengths) terms.push_back({"strength", i, ""});
      add(RelationType::in_solution, terms, given, subject, "strength, volume and amount of one solution", 0.85);
    } else if (!solution && kinds.size() >= 2) {
      add(RelationType::same_portion, terms, given, subject, "one portion in several quantities", 0.9);
    } else if (sample.members.size() >= 2) {
      std::vector<SpokenTerm> same;
      for (const std::size_t i : sample.members) {
        if (kind(i) == kind(sample.members.front())) same.push_back({"same", i, ""});
      }
      if (same.size() >= 2) add(RelationType::same_portion, same, {}, subject, "said again", 0.85);
    }
  }

  /// Whether that molar mass is the substance's, to half a percent.
  static bool weighs_about(const std::string& substance, double molar_mass) {
    const auto formula = chem::formula_of(substance);
    if (!formula) return false;
    const auto known = chem::molar_mass(*formula);
    return known && std::abs(known->value / molar_mass - 1) < 0.005;
  }

  /// "The oxygen taken up is 0.254 grams, or 15.9 millimoles": an element that goes about in pairs, counted by atoms.
  /// Its symbol, when the figures fit atoms and not pairs.
  std::optional<std::string> counted_as_atoms(const std::vector<SpokenTerm>& terms) const {
    struct Paired {
      std::string_view name;
      const char* symbol;
      double atom;  ///< g/mol, IUPAC 2021 abridged standard atomic weights
    };
    constexpr std::array<Paired, 6> paired = {{{"oxygen", "O", 15.999},
                                               {"hydrogen", "H", 1.008},
                                               {"nitrogen", "N", 14.007},
                                               {"chlorine", "Cl", 35.45},
                                               {"bromine", "Br", 79.904},
                                               {"iodine", "I", 126.90}}};
    const auto scaled = [&](Kind wanted) -> std::optional<double> {
      for (const SpokenTerm& t : terms) {
        const model::Reading& r = figures_[t.figure].reading;
        if (kind(t.figure) != wanted || r.upper) continue;
        return r.value * (r.unit.starts_with("m") && r.unit != "mol" ? 1e-3 : r.unit == "kg" ? 1e3 : 1);
      }
      return std::nullopt;
    };
    const auto mass = scaled(Kind::mass);
    const auto amount = scaled(Kind::amount);
    if (!mass || !amount || *amount == 0) return std::nullopt;
    const std::string substance = substance_of(figures_[terms.front().figure].subject);
    for (const Paired& p : paired) {
      if (p.name == substance && std::abs(*mass / *amount / p.atom - 1) < 0.05) return p.symbol;
    }
    return std::nullopt;
  }

  static const char* slot_of(Kind k, bool solution) {
    switch (k) {
      case Kind::mass:
        return solution ? "solution_mass" : "mass";
      case Kind::volume:
        return solution ? "solution_volume" : "volume";
      case Kind::gas_volume:
        return "volume";
      case Kind::amount:
        return solution ? "solute_amount" : "amount";
      default:
        return nullptr;
    }
  }

  /// Near one atmosphere, as rooms are.
  static bool is_ambient(const model::Reading& r) {
    if (r.unit == "atm" || r.unit == "bar") return r.value > 0.6 && r.value < 1.4;
    if (r.unit == "mbar" || r.unit == "hPa") return r.value > 600 && r.value < 1400;
    if (r.unit == "kPa") return r.value > 60 && r.value < 140;
    return r.unit == "mm[Hg]" && r.value > 450 && r.value < 1000;
  }

  /// The temperature and pressure of the room, where they were said.
  std::vector<SpokenTerm> with_room(std::vector<SpokenTerm> terms) const {
    const std::size_t at = terms.front().figure;
    std::optional<std::size_t> warmth;
    std::optional<std::size_t> pressure;
    for (std::size_t i = 0; i < figures_.size(); ++i) {
      if (figures_[i].kind == Kind::pressure && is_ambient(figures_[i].reading) && (!pressure || i <= at + 3))
        pressure = i;
      if (figures_[i].kind == Kind::temperature && i + 1 < figures_.size() && figures_[i + 1].kind == Kind::pressure)
        warmth = i;
    }
    if (pressure) terms.push_back({"pressure", *pressure, ""});
    if (warmth) terms.push_back({"temperature", *warmth, ""});
    return terms;
  }

  /// The last sample of dissolved matter named `substance` before figure `i`.
  const Sample* solute_before(std::size_t i, const std::string& substance) const {
    const std::string wanted = without_water(substance);
    for (std::size_t k = samples_.size(); k-- > 0;) {
      const Sample& s = samples_[k];
      if (s.members.front() >= i) continue;
      if (i - s.members.front() > 8) break;
      const bool measured = std::any_of(s.members.begin(), s.members.end(), [&](std::size_t m) {
        return kind(m) == Kind::mass || kind(m) == Kind::amount;
      });
      if (measured && s.strengths.empty() && without_water(substance_of(figures_[s.members.front()].subject)) == wanted)
        return &s;
    }
    return nullptr;
  }

  void solution_made(std::size_t i) {
    const SpokenFigure& strength = figures_[i];
    const bool molar = strength.kind == Kind::molar_concentration;
    if (!molar && strength.kind != Kind::mass_percent && strength.kind != Kind::mass_concentration) return;
    const std::string substance = substance_of(strength.subject);
    const Sample* solute = solute_before(i, substance);
    if (solute == nullptr) return;
    std::vector<SpokenTerm> terms;
    for (const std::size_t m : solute->members) {
      if (kind(m) == Kind::mass) terms.push_back({"solute_mass", m, ""});
      if (kind(m) == Kind::amount) terms.push_back({"solute_amount", m, ""});
    }
    if (molar && strength.attached_to) {
      terms.push_back({"solution_volume", *strength.attached_to, ""});
    } else {
      // So much in so much water: by mass, where the water was weighed or its volume given.
      for (std::size_t k = i; k-- > solute->members.front();) {
        if (substance_of(figures_[k].subject) != "water") continue;
        if (kind(k) == Kind::mass) terms.push_back({"solvent_mass", k, ""});
        if (kind(k) == Kind::volume) terms.push_back({molar ? "solution_volume" : "solvent_volume", k, ""});
        if (kind(k) == Kind::mass || kind(k) == Kind::volume) break;
      }
    }
    if (terms.size() < 2) return;
    for (SpokenTerm& t : terms) {
      // The workings know no volume of solvent: a dilute solution in water has that volume itself.
      if (t.slot == "solvent_volume") t.slot = "solution_volume";
    }
    terms.push_back({"strength", i, ""});
    add(RelationType::in_solution, std::move(terms),
        {{"substance", substance_of(figures_[solute->members.front()].subject)}}, strength.subject,
        "a solution that was made up", 0.8);
  }

  void dilution(std::size_t i) {
    const SpokenFigure& after = figures_[i];
    if (after.kind != Kind::molar_concentration || after.same_sample_as) return;
    const std::optional<std::size_t> volume_after = after.attached_to ? after.attached_to : pool_before(i);
    if (!volume_after || kind(*volume_after) != Kind::volume) return;
    const std::string substance = substance_of(after.subject);
    for (std::size_t k = i; k-- > 0 && i - k < 12;) {
      const SpokenFigure& before = figures_[k];
      if (before.kind != Kind::molar_concentration || substance_of(before.subject) != substance) continue;
      std::optional<std::size_t> volume_before = before.attached_to;
      if (!after.attached_to) volume_before = addend_of(*volume_after, substance);
      if (!volume_before || *volume_before == *volume_after || kind(*volume_before) != Kind::volume) continue;
      if (millilitres(*volume_before) >= millilitres(*volume_after)) continue;  // nothing was diluted
      if (!after.attached_to || before.reading.value > after.reading.value) {
        add(RelationType::dilution,
            {{"strength_before", k, ""},
             {"volume_before", *volume_before, ""},
             {"volume_after", *volume_after, ""},
             {"strength_after", i, ""}},
            {{"substance", substance}}, after.subject, "a solution that was diluted", 0.75);
        return;
      }
    }
  }

  double millilitres(std::size_t i) const {
    const model::Reading& r = figures_[i].reading;
    return r.value * (r.unit == "L" ? 1000 : r.unit == "uL" ? 1e-3 : 1);
  }

  /// The mixed volume a strength in the mixture refers to.
  std::optional<std::size_t> pool_before(std::size_t i) const {
    for (std::size_t k = i; k-- > 0 && i - k < 5;) {
      if (kind(k) == Kind::volume && !figures_[k].sum_of.empty()) return k;
    }
    return std::nullopt;
  }

  std::optional<std::size_t> addend_of(std::size_t whole, const std::string& substance) const {
    for (const std::size_t k : figures_[whole].sum_of) {
      if (substance_of(figures_[k].subject) == substance) return k;
    }
    return std::nullopt;
  }

  void sum(std::size_t i) {
    const SpokenFigure& f = figures_[i];
    if (f.sum_of.empty()) return;
    std::vector<SpokenTerm> terms;
    if (f.count_times_each) {
      for (const std::size_t k : f.sum_of) terms.push_back({kind(k) == Kind::count ? "count" : "each", k, ""});
      terms.push_back({"whole", i, ""});
      add(RelationType::count_each, std::move(terms), {}, f.subject, "so many of so much", 0.85);
      return;
    }
    for (const std::size_t k : f.sum_of) terms.push_back({"part", k, figures_[k].subject});
    terms.push_back({"whole", i, ""});
    add(RelationType::total, std::move(terms), {}, f.subject, "a sum", 0.8);
  }

  void share(std::size_t i) {
    const SpokenFigure& f = figures_[i];
    if (f.kind != Kind::fraction || !f.fraction_of) return;
    std::vector<SpokenTerm> terms = {{"whole", *f.fraction_of, ""}, {"fraction", i, ""}};
    for (std::size_t k = i + 1; k < figures_.size() && k <= i + 2; ++k) {
      if (figures_[k].same_sample_as == i && kind(k) == kind(*f.fraction_of)) terms.push_back({"part", k, ""});
    }
    if (terms.size() == 3)
      add(RelationType::share, std::move(terms), {}, f.subject, "a share of what was measured", 0.7);
  }

  /// Gross less tare; before less what was lost; the rest.
  void difference(std::size_t i) {
    if (kind(i) != Kind::mass) return;
    const auto masses = [&](std::size_t from) {
      std::vector<std::size_t> found;
      for (std::size_t k = from; k-- > 0 && from - k < 6 && found.size() < 2;) {
        if (kind(k) == Kind::mass && !figures_[k].corrected_by) found.push_back(k);
      }
      return found;
    };
    std::vector<std::size_t> two = masses(i);
    if (!two.empty() && figures_[two.front()].subject.empty()) {
      // The vessel may have been weighed before what was taken from it was named.
      std::vector<std::size_t> weighings;
      for (std::size_t k = i; k-- > 0 && i - k < 12 && weighings.size() < 2;) {
        if (kind(k) == Kind::mass && figures_[k].subject.empty()) weighings.push_back(k);
      }
      if (weighings.size() == 2) two = weighings;
    }
    if (two.size() < 2 || figures_[i].subject.empty()) return;
    const std::size_t later = two[0];
    const std::size_t earlier = two[1];
    const bool vessel = figures_[later].subject.empty() && figures_[earlier].subject.empty();
    const bool lost = figures_[later].role == Role::other && figures_[i].role == Role::product &&
                      figures_[earlier].role == Role::product;
    if (!vessel && !lost) return;
    std::size_t gross = earlier;
    std::size_t tare = later;
    if (vessel) {
      // The vessel may have been weighed many times: the last weighing, less the one that leaves about what was said.
      gross = later;
      tare = earlier;
      double best = off_by(i, gross, tare);
      for (std::size_t k = later; k-- > 0 && later - k < 40;) {
        if (kind(k) != Kind::mass || !figures_[k].subject.empty() ||
            figures_[k].reading.unit != figures_[gross].reading.unit)
          continue;
        if (const double off = off_by(i, gross, k); off < best * 0.5) {
          best = off;
          tare = k;
        }
      }
    }
    if (figures_[tare].reading.value > figures_[gross].reading.value &&
        figures_[tare].reading.unit == figures_[gross].reading.unit) {
      std::swap(gross, tare);
    }
    add(RelationType::total, {{"part", gross, ""}, {"less", tare, ""}, {"whole", i, ""}}, {}, figures_[i].subject,
        vessel ? "weighed with its vessel, less the vessel" : "what is left behind a loss", 0.85);
  }

  /// How far the difference of two weighings is from figure `net`, relative to it.
  double off_by(std::size_t net, std::size_t a, std::size_t b) const {
    const double said = figures_[net].reading.value *
                        (figures_[net].reading.unit == "mg" && figures_[a].reading.unit == "g" ? 1e-3 : 1);
    return said == 0 ? 0
                     : std::abs(std::abs(figures_[a].reading.value - figures_[b].reading.value) - said) / said + 1e-9;
  }

  /// What figure `percent` says `actual` is a part of: the one that makes that percent of it, else what was expected of
  /// the same matter, else what was there before.
  std::optional<std::size_t> whole_of(std::size_t percent, std::size_t actual) const {
    std::optional<std::size_t> expected;
    std::optional<std::size_t> expected_else;
    const std::size_t end = std::min(figures_.size(), percent + 3);
    for (std::size_t k = end; k-- > 0;) {
      if (percent > k && percent - k > 14) break;
      const SpokenFigure& f = figures_[k];
      if (k == percent || k == actual || kind(k) != kind(actual) || f.corrected_by || f.subject.empty()) continue;
      if (f.reading.unit == figures_[actual].reading.unit && f.reading.value > 0) {
        const double share = figures_[actual].reading.value / f.reading.value * 100;
        if (std::abs(share - figures_[percent].reading.value) < 0.012 * figures_[percent].reading.value) return k;
      }
      if (f.role != Role::stated_result || !f.sum_of.empty()) continue;
      if (same_matter(k, actual)) {
        if (!expected) expected = k;
      } else if (!expected_else) {
        expected_else = k;
      }
    }
    if (expected || expected_else) return expected ? expected : expected_else;
    for (std::size_t k = 0; k < actual && figures_[actual].role == Role::recovered; ++k) {
      if (kind(k) == kind(actual) && same_matter(k, actual)) return k;
    }
    return std::nullopt;
  }

  void yield(std::size_t i) {
    const SpokenFigure& percent = figures_[i];
    if (percent.kind != Kind::percent_yield || !percent.attached_to || percent.role == Role::other) return;
    const std::size_t actual = *percent.attached_to;
    const std::optional<std::size_t> theory = whole_of(i, actual);
    if (!theory) return;
    add(RelationType::yield, {{"actual", actual, ""}, {"theoretical", *theory, ""}, {"percent", i, ""}}, {},
        percent.subject, "obtained against expected", 0.85);
  }

  const std::vector<SpokenFigure>& figures_;
  std::vector<Sample> samples_;
  std::vector<SpokenRelation> out_;
};

}  // namespace

std::string without_water(const std::string& substance) {
  const std::size_t last = substance.rfind(' ');
  return last != std::string::npos && substance.ends_with("hydrate") ? substance.substr(0, last) : substance;
}

std::string substance_of(const std::string& subject) {
  constexpr std::string_view solution = " solution";
  if (subject.ends_with(solution)) return subject.substr(0, subject.size() - solution.size());
  return subject;
}

std::vector<SpokenRelation> relate(const Reading& reading) { return Relater(reading).run(); }

}  // namespace sash::narration
