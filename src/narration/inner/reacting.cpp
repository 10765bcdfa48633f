#include "narration/inner/reacting.h"

#include <algorithm>
#include <deque>
#include <set>

#include "chem/elements.h"
#include "chem/names.h"
#include "narration/inner/equations.h"

namespace sash::narration {

namespace {

using model::RelationType;
using model::Role;
using quantity::Kind;

bool is_portion(Kind k) { return k == Kind::mass || k == Kind::amount || k == Kind::volume || k == Kind::gas_volume; }

/// Formulas of what is weighed out or expected anywhere.
std::vector<std::string> named_products(const Ledger& told) {
  constexpr std::size_t most = 6;
  std::vector<std::string> named;
  for (std::size_t i = 0; i < told.size() && named.size() < most; ++i) {
    const bool out = told.role(i) == Role::product || told.role(i) == Role::stated_result;
    if (!out || !is_portion(told.kind(i))) continue;
    const auto matter = matter_of(told[i].subject);
    if (matter && std::find(named.begin(), named.end(), matter->formula) == named.end())
      named.push_back(matter->formula);
  }
  return named;
}

class Reactions {
 public:
  Reactions(const Ledger& told, Wirings& to) : told_(told), to_(to), named_(named_products(told)), equations_(named_) {}

  void run() {
    for (std::size_t i = 0; i < told_.size(); ++i) {
      const Kind k = told_.kind(i);
      const bool solid_or_gas = k == Kind::mass || k == Kind::amount || k == Kind::gas_volume;
      if (!told_.stands(i) || !solid_or_gas || !told_[i].sum_of.empty() || told_[i].same_sample_as) continue;
      if (told_.role(i) == Role::stated_result) in_theory(i);
      if (told_.role(i) == Role::stated_result && k != Kind::gas_volume) of_the_metal(i);
      if (told_.role(i) != Role::product && told_.role(i) != Role::recovered) needed(i);
    }
    for (std::size_t i = 0; i < told_.size(); ++i) {
      if (told_.stands(i) && told_.kind(i) == Kind::equivalents) equivalents(i);
      if (told_.stands(i) && told_.kind(i) == Kind::percent_yield) of_the_yield(i);
    }
  }

 private:
  /// A sample that was put in, as what reacts.
  struct In {
    Matter matter;
    std::optional<std::size_t> figure;  ///< the member that tells its amount best; nothing: it is put in only later
    std::optional<Sized> moles;         ///< nothing: it cannot be computed here
    bool dissolved = false;             ///< the moles are strength times volume; the figure is the volume
  };

  std::optional<Sized> moles(std::size_t i, const std::string& substance) const {
    const Kind k = told_.kind(i);
    if (k == Kind::amount) return told_.sized(i);
    if (k == Kind::gas_volume) return scaled(told_.sized(i), 1 / room_molar_volume);
    if (k != Kind::mass) return std::nullopt;
    const auto molar_mass = told_.molar_mass(substance);
    if (!molar_mass) return std::nullopt;
    return told_.sized(i) / *molar_mass;
  }

  /// The members that tell the amount: moles that were said, a mass, unless it is one of a solution.
  std::vector<In> ins_of(const Sample& sample) const {
    std::vector<In> found;
    const auto matter = matter_of(told_[sample.members.front()].subject);
    if (!matter) return found;
    for (const Kind wanted : {Kind::amount, Kind::mass, Kind::gas_volume, Kind::volume}) {
      for (auto m = sample.members.rbegin(); m != sample.members.rend();
           ++m) {  // what was weighed after what was wanted
        if (told_.kind(*m) != wanted || !told_.stands(*m)) continue;
        const bool dissolved = !sample.strengths.empty() && wanted != Kind::amount;
        if (dissolved && !found.empty()) continue;
        if (dissolved) {
          found.push_back({*matter, *m, moles_in_solution(*m, sample), true});
        } else {
          found.push_back({*matter, *m, moles(*m, substance_of(told_[*m].subject))});
        }
      }
    }
    return found;
  }

  /// "20 mL of 2 molar acid".
  std::optional<Sized> moles_in_solution(std::size_t volume, const Sample& sample) const {
    if (told_.kind(volume) != Kind::volume) return std::nullopt;
    for (const std::size_t strength : sample.strengths) {
      if (told_.stands(strength) && told_.kind(strength) == Kind::molar_concentration)
        return told_.sized(volume) * told_.sized(strength);
    }
    return std::nullopt;
  }
  std::optional<In> in_of(const Sample& sample) const {
    auto all = ins_of(sample);
    if (all.empty()) return std::nullopt;
    return std::move(all.front());
  }

  bool put_in(std::size_t i) const {
    return is_portion(told_.kind(i)) && (told_.role(i) == Role::measured_out || told_.role(i) == Role::added);
  }

  /// What was measured in lately before figure `i`, newest first, one for each substance.
  std::vector<In> measured_in(std::size_t i, const std::string& product) const {
    constexpr std::size_t most = 4;
    constexpr std::size_t reach = 40;
    std::vector<In> found;
    std::set<std::string> seen;
    const auto& samples = told_.samples();
    for (std::size_t k = samples.size(); k-- > 0 && found.size() < most;) {
      const std::size_t first = samples[k].members.front();
      if (first >= i) continue;
      if (i - first > reach) break;
      if (!put_in(first)) continue;
      auto in = in_of(samples[k]);
      if (!in || in->matter.formula == product || !seen.insert(in->matter.formula).second) continue;
      found.push_back(std::move(*in));
    }
    return found;
  }

  /// What is put in next: a speaker may say what will come of it before the other reactant is measured.
  std::vector<In> measured_in_next(std::size_t i, const std::string& product) const {
    constexpr std::size_t reach = 8;
    std::vector<In> found;
    for (std::size_t k = i + 1; k < told_.size() && k <= i + reach && found.size() < 2; ++k) {
      if (!told_.stands(k) || !put_in(k)) continue;
      auto matter = matter_of(told_[k].subject);
      if (matter && matter->formula != product) found.push_back({std::move(*matter), std::nullopt, std::nullopt});
    }
    return found;
  }

  /// What the reactants measured in last can make of the substance of figure `i`, else more of them.
  void in_theory(std::size_t i) {
    const auto product = matter_of(told_[i].subject);
    if (!product) return;
    const auto in = measured_in(i, product->formula);
    double grounds = ground::fair;
    const auto attempt = [&](const std::vector<const In*>& used, bool thorough) {
      std::vector<Matter> reactants;
      for (const In* r : used) reactants.push_back(r->matter);
      const auto& ways = equations_.from(reactants, product->formula, thorough);
      for (const BalancedWay& way : ways) {
        // Something that falls apart by itself is rarer than a reactant we have not noticed.
        const bool sure_of_all = ways.size() == 1 && (used.size() > 1 || way.only_product);
        const double sure = sure_of_all ? grounds : std::min(grounds, ground::weak);
        offer_product(i, *product, used, way, ways, sure);
        // Moles that were said wrong do not make what follows from the mass wrong.
        for (const auto& other : told_otherwise(used)) offer_product(i, *product, other, way, ways, sure - 0.01);
        if (used.size() == 2) together_.push_back({used[0]->matter.formula, used[1]->matter.formula, way.equation});
      }
      if (!ways.empty() && used.size() > 1) grounds = ground::weak;
    };
    for (std::size_t a = 0; a < in.size(); ++a) {
      attempt({&in[a]}, false);
      for (std::size_t b = a + 1; b < in.size(); ++b) attempt({&in[a], &in[b]}, a == 0 && b == 1);
    }
    if (in.empty() || grounds < ground::fair) return;
    for (const In& next : measured_in_next(i, product->formula)) attempt({&in.front(), &next}, false);
  }

  /// The same reactants, each by another member of its sample.
  std::vector<std::vector<const In*>> told_otherwise(const std::vector<const In*>& used) {
    std::vector<std::vector<const In*>> all;
    for (std::size_t k = 0; k < used.size(); ++k) {
      if (!used[k]->figure) continue;
      for (In& in : ins_of(told_.sample_of(*used[k]->figure))) {
        if (in.figure == used[k]->figure || !in.moles) continue;
        others_.push_back(std::move(in));
        all.push_back(used);
        all.back()[k] = &others_.back();
      }
    }
    return all;
  }

  void offer_product(std::size_t i, const Matter& product, const std::vector<const In*>& used, const BalancedWay& way,
                     const std::vector<BalancedWay>& all, double grounds) {
    SpokenRelation r;
    r.type = RelationType::reaction;
    r.label = way.equation;
    r.rule = "reactants measured in, product expected, balanced";
    r.given["equation"] = way.equation;
    // Other equations that balance are named for the person to choose from.
    for (const BalancedWay& other : all) {
      if (!(other == way))
        r.given["other_equations"] += (r.given["other_equations"].empty() ? "" : "; ") + other.equation;
    }
    const auto extent = put_in_terms(used, way, r);
    if (!extent) return;
    r.terms.push_back({"product", i, product.formula});
    std::optional<Sized> gives;
    if (*extent) gives = as_said(i, scaled(**extent, way.out));
    to_.offer(i, grounds, gives, std::move(r));
  }

  /// The reactants as terms, and how far the reaction can go by them; nothing inside where that is not known. Nothing
  /// at all where a dissolved one would run out first: its moles are no figure.
  std::optional<std::optional<Sized>> put_in_terms(const std::vector<const In*>& used, const BalancedWay& way,
                                                   SpokenRelation& r) const {
    std::optional<Sized> extent;
    bool by_dissolved = false;
    for (std::size_t k = 0; k < used.size(); ++k) {
      const In& in = *used[k];
      if (in.figure && !(in.dissolved && in.moles)) r.terms.push_back({"reactant", *in.figure, in.matter.formula});
      if (!in.moles) continue;
      const Sized reach = scaled(*in.moles, 1 / way.in[k]);
      if (extent && reach.value >= extent->value) continue;
      extent = reach;
      by_dissolved = in.dissolved;
    }
    if (by_dissolved) return std::nullopt;
    return extent;
  }

  /// "I got 3.8 grams of aspirin, a yield of 84 per cent": of what the reactants measured in could have made, though
  /// nobody says how much that is.
  void of_the_yield(std::size_t i) {
    const auto got = obtained(i);
    if (!got) return;
    if (theory_is_told(i, *got)) return;
    const auto product = matter_of(told_[*got].subject);
    const auto isolated = product ? moles(*got, substance_of(told_[*got].subject)) : std::nullopt;
    if (!isolated) return;
    const auto in = measured_in(*got, product->formula);
    const bool in_one_breath = told_.sentences_between(*got, i) == 0 && i - *got == 1;
    const double grounds = in_one_breath ? ground::firm : ground::fair;
    // Two reactants that make it say more than one that falls apart; the newest pair is likeliest.
    for (std::size_t a = 0; a < in.size(); ++a) {
      for (std::size_t b = a + 1; b < in.size(); ++b) {
        if (offer_yield(i, *got, *product, *isolated, {&in[a], &in[b]}, grounds)) return;
      }
    }
    for (const In& only : in) {
      if (offer_yield(i, *got, *product, *isolated, {&only}, std::min(grounds, ground::fair))) return;
    }
  }

  /// What was isolated, of which figure `percent` is the share.
  std::optional<std::size_t> obtained(std::size_t percent) const {
    constexpr std::size_t reach = 5;
    const auto is_it = [&](std::size_t k) {
      const bool out = told_.role(k) == Role::product || told_.role(k) == Role::recovered;
      return out && (told_.kind(k) == Kind::mass || told_.kind(k) == Kind::amount) &&
             told_.may_be_same_matter(k, percent);
    };
    const auto to = told_[percent].attached_to;
    if (to && told_.stands(*to) && is_it(*to)) return to;
    const auto last = told_.before(percent, reach, 1, is_it);
    return last.empty() ? std::nullopt : std::optional(last.front());
  }

  /// Whether it is said how much there could have been.
  bool theory_is_told(std::size_t percent, std::size_t got) const {
    constexpr std::size_t reach = 12;
    const std::size_t end = std::min(told_.size(), percent + reach / 2);
    for (std::size_t k = percent - std::min(percent, reach); k < end; ++k) {
      const bool portion = told_.kind(k) == Kind::mass || told_.kind(k) == Kind::amount;
      if (portion && told_.role(k) == Role::stated_result && told_.same_matter(k, got) && !told_.one_sample(k, got))
        return true;
    }
    return false;
  }

  bool offer_yield(std::size_t percent, std::size_t got, const Matter& product, const Sized& isolated,
                   const std::vector<const In*>& used, double grounds) {
    std::vector<Matter> reactants;
    for (const In* in : used) reactants.push_back(in->matter);
    const auto& ways = equations_.from(reactants, product.formula, true);
    if (ways.empty()) return false;
    const BalancedWay& way = ways.front();
    SpokenRelation r;
    r.type = RelationType::yield;
    r.label = told_[got].subject;
    r.rule = "obtained against what the reactants could make";
    r.given["equation"] = way.equation;
    r.terms = {{"actual", got, product.formula}, {"percent", percent, ""}};
    const auto extent = put_in_terms(used, way, r);
    if (!extent || !*extent || r.terms.size() < 3) return false;
    const double sure = ways.size() == 1 ? grounds : std::min(grounds, ground::fair);
    to_.offer(percent, sure, isolated / scaled(**extent, way.out), std::move(r));
    return true;
  }

  /// So many moles in the quantity of figure `i`.
  std::optional<Sized> as_said(std::size_t i, const Sized& n) const {
    if (told_.kind(i) == Kind::amount) return n;
    if (told_.kind(i) == Kind::gas_volume) {
      Sized volume = scaled(n, room_molar_volume);
      volume.spread = std::hypot(volume.spread, room_spread * volume.value);
      return volume;
    }
    const auto molar_mass = told_.molar_mass(substance_of(told_[i].subject));
    if (!molar_mass) return std::nullopt;
    return n * *molar_mass;
  }

  /// Over several steps: all of a metal that was put in comes out in the product.
  void of_the_metal(std::size_t i) {
    const auto product = chem::formula_of(substance_of(told_[i].subject));
    const auto out = moles(i, substance_of(told_[i].subject));
    if (!product || !out) return;
    for (const auto& sample : told_.samples()) {
      const std::size_t first = sample.members.front();
      if (first >= i || !put_in(first) || !sample.strengths.empty()) continue;
      const auto source = chem::formula_of(substance_of(told_[first].subject));
      if (!source || source->same_composition(*product)) continue;
      for (const chem::AtomCount& atoms : product->composition()) {
        const std::string element = chem::symbol_of(atoms.what);
        if (source->count_of(atoms.what).zero() || !is_kept(element)) continue;
        const double share = source->count_of(atoms.what).number() / atoms.count.number();
        for (const std::size_t m : sample.members) {
          const auto in = told_.stands(m) ? moles(m, substance_of(told_[m].subject)) : std::nullopt;
          if (!in || told_.kind(m) == Kind::gas_volume) continue;
          // There cannot be more of it than was put in.
          const auto most = as_said(i, scaled(*in, share));
          const bool too_much = most && told_.sized(i).value > most->value && is_only_source(first, i, atoms.what);
          to_.offer(i, too_much ? ground::fair : ground::weak, most,
                    {RelationType::element_balance,
                     {{"in", m, substance_of(told_[m].subject)}, {"out", i, substance_of(told_[i].subject)}},
                     {{"element", element}},
                     told_[i].subject,
                     "all of the metal comes out in the product"});
        }
      }
    }
  }

  /// Whether nothing else of the element was put in before figure `i`.
  bool is_only_source(std::size_t source, std::size_t i, chem::Nuclide element) const {
    return std::none_of(told_.samples().begin(), told_.samples().end(), [&](const Sample& sample) {
      const std::size_t other = sample.members.front();
      if (other >= i || told_.one_sample(other, source) || !is_portion(told_.kind(other))) return false;
      const auto formula = chem::formula_of(substance_of(told_[other].subject));
      return put_in(other) && formula && !formula->count_of(element).zero();
    });
  }

  /// Metals that a preparation is about, and not only the company of an anion.
  static bool is_kept(std::string_view symbol) {
    constexpr std::string_view kept[] = {"Cu", "Fe", "Co", "Ni", "Zn", "Ag", "Pb", "Mn", "Cr", "Al",
                                         "Mg", "Ca", "Ba", "Sn", "Bi", "Ti", "V",  "W",  "Mo", "Hg"};
    return std::find(std::begin(kept), std::end(kept), symbol) != std::end(kept);
  }

  /// How much of the substance of figure `i` something measured in before takes up: an acid its base.
  void needed(std::size_t i) {
    const auto wanted = matter_of(told_[i].subject);
    if (!wanted) return;
    const bool sought =
        told_.role(i) == Role::stated_result && (told_.sentence_has(i, "need") || told_.sentence_has(i, "neutrali"));
    for (const In& other : measured_in(i, wanted->formula)) {
      if (!other.moles) continue;
      const std::vector<Matter> both = {other.matter, *wanted};
      // What is spoken of as coming out tells more than the salts the two could form.
      std::vector<std::string> products = salts_of(both);
      for (const std::string& named : named_) {
        if (sought && std::find(products.begin(), products.end(), named) == products.end()) products.push_back(named);
      }
      for (const std::string& salt : products) {
        if (salt == other.matter.formula || salt == wanted->formula) continue;
        const auto& ways = equations_.from(both, salt, true);
        for (const BalancedWay& way : ways) {
          SpokenRelation r;
          r.type = RelationType::reaction;
          r.label = way.equation;
          r.rule = "what the other reactant takes";
          r.given["equation"] = way.equation;
          r.terms = {{"used", *other.figure, other.matter.formula}, {"used", i, wanted->formula}};
          const auto gives = as_said(i, scaled(*other.moles, way.in[1] / way.in[0]));
          const bool told = ways.size() == 1 && std::find(named_.begin(), named_.end(), salt) != named_.end();
          to_.offer(i, sought && told ? ground::fair : sought ? ground::weak : ground::loose, gives, std::move(r));
        }
      }
    }
  }

  /// Moles of one reactant to one mole of another.
  void equivalents(std::size_t i) {
    const auto to = told_[i].attached_to ? told_[i].attached_to : told_[i].same_sample_as;
    if (!to || !told_.stands(*to)) return;
    const auto its = in_of(told_.sample_of(*to));
    if (!its || !its->moles) return;
    for (const In& base : measured_in(i, its->matter.formula)) {
      const auto equation = equation_with(base.matter, its->matter);
      if (!base.moles || told_.one_sample(*base.figure, *its->figure) || !equation) continue;
      SpokenRelation r;
      r.type = RelationType::reaction;
      r.label = *equation;
      r.rule = "moles of one reactant to one of the other";
      r.given = {{"equation", *equation}, {"equivalents_of", base.matter.formula}};
      r.terms = {{"reactant", *base.figure, base.matter.formula},
                 {"reactant", *its->figure, its->matter.formula},
                 {"equivalents", i, its->matter.formula}};
      to_.offer(i, ground::fair, *its->moles / *base.moles, std::move(r));
    }
  }

  /// One in which both react; any will do for their ratio.
  std::optional<std::string> equation_with(const Matter& a, const Matter& b) {
    for (const Together& t : together_) {
      if ((t.a == a.formula && t.b == b.formula) || (t.a == b.formula && t.b == a.formula)) return t.equation;
    }
    for (const std::string& salt : salts_of({a, b})) {
      const auto& ways = equations_.from({a, b}, salt, true);
      if (!ways.empty()) return ways.front().equation;
    }
    return std::nullopt;
  }

  struct Together {
    std::string a;
    std::string b;
    std::string equation;
  };

  static constexpr double room_molar_volume = 0.02406;  ///< m3/mol at 20 °C and 101.325 kPa, ideal gas law
  static constexpr double room_spread = 0.012;          ///< relative: a degree or two, and the weather

  const Ledger& told_;
  Wirings& to_;
  std::vector<std::string> named_;  ///< formulas of what comes out
  Equations equations_;
  std::deque<In> others_;           ///< stays where it is
  std::vector<Together> together_;  ///< pairs that make something that was spoken of
};

}  // namespace

void wire_reactions(const Ledger& told, Wirings& to) { Reactions(told, to).run(); }

}  // namespace sash::narration
