#include "narration/inner/portions.h"

#include <algorithm>

#include "chem/density.h"
#include "narration/inner/usual_hydrates.h"

namespace sash::narration {

namespace {

using model::RelationType;
using model::Role;
using quantity::Kind;

class Portions {
 public:
  Portions(const Ledger& told, Wirings& to) : told_(told), to_(to) {}

  void run() {
    for (const Sample& sample : told_.samples()) {
      for (const std::size_t d : sample.densities) weighings(sample, d);
      for (const std::size_t v : sample.members) {
        if (told_.kind(v) == Kind::volume && told_.stands(v)) dissolved(sample, v);
      }
    }
    for (std::size_t i = 0; i < told_.size(); ++i) {
      if (!told_.stands(i)) continue;
      if (told_.kind(i) == Kind::amount) amount(i);
      if (told_.kind(i) == Kind::volume) mass_and_volume(i);
      if (told_.kind(i) == Kind::molar_concentration) strengths(i);
      said_again(i);
    }
  }

 private:
  static bool is_strength(Kind k) {
    return k == Kind::molar_concentration || k == Kind::mass_percent || k == Kind::mass_concentration;
  }

  void amount(std::size_t i) {
    for (const std::size_t m : told_.around(i, Kind::mass)) from_mass(i, m);
    for (const std::size_t v : told_.around(i, Kind::volume)) from_volume(i, v);
  }

  /// The substances it may be an amount of: what it is said to be, else others that were spoken of nearby, where the
  /// numbers bear them out.
  struct Candidate {
    std::string substance;
    double ground;
  };
  std::vector<Candidate> substances(std::size_t i, std::size_t other) const {
    constexpr std::size_t reach = 8;
    std::vector<Candidate> found;
    if (told_.same_matter(i, other)) {
      for (const std::size_t k : {i, other}) {
        // One may be named as a hydrate, the other without its water.
        const std::string substance = substance_of(told_[k].subject);
        if (found.empty() || found.front().substance != substance) found.push_back({substance, 1.0});
      }
      add_atoms(found);
      add_usual_hydrate(found, std::max(i, other));
      // Where another was named since, the subject may be carried over from what was spoken of before.
      if (told_.last_named(std::max(i, other)) == told_.matter(i)) return found;
      for (const std::string& s : told_.named_before(std::max(i, other))) {
        if (s != told_.matter(i)) found.push_back({s, 0.5});
      }
      return found;
    }
    for (const std::string& s : told_.substances_near(i, reach)) {
      const bool its = s == substance_of(told_[i].subject) || s == substance_of(told_[other].subject);
      found.push_back({s, its ? 0.8 : 0.5});
    }
    return found;
  }

  /// "Moles of oxygen" may be of its atoms.
  static void add_atoms(std::vector<Candidate>& to) {
    constexpr std::pair<std::string_view, std::string_view> atoms[] = {
        {"oxygen", "O"}, {"hydrogen", "H"}, {"nitrogen", "N"}, {"chlorine", "Cl"}, {"bromine", "Br"}, {"iodine", "I"}};
    for (const auto& [name, atom] : atoms) {
      if (to.front().substance == name) to.push_back({std::string(atom), 0.5});
    }
  }

  /// "12.5 grams of copper sulfate, a twentieth of a mole": the salt as it is sold, unless it is called dry.
  void add_usual_hydrate(std::vector<Candidate>& to, std::size_t i) const {
    const auto hydrate = usual_hydrate(to.front().substance);
    if (hydrate && !told_.sentence_has(i, "anhydrous") && !told_.sentence_has(i, "dry")) to.push_back({*hydrate, 0.7});
  }

  /// Molar masses that are said around figure `i`.
  std::vector<std::size_t> molar_masses(std::size_t i) const {
    constexpr std::size_t around = 3;
    std::vector<std::size_t> found;
    for (std::size_t k = i > around ? i - around : 0; k < told_.size() && k <= i + around; ++k) {
      if (told_.stands(k) && told_.kind(k) == Kind::molar_mass) found.push_back(k);
    }
    return found;
  }

  /// Whether a molar mass that is said nearby is that of the substance.
  bool is_weighed_as(const std::string& substance, std::size_t i) const {
    constexpr double close = 0.01;
    const auto own = told_.molar_mass(substance);
    if (own && told_[i].molar_mass && std::abs(*told_[i].molar_mass / 1000 / own->value - 1) < close) return true;
    const auto said = molar_masses(i);
    return own && std::any_of(said.begin(), said.end(),
                              [&](std::size_t k) { return std::abs(told_.sized(k).value / own->value - 1) < close; });
  }

  /// With the molar mass as it is said: of something the chemistry need not know.
  void by_said_molar_mass(std::size_t n, std::size_t m) {
    if (!told_.one_sample(n, m)) return;
    for (const std::size_t k : molar_masses(n)) {
      if (!told_.may_be_same_matter(n, k)) continue;
      const std::size_t later = std::max(n, m);
      const Sized gives = later == n ? told_.sized(m) / told_.sized(k) : told_.sized(n) * told_.sized(k);
      to_.offer(later, ground::fair, gives,
                {RelationType::same_portion,
                 {{"mass", m, ""}, {"amount", n, ""}, {"molar_mass", k, ""}},
                 {},
                 told_[m].subject,
                 "mass and amount by the molar mass that is said"});
    }
  }

  /// Less where the substance is not named anywhere near: the subject may be taken from another sentence.
  double sure_of(const std::string& substance, std::size_t a, std::size_t b) const {
    const bool named = is_certain(a, b) || is_weighed_as(substance, a) || told_.named_nearby(a, substance) ||
                       told_.named_nearby(b, substance) ||
                       told_.named_nearby(told_.sample_of(b).members.front(), substance);
    return named ? 1 : 0.55;
  }

  /// Percentages that say how much of a mass is the substance: those tied to it, else others said of it.
  std::vector<std::size_t> percents_of(const Sample& sample, std::size_t m) const {
    constexpr std::size_t reach = 20;
    std::vector<std::size_t> found;
    for (const std::size_t s : sample.strengths) {
      if (told_.kind(s) == Kind::mass_percent && told_.stands(s)) found.push_back(s);
    }
    // What a percentage came to be computed from is no mass of the impure.
    std::erase_if(found, [&](std::size_t s) {
      return s > m && told_.role(s) == Role::stated_result && told_.role(m) == Role::stated_result;
    });
    if (!found.empty()) return found;
    return told_.before(std::min(told_.size(), m + 4), reach, 2,
                        [&](std::size_t k) { return told_.kind(k) == Kind::mass_percent && told_.same_matter(k, m); });
  }

  void from_mass(std::size_t n, std::size_t m) {
    by_said_molar_mass(n, m);
    if (told_.one_sample(n, m) && !is_certain(n, m)) of_another(n, m);
    for (const auto& [substance, share] : substances(n, m)) {
      const double tie = ground_of_pair(told_, n, m) * sure_of(substance, n, m);
      const auto molar_mass = told_.molar_mass(substance);
      // Among many masses and many substances some two fit by chance: only what is tied is tried with any substance.
      if (!molar_mass || (!told_.one_sample(n, m) && share < 1)) continue;
      const Sized pure = told_.sized(m) / *molar_mass;
      if (std::abs(pure.value - 1) < 0.01 && !told_.agrees(n, pure))
        continue;  // what one mole weighs: "at sixty grams"
      const std::size_t later = std::max(n, m);
      const Sized gives = later == n ? pure : told_.sized(n) * *molar_mass;
      const Sample& sample = told_.sample_of(m);
      to_.offer(later, tie * share * (sample.strengths.empty() ? 1 : 0.9), gives,
                {RelationType::same_portion,
                 {{"mass", m, ""}, {"amount", n, ""}},
                 {{"substance", substance}},
                 told_[m].subject,
                 "one portion in several quantities"});
      if (told_.agrees(later, gives)) continue;  // of the pure substance, whatever percentage is said of it
      for (const std::size_t s : percents_of(sample, m)) {
        const bool its = std::find(sample.strengths.begin(), sample.strengths.end(), s) != sample.strengths.end();
        to_.offer(std::max(later, s), its ? tie * share : ground::loose, given_by_percent(n, m, s, *molar_mass),
                  {RelationType::in_solution,
                   {{"solution_mass", m, ""}, {"strength", s, ""}, {"solute_amount", n, ""}},
                   {{"substance", substance}},
                   told_[m].subject,
                   "strength, mass and amount of one solution"});
      }
    }
  }

  /// Whether there is hardly a doubt what the two are about.
  bool is_certain(std::size_t a, std::size_t b) const {
    constexpr double certain = 0.97;
    return told_[a].subject_sure >= certain && told_[b].subject_sure >= certain;
  }

  /// That some other substance the narration speaks of fits: nothing need be wrong but what we took it to be of.
  void of_another(std::size_t n, std::size_t m) {
    const std::size_t later = std::max(n, m);
    for (const std::string& substance : told_.all_named()) {
      const auto molar_mass = told_.molar_mass(substance);
      if (!molar_mass) continue;
      const Sized gives = later == n ? told_.sized(m) / *molar_mass : told_.sized(n) * *molar_mass;
      if (!told_.agrees(later, gives)) continue;
      to_.offer(later, ground::faint, gives,
                {RelationType::same_portion,
                 {{"mass", m, ""}, {"amount", n, ""}},
                 {{"substance", substance}},
                 told_[m].subject,
                 "one portion in several quantities"});
    }
  }

  Sized given_by_percent(std::size_t n, std::size_t m, std::size_t s, const Sized& molar_mass) const {
    const Sized mass = told_.sized(m) * told_.sized(s);
    if (s > n && s > m) return told_.sized(n) * molar_mass / told_.sized(m);
    return n > m ? mass / molar_mass : told_.sized(n) * molar_mass / told_.sized(s);
  }

  void from_volume(std::size_t n, std::size_t v) {
    const double tie = ground_of_pair(told_, n, v);
    const Sample& sample = told_.sample_of(v);
    if (!told_.one_sample(n, v) && !told_.same_matter(n, v)) return;
    // Of several strengths, such as the nominal and the one that was found, the one that fits is meant.
    const auto fits = std::find_if(sample.strengths.begin(), sample.strengths.end(), [&](std::size_t c) {
      return told_.kind(c) == Kind::molar_concentration && told_.agrees(n, told_.sized(v) * told_.sized(c));
    });
    for (const std::size_t c : sample.strengths) {
      if (!told_.stands(c) || (fits != sample.strengths.end() && c != *fits)) continue;
      for (const auto& [substance, share] : substances(n, v)) {
        SpokenRelation r{RelationType::in_solution,
                         {{"solution_volume", v, ""}, {"strength", c, ""}, {"solute_amount", n, ""}},
                         {{"substance", substance}},
                         told_[v].subject,
                         "strength, volume and amount of one solution"};
        if (told_.kind(c) == Kind::molar_concentration) {
          const std::size_t last = std::max({n, v, c});
          const Sized gives = last == n   ? told_.sized(v) * told_.sized(c)
                              : last == v ? told_.sized(n) / told_.sized(c)
                                          : told_.sized(n) / told_.sized(v);
          to_.offer(last, tie * std::max(share, 0.8), gives, std::move(r));
          break;  // the substance does not matter
        }
        const auto molar_mass = told_.molar_mass(substance);
        if (told_.kind(c) != Kind::mass_percent || !molar_mass || n < v) continue;
        std::optional<Sized> density;
        for (const std::size_t d : sample.densities) {
          density = told_.sized(d);
          r.terms.push_back({"density", d, ""});
          break;
        }
        if (!density) density = solution_density(substance, told_.sized(c).value);
        std::optional<Sized> gives;
        if (density) gives = told_.sized(v) * *density * told_.sized(c) / *molar_mass;
        // What was weighed tells more than what the tables would make of the volume.
        to_.offer(n, tie * share * (density && !sample.densities.empty() ? 0.95 : 0.75), gives, std::move(r));
      }
    }
    if (!sample.strengths.empty() || is_spoonful(v)) return;
    of_the_stock(n, v);
    for (const auto& [substance, share] : substances(n, v)) {
      const auto molar_mass = told_.molar_mass(substance);
      const auto density = density_of(sample, substance);
      if (!molar_mass || !density || n < v) continue;
      SpokenRelation r{RelationType::same_portion,
                       {{"volume", v, ""}, {"amount", n, ""}},
                       {{"substance", substance}},
                       told_[v].subject,
                       "one portion in several quantities"};
      if (!sample.densities.empty()) r.terms.push_back({"density", sample.densities.front(), ""});
      to_.offer(n, tie * share * (sample.densities.empty() ? 0.7 : 0.9), told_.sized(v) * *density / *molar_mass,
                std::move(r));
    }
  }

  /// A strength that was found out replaces one that was aimed at.
  bool was_found(std::size_t strength) const { return told_.role(strength) == Role::stated_result; }

  /// Moles in a portion of a solution whose strength was said before.
  void of_the_stock(std::size_t n, std::size_t v) {
    constexpr std::size_t reach = 30;
    const auto strengths = told_.before(std::max(n, v), reach, 3, [&](std::size_t k) {
      return told_.kind(k) == Kind::molar_concentration && (told_.same_matter(k, v) || told_.same_matter(k, n));
    });
    for (const std::size_t c : strengths) {
      const bool only = std::all_of(strengths.begin(), strengths.end(),
                                    [&](std::size_t k) { return told_.sized(k).value == told_.sized(c).value; });
      const bool tied = told_.one_sample(n, v) && c == strengths.front();
      const std::size_t last = std::max(n, v);
      const Sized gives = last == n ? told_.sized(v) * told_.sized(c) : told_.sized(n) / told_.sized(c);
      to_.offer(last,
                !tied                  ? ground::loose
                : only || was_found(c) ? ground::fair
                                       : ground::weak,
                gives,
                {RelationType::in_solution,
                 {{"solution_volume", v, ""}, {"strength", c, ""}, {"solute_amount", n, ""}},
                 {{"substance", substance_of(told_[n].subject)}},
                 told_[v].subject,
                 "strength, volume and amount of one solution"});
    }
  }

  /// "120 mils of ten per cent vinegar, so 12 grams of the acid": by mass, or as kitchens mean it, in the volume.
  void dissolved(const Sample& sample, std::size_t v) {
    for (const std::size_t p : sample.strengths) {
      if (told_.kind(p) != Kind::mass_percent || !told_.stands(p)) continue;
      for (const std::size_t m : sample.members) {
        if (told_.kind(m) != Kind::mass || !told_.stands(m) || m < v || m < p || !sample.densities.empty()) continue;
        const Sized water{1000, 1};  // kg/m3
        const Sized gives = told_.sized(v) * water * told_.sized(p);
        // It may as well be the mass of the liquid.
        to_.offer(m, ground::loose, gives,
                  {RelationType::in_solution,
                   {{"solution_volume", v, ""}, {"strength", p, ""}, {"solute_mass", m, ""}},
                   {{"substance", substance_of(told_[m].subject)}, {"density", "1 g/mL"}},
                   told_[m].subject,
                   "what is dissolved in a volume"});
      }
    }
  }

  static std::optional<Sized> solution_density(const std::string& substance, double share) {
    const auto density = chem::solution_density(substance, share);
    if (!density) return std::nullopt;
    return Sized{density->value * 1000, 5};
  }

  /// Said, or known of the pure substance.
  std::optional<Sized> density_of(const Sample& sample, const std::string& substance) const {
    if (!sample.densities.empty()) return told_.sized(sample.densities.front());
    const auto density = chem::density_of(substance);
    if (!density) return std::nullopt;
    return Sized{density->value * 1000, 5};
  }

  /// Density, mass and volume of one portion.
  void weighings(const Sample& sample, std::size_t d) {
    if (!told_.stands(d)) return;
    for (const std::size_t v : sample.members) {
      if (told_.kind(v) != Kind::volume || !told_.stands(v)) continue;
      std::vector<std::size_t> masses = told_.around(v, Kind::mass);
      std::erase_if(masses, [&](std::size_t m) { return !told_.one_sample(m, v); });
      const auto fits = std::find_if(masses.begin(), masses.end(),
                                     [&](std::size_t m) { return told_.agrees(m, told_.sized(v) * told_.sized(d)); });
      if (fits != masses.end()) masses = {*fits};  // the others are other weighings of it
      for (const std::size_t m : masses) {
        const std::size_t last = std::max({d, v, m});
        const Sized gives = last == m   ? told_.sized(v) * told_.sized(d)
                            : last == d ? told_.sized(m) / told_.sized(v)
                                        : told_.sized(m) / told_.sized(d);
        to_.offer(last, ground_of_pair(told_, m, v), gives,
                  {RelationType::same_portion,
                   {{"volume", v, ""}, {"mass", m, ""}, {"density", d, ""}},
                   {},
                   told_[v].subject,
                   "mass from volume and density"});
      }
    }
  }

  /// What spoons and cups hold of a powder is less than its density says.
  bool is_spoonful(std::size_t v) const {
    const std::string& unit = told_[v].reading.unit;
    return unit == "[tsp_us]" || unit == "[tbs_us]" || unit == "[cup_us]";
  }

  /// Mass and volume of one portion with a density nobody says, or that was said of another portion of it.
  void mass_and_volume(std::size_t v) {
    for (const std::size_t m : told_.around(v, Kind::mass)) {
      const bool tied = told_.one_sample(m, v);
      if (!tied && !told_.same_matter(m, v)) continue;
      if (!told_.sample_of(v).densities.empty() || is_spoonful(v)) continue;  // weighed already, or heaped
      const std::size_t last = std::max(m, v);
      const Sample& sample = told_.sample_of(v);
      const auto offer = [&](std::optional<std::size_t> d, double grounds, const Sized& density) {
        SpokenRelation r{RelationType::same_portion,
                         {{"volume", v, ""}, {"mass", m, ""}},
                         {{"substance", substance_of(told_[v].subject)}},
                         told_[v].subject,
                         "mass from volume and density"};
        if (d) r.terms.push_back({"density", *d, ""});
        to_.offer(last, grounds, last == m ? told_.sized(v) * density : told_.sized(m) / density, std::move(r));
      };
      for (std::size_t d = 0; d < last; ++d) {
        if (!told_.stands(d) || told_.kind(d) != Kind::density || !told_.may_be_same_matter(d, v)) continue;
        constexpr int in_one_breath = 4;
        const bool its = tied && told_.same_matter(d, v) && told_.sentences_between(d, v) <= in_one_breath;
        offer(d, its ? ground::fair : ground::loose, told_.sized(d));
      }
      if (!tied || !sample.strengths.empty() || !sample.densities.empty()) continue;
      if (const auto density = density_of(sample, substance_of(told_[v].subject)))
        offer(std::nullopt, ground::fair, *density);
    }
  }

  /// A strength in moles and one in percent of one solution, through its density.
  void strengths(std::size_t c) {
    const std::string substance = substance_of(told_[c].subject);
    const auto molar_mass = told_.molar_mass(substance);
    if (!molar_mass) return;
    const auto of_one = [&](std::size_t a, std::size_t b) {
      const auto x = told_[a].attached_to;
      const auto y = told_[b].attached_to;
      return x && y && told_.stands(*x) && told_.stands(*y) && told_.one_sample(*x, *y);
    };
    for (std::size_t p = 0; p < told_.size(); ++p) {
      if (told_.kind(p) != Kind::mass_percent || !told_.stands(p) || !told_.same_matter(c, p)) continue;
      by_table(c, p, of_one(c, p) || told_.one_sample(c, p), substance, *molar_mass);
      for (std::size_t d = 0; d < told_.size(); ++d) {
        if (told_.kind(d) != Kind::density || !told_.stands(d) || !told_.same_matter(c, d)) continue;
        const std::size_t last = std::max(c, p);
        const Sized gives =
            last == p ? told_.sized(c) * *molar_mass / told_.sized(d) : told_.sized(p) * told_.sized(d) / *molar_mass;
        to_.offer(last, of_one(c, p) ? ground::fair : ground::loose, gives,
                  {RelationType::in_solution,
                   {{"strength", c, ""}, {"strength", p, ""}, {"density", d, ""}},
                   {{"substance", substance}},
                   told_[c].subject,
                   "one strength in moles and in percent"});
      }
    }
  }

  /// With the density the tables have for that strength.
  void by_table(std::size_t c, std::size_t p, bool tied, const std::string& substance, const Sized& molar_mass) {
    const auto density = solution_density(substance, told_.sized(p).value);
    if (!density) return;
    const std::size_t last = std::max(c, p);
    const Sized gives = last == p ? told_.sized(c) * molar_mass / *density : told_.sized(p) * *density / molar_mass;
    to_.offer(last, tied ? ground::fair : ground::faint, gives,
              {RelationType::in_solution,
               {{"strength", c, ""}, {"strength", p, ""}},
               {{"substance", substance}},
               told_[c].subject,
               "one strength in moles and in percent"});
  }

  /// The same quantity again, in another unit. In the same unit a different number is another weighing, or what was
  /// aimed at: no mistake.
  void said_again(std::size_t i) {
    for (const std::size_t k : told_.sample_of(i).members) {
      if (k >= i || told_.kind(k) != told_.kind(i) || !told_.stands(k)) continue;
      const bool converted = told_[k].reading.unit != told_[i].reading.unit;
      const bool plain = converted && told_[i].unit_said && told_[k].unit_said;
      to_.offer(i,
                plain       ? ground_of_pair(told_, i, k)
                : converted ? ground::weak
                            : ground::loose,
                told_.sized(k),
                {RelationType::same_portion,
                 {{"same", k, ""}, {"same", i, ""}},
                 {},
                 told_[i].subject,
                 converted ? "said again in another unit" : "said again"});
    }
  }

  const Ledger& told_;
  Wirings& to_;
};

}  // namespace

void wire_portions(const Ledger& told, Wirings& to) { Portions(told, to).run(); }

}  // namespace sash::narration
