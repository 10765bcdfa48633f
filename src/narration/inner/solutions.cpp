#include "narration/inner/solutions.h"

#include <algorithm>

#include "chem/commercial.h"
#include "narration/inner/equations.h"

namespace sash::narration {

namespace {

using model::RelationType;
using model::Role;
using quantity::Kind;

class Solutions {
 public:
  Solutions(const Ledger& told, Wirings& to) : told_(told), to_(to) {}

  void run() {
    for (std::size_t i = 0; i < told_.size(); ++i) {
      if (!told_.stands(i)) continue;
      const Kind k = told_.kind(i);
      if (k == Kind::molar_concentration || k == Kind::mass_percent || k == Kind::mass_concentration) made_up(i);
      if (k == Kind::molar_concentration || k == Kind::volume_percent) diluted(i);
      if (k == Kind::molar_concentration) {
        mixed(i);
        titrated(i);
      }
    }
  }

 private:
  bool molar(std::size_t i) const { return told_.kind(i) == Kind::molar_concentration; }

  /// The volume a strength is of: the one it is tied to, or the one that was said in the same breath.
  std::vector<std::size_t> volumes_of(std::size_t strength) const {
    std::vector<std::size_t> found;
    const auto to = told_[strength].attached_to;
    if (to && told_.stands(*to)) {
      for (const std::size_t m : told_.sample_of(*to).members) {
        if (told_.kind(m) == Kind::volume && told_.stands(m)) found.push_back(m);
      }
    }
    return found;
  }

  /// Solute, and what it was dissolved in or made up to.
  void made_up(std::size_t i) {
    constexpr std::size_t reach = 10;
    auto solutes = told_.before(i, reach, 4, [&](std::size_t k) {
      const Kind kind = told_.kind(k);
      return (kind == Kind::mass || kind == Kind::amount) && told_.same_matter(i, k) && !told_.one_sample(i, k) &&
             is_pure(k, i);
    });
    const std::vector<std::size_t> own = volumes_of(i);
    // "0.09 moles of iron in 450 mils, so the ink is 0.2 molar": called by the name of the mixture.
    if (solutes.empty() && molar(i) && !own.empty() && !told_.matter(i).empty() && !matter_of(told_[i].subject)) {
      solutes = told_.before(i, reach, 1, [&](std::size_t k) {
        return told_.kind(k) == Kind::amount && !told_.matter(k).empty() && is_pure(k, i);
      });
    }
    auto bases = told_.before(i, reach, 4, [&](std::size_t k) {
      const bool solvent = told_.matter(k) == "water" || told_.role(k) == Role::solvent;
      if (told_.kind(k) == Kind::volume) return solvent || told_.same_matter(i, k);
      const bool solution = told_.same_matter(i, k);
      return told_.kind(k) == Kind::mass && !molar(i) && (solvent || solution);
    });
    for (const std::size_t k : own) {
      if (std::find(bases.begin(), bases.end(), k) == bases.end()) bases.push_back(k);
    }
    // "2 grams of pigment in 3 grams of oil": what the solute is said to be part of need not be water.
    for (const std::size_t k : told_.before(i, 3, 2, [&](std::size_t b) {
           return !molar(i) && told_.kind(b) == Kind::mass && told_.role(b) == Role::added;
         })) {
      if (std::find(bases.begin(), bases.end(), k) == bases.end()) bases.push_back(k);
    }
    std::sort(bases.rbegin(), bases.rend());
    for (std::size_t s = 0; s < solutes.size(); ++s) {
      for (std::size_t b = 0; b < bases.size(); ++b) {
        if (told_.one_sample(solutes[s], bases[b])) continue;
        const bool its = std::find(own.begin(), own.end(), bases[b]) != own.end();
        const bool nearest = s == 0 || told_.one_sample(solutes[s], solutes[0]);
        const double grounds = nearest && its                     ? ground::firm
                               : nearest && b == 0 && own.empty() ? ground::fair
                                                                  : ground::loose;
        dissolve(i, solutes[s], bases[b], grounds);
      }
    }
  }

  /// Acids and ammonia that come in bottles of their solution: what is weighed of them is no pure solute.
  static bool is_bought_as_solution(const std::string& matter) {
    constexpr double nearly_pure = 0.9;
    if (!matter.ends_with(" acid") && matter != "ammonia") return false;
    const auto bought = chem::commercial_solution("concentrated " + matter);
    return bought && bought->solution.w < nearly_pure;
  }

  /// No strength is said of it but perhaps figure `strength`.
  bool is_pure(std::size_t k, std::size_t strength) const {
    if (told_.kind(k) == Kind::mass && is_bought_as_solution(told_.matter(k))) return false;
    const auto& strengths = told_.sample_of(k).strengths;
    return std::all_of(strengths.begin(), strengths.end(), [&](std::size_t s) { return s == strength; });
  }

  void dissolve(std::size_t i, std::size_t solute, std::size_t base, double grounds) {
    const std::string substance = substance_of(told_[solute].subject);
    const bool weighed = told_.kind(solute) == Kind::mass;
    const auto molar_mass = told_.molar_mass(substance);
    const Sized n = told_.sized(solute);
    SpokenRelation r{RelationType::in_solution,
                     {{weighed ? "solute_mass" : "solute_amount", solute, ""}},
                     {{"substance", substance}},
                     told_[i].subject,
                     "a solution that was made up"};
    std::optional<Sized> gives;
    if (weighed && !told_.named_nearby(i, substance) && !told_.named_nearby(solute, substance))
      grounds = std::min(grounds, ground::weak);
    if (told_.kind(base) == Kind::mass) {
      if (!weighed || molar(i) || (told_.same_matter(base, solute) && told_.sized(base).value <= n.value)) return;
      if (told_.same_matter(base, solute) && !told_[base].subject.ends_with(" solution")) grounds = ground::loose;
      const bool solvent = told_.role(base) == Role::solvent || !told_.same_matter(base, solute);
      r.terms.push_back({solvent ? "solvent_mass" : "solution_mass", base, ""});
      gives = n / (solvent ? n + told_.sized(base) : told_.sized(base));
    } else if (molar(i)) {
      r.terms.push_back({"solution_volume", base, ""});
      if (weighed && molar_mass) gives = n / *molar_mass / told_.sized(base);
      if (!weighed) gives = n / told_.sized(base);
    } else if (weighed) {
      return by_volume_of_solvent(i, solute, base, grounds, std::move(r));
    } else {
      return;
    }
    r.terms.push_back({"strength", i, ""});
    to_.offer(i, grounds, gives, std::move(r));
  }

  /// A percentage with a volume of water: by mass of the whole, or in the volume as kitchens and pharmacies mean it.
  void by_volume_of_solvent(std::size_t i, std::size_t solute, std::size_t base, double grounds, SpokenRelation r) {
    constexpr double water = 1000;  // kg/m3; the strength is not said to more digits than that
    const Sized mass = told_.sized(solute);
    const Sized of_base = scaled(told_.sized(base), water);
    if (told_.kind(i) == Kind::mass_concentration) {
      r.terms.push_back({"solution_volume", base, ""});
      r.terms.push_back({"strength", i, ""});
      return to_.offer(i, grounds, mass / told_.sized(base), std::move(r));
    }
    SpokenRelation in_volume = r;
    in_volume.terms.push_back({"solution_volume", base, ""});
    in_volume.terms.push_back({"strength", i, ""});
    in_volume.given["density"] = "1 g/mL";
    to_.offer(i, grounds - 0.05, mass / of_base, std::move(in_volume));
    if (told_.role(base) != Role::solvent) return;
    r.terms.push_back({"solvent_volume", base, ""});
    r.terms.push_back({"strength", i, ""});
    to_.offer(i, grounds, mass / (mass + of_base), std::move(r));
  }

  /// The solute stays, the solution grows. Either the weak strength or the strong one is what was worked out.
  void diluted(std::size_t i) {
    constexpr std::size_t reach = 14;
    const auto strengths = told_.before(i, reach, 3, [&](std::size_t k) {
      return told_.kind(k) == told_.kind(i) && told_.same_matter(i, k) && !told_.one_sample(i, k);
    });
    const auto volumes = told_.before(i, reach, 6, [&](std::size_t k) {
      return told_.kind(k) == Kind::volume &&
             (told_.same_matter(i, k) || told_.matter(k) == "water" || !told_[k].sum_of.empty());
    });
    for (const std::size_t other : strengths) {
      const bool weaker = told_.sized(i).value < told_.sized(other).value;
      const std::size_t strong = weaker ? other : i;
      const std::size_t weak = weaker ? i : other;
      const auto taken = volumes_of(strong);
      const auto made = volumes_of(weak);
      for (std::size_t a = 0; a < volumes.size(); ++a) {
        for (std::size_t b = 0; b < volumes.size(); ++b) {
          if (told_.sized(volumes[a]).value >= told_.sized(volumes[b]).value) continue;
          const auto is_of = [&](const std::vector<std::size_t>& own, std::size_t v) {
            return std::find(own.begin(), own.end(), v) != own.end();
          };
          dilute(i, strong, weak, volumes[a], volumes[b], is_of(taken, volumes[a]), is_of(made, volumes[b]),
                 other == strengths.front());
        }
      }
    }
  }

  void dilute(std::size_t i, std::size_t strong, std::size_t weak, std::size_t taken, std::size_t made, bool its_taken,
              bool its_made, bool nearest) {
    const Sized factor = told_.sized(taken) / told_.sized(made);
    const Sized gives = i == weak ? told_.sized(strong) * factor : told_.sized(weak) / factor;
    const std::string substance = substance_of(told_[i].subject);
    const bool in_order = taken < made;
    const double grounds = !nearest                                                              ? ground::loose
                           : its_taken && its_made                                               ? ground::firm
                           : its_made && i == weak && in_order && told_.same_matter(taken, made) ? ground::fair
                                                                                                 : ground::loose;
    to_.offer(i, grounds, gives,
              {RelationType::dilution,
               {{"strength_before", strong, ""},
                {"volume_before", taken, ""},
                {"volume_after", made, ""},
                {"strength_after", weak, ""}},
               {{"substance", substance}},
               told_[i].subject,
               "a solution that was diluted"});
    // "20 mL of it and 80 of water": the whole is not said.
    if (told_.matter(made) != "water" && told_.role(made) != Role::solvent) return;
    const Sized sum = told_.sized(taken) + told_.sized(made);
    const Sized less = told_.sized(taken) / sum;
    to_.offer(i, grounds, i == weak ? told_.sized(strong) * less : told_.sized(weak) / less,
              {RelationType::dilution,
               {{"strength_before", strong, ""},
                {"volume_before", taken, ""},
                {"solvent_added", made, ""},
                {"strength_after", weak, ""}},
               {{"substance", substance}},
               told_[i].subject,
               "a solution that was diluted"});
  }

  /// What was poured together: a strength in the mixture goes back to the portion that brought the substance in.
  void mixed(std::size_t i) {
    constexpr std::size_t reach = 6;
    constexpr std::size_t whole_story = 40;
    const auto pools = told_.before(
        i, reach, 1, [&](std::size_t k) { return told_.kind(k) == Kind::volume && !told_[k].sum_of.empty(); });
    if (pools.empty()) return;
    const std::size_t pool = pools.front();
    const auto& parts = told_[pool].sum_of;
    const auto named = [&](std::size_t part) {
      std::string others;
      for (const std::size_t other : parts) others += other == part ? "" : told_[other].subject + " ";
      return told_.same_matter(i, part) || told_.sentence_names(i, substance_of(told_[part].subject), others);
    };
    const bool any_named = std::any_of(parts.begin(), parts.end(), named);
    for (const std::size_t part : parts) {
      if (!told_.stands(part) || told_.matter(part).empty() || (any_named && !named(part))) continue;
      const auto strengths =
          told_.before(i, whole_story, 1, [&](std::size_t k) { return molar(k) && told_.same_matter(k, part); });
      if (strengths.empty()) continue;
      const std::size_t before = strengths.front();
      if (told_.sized(i).value >= told_.sized(before).value) continue;  // the stock itself, said again
      to_.offer(i, any_named ? ground::firm : ground::loose,
                told_.sized(before) * told_.sized(part) / told_.sized(pool),
                {RelationType::dilution,
                 {{"strength_before", before, ""},
                  {"volume_before", part, ""},
                  {"volume_after", pool, ""},
                  {"strength_after", i, ""}},
                 {{"substance", substance_of(told_[part].subject)}},
                 told_[i].subject,
                 "its part in what was poured together"});
    }
  }

  /// Titrant of a known strength, a volume of it, and the sample it was run into.
  void titrated(std::size_t i) {
    constexpr std::size_t reach = 12;
    if (told_.role(i) != Role::stated_result) return;
    const auto titrants = told_.before(
        i, reach, 3, [&](std::size_t k) { return molar(k) && !told_.same_matter(i, k) && !told_.matter(k).empty(); });
    for (const std::size_t titrant : titrants) {
      const auto own = volumes_of(titrant);
      const auto used = told_.before(i, reach, 4, [&](std::size_t k) {
        return told_.kind(k) == Kind::volume &&
               (told_.same_matter(k, titrant) || std::find(own.begin(), own.end(), k) != own.end());
      });
      const auto samples = told_.before(
          i, reach, 4, [&](std::size_t k) { return told_.kind(k) == Kind::volume && told_.same_matter(k, i); });
      for (std::size_t u = 0; u < used.size(); ++u) {
        for (std::size_t s = 0; s < samples.size(); ++s) {
          const bool plain = titrant == titrants.front() && u == 0 && s == 0 && !is_found_before(i, used[u]);
          titrate(i, titrant, used[u], samples[s], plain ? ground::fair : ground::loose);
        }
      }
    }
  }

  /// Whether a strength was worked out between the titration and figure `i`, which then follows from that one.
  bool is_found_before(std::size_t i, std::size_t used) const {
    return !told_.before(i, i - used, 1, [&](std::size_t k) { return k > used && molar(k) && told_.same_matter(i, k); })
                .empty();
  }

  void titrate(std::size_t i, std::size_t titrant, std::size_t used, std::size_t sample, double grounds) {
    const Sized equal = told_.sized(titrant) * told_.sized(used) / told_.sized(sample);
    SpokenRelation r{RelationType::titration,
                     {{"titrant_volume", used, ""},
                      {"titrant_strength", titrant, ""},
                      {"sample_volume", sample, ""},
                      {"sample_strength", i, ""}},
                     {{"substance", substance_of(told_[i].subject)}},
                     told_[i].subject,
                     "a strength found by titration"};
    if (const auto equation = neutralisation(told_[i].subject, told_[titrant].subject)) {
      r.given["equation"] = equation->text;
      r.given["analyte"] = equation->one;
      r.given["titrant"] = equation->other;
      return to_.offer(i, grounds, scaled(equal, equation->ratio), std::move(r));
    }
    // Moles of analyte to one of titrant, as the usual titrations have them.
    struct Ratio {
      const char* text;
      double value;
    };
    constexpr Ratio ratios[] = {{"1", 1}, {"1/2", 0.5}, {"2", 2}, {"1/3", 1.0 / 3}, {"5/2", 2.5}, {"5", 5}};
    for (const Ratio& ratio : ratios) {
      r.given["ratio"] = ratio.text;
      to_.offer(i, ground::loose, scaled(equal, ratio.value), r);
    }
  }

  const Ledger& told_;
  Wirings& to_;
};

}  // namespace

void wire_solutions(const Ledger& told, Wirings& to) { Solutions(told, to).run(); }

}  // namespace sash::narration
