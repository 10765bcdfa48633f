#include "narration/inner/reacting.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <set>

#include "chem/balance.h"
#include "chem/names.h"

namespace sash::narration {

namespace {

using model::Role;
using quantity::Kind;

/// By-products that reactions at the bench give off or leave behind; salts of the reactants are added to them.
constexpr std::array<std::string_view, 14> by_products = {"H2O",    "H2",    "CO2", "CH3COOH", "HCl", "NaCl", "KCl",
                                                          "Na2SO4", "NaNO3", "NO2", "NO",      "NH3", "O2",   "SO2"};

struct Matter {
  std::string name;
  std::string formula;
};

std::optional<Matter> matter_of(const std::string& subject) {
  const std::string name = substance_of(subject);
  if (name.empty() || name == "water") return std::nullopt;
  const auto known = chem::normalise_name(name);
  if (!known || !known->formula || known->is_mixture) return std::nullopt;
  std::string formula = *known->formula;
  // What reacts is the substance without its water of crystallisation.
  if (const std::size_t dot = formula.find("·"); dot != std::string::npos) formula.resize(dot);
  return Matter{name, formula};
}

bool is_portion(Kind k) { return k == Kind::mass || k == Kind::amount || k == Kind::volume || k == Kind::gas_volume; }

/// Salts that a metal or base among the reactants forms with the acid among them.
std::vector<std::string> salts_of(const std::vector<Matter>& reactants) {
  struct Acid {
    std::string_view formula;
    std::string_view anion;
  };
  constexpr std::array<Acid, 9> acids = {{{"HCl", "chloride"},
                                          {"H2SO4", "sulfate"},
                                          {"HNO3", "nitrate"},
                                          {"H3PO4", "phosphate"},
                                          {"CH3COOH", "acetate"},
                                          {"H2C2O4", "oxalate"},
                                          {"C6H8O7", "citrate"},
                                          {"HCOOH", "formate"},
                                          {"HBr", "bromide"}}};
  std::vector<std::string> salts;
  const auto add = [&](std::string_view cation, std::string_view anion) {
    const auto known = chem::normalise_name(std::string(cation) + " " + std::string(anion));
    if (known && known->formula) salts.push_back(*known->formula);
  };
  std::vector<std::string> cations;
  std::vector<std::string> anions;
  for (const Matter& m : reactants) {
    const std::string word = m.name.substr(0, m.name.find(' '));
    const auto acid = std::find_if(acids.begin(), acids.end(), [&](const Acid& a) { return a.formula == m.formula; });
    if (acid != acids.end()) {
      anions.emplace_back(acid->anion);
    } else {
      cations.push_back(word);
      if (m.name.find(' ') != std::string::npos) anions.push_back(m.name.substr(m.name.find(' ') + 1));
    }
  }
  for (const std::string& cation : cations) {
    for (const std::string& anion : anions) add(cation, anion);
  }
  return salts;
}

/// "Zn", "Al": one symbol.
bool is_element(const std::string& formula) {
  return !formula.empty() && formula.size() <= 2 && (formula.size() == 1 || (formula[1] >= 'a' && formula[1] <= 'z'));
}

/// A balanced equation and how many particles it takes: of several the simpler is likelier.
struct Balanced {
  std::string text;
  std::int64_t particles = 0;
};

/// Nothing when it does not balance, or only with numbers that no reaction at the bench has: many molecules of an
/// organic reactant rearranged into each other.
std::optional<Balanced> balanced(const std::vector<std::string>& left, const std::vector<std::string>& right) {
  const std::string text = fmt::format("{} -> {}", fmt::join(left, " + "), fmt::join(right, " + "));
  const auto equation = chem::read_equation(text);
  if (!equation) return std::nullopt;
  const auto found = chem::balance(*equation);
  if (!found || found->status != chem::BalanceStatus::balanced) return std::nullopt;
  Balanced out{found->balanced, 0};
  for (std::size_t i = 0; i < found->coefficients.size(); ++i) {
    out.particles += found->coefficients[i];
    const bool organic =
        i < left.size() && left[i].find('C') != std::string::npos && left[i].find('H') != std::string::npos;
    if (organic && found->coefficients[i] > 4) return std::nullopt;
  }
  return out.particles <= 40 ? std::optional(out) : std::nullopt;
}

/// Balanced equations from these reactants to that product with at most one by-product, else with two; the simplest
/// first. `named`: formulas of what else is spoken of, which are likelier by-products than unnamed ones.
std::vector<Balanced> candidates(const std::vector<Matter>& reactants, const std::string& product,
                                 const std::vector<std::string>& named, bool two_by_products) {
  constexpr std::size_t most = 3;
  std::vector<std::string> left;
  for (const Matter& m : reactants) left.push_back(m.formula);
  std::vector<std::string> others = salts_of(reactants);
  others.insert(others.end(), named.begin(), named.end());
  others.insert(others.end(), by_products.begin(), by_products.end());
  std::vector<std::string> distinct;
  const bool element = std::any_of(left.begin(), left.end(), is_element);
  for (std::string& f : others) {
    if (f == "H2" && !element) continue;  // hydrogen comes of a metal
    const bool part = f == product || std::find(left.begin(), left.end(), f) != left.end();
    if (!part && std::find(distinct.begin(), distinct.end(), f) == distinct.end()) distinct.push_back(std::move(f));
  }
  others = std::move(distinct);
  std::vector<Balanced> found;
  if (auto e = balanced(left, {product})) found.push_back(*e);
  for (const std::string& other : others) {
    if (auto e = balanced(left, {product, other})) found.push_back(*e);
  }
  for (std::size_t a = 0; a < others.size() && two_by_products && found.empty(); ++a) {
    for (std::size_t b = a + 1; b < others.size() && found.size() < most; ++b) {
      if (auto e = balanced(left, {product, others[a], others[b]})) found.push_back(*e);
    }
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Balanced& a, const Balanced& b) { return a.particles < b.particles; });
  if (found.size() > most) found.resize(most);
  return found;
}

/// The samples measured in lately before figure `product`, newest first, one for each substance.
std::vector<std::pair<Matter, const Sample*>> measured_in(const std::vector<SpokenFigure>& figures,
                                                          const std::vector<Sample>& samples, std::size_t product,
                                                          const std::string& product_formula) {
  std::vector<std::pair<Matter, const Sample*>> found;
  std::set<std::string> seen;
  for (std::size_t k = samples.size(); k-- > 0 && found.size() < 4;) {
    const Sample& s = samples[k];
    const std::size_t first = s.members.front();
    if (first >= product) continue;
    if (product - first > 40) break;
    const SpokenFigure& f = figures[first];
    if (!is_portion(f.kind) || (f.role != Role::measured_out && f.role != Role::added)) continue;
    const auto matter = matter_of(f.subject);
    if (!matter || matter->formula == product_formula || !seen.insert(matter->formula).second) continue;
    found.emplace_back(*matter, &s);
  }
  return found;
}

/// The simplest reaction to the product: of one or two of the substances measured in last.
struct Reacting {
  std::vector<std::size_t> used;  ///< places among the substances measured in
  std::vector<Balanced> equations;
};
std::optional<Reacting> simplest(const std::vector<std::pair<Matter, const Sample*>>& in, const std::string& product,
                                 const std::vector<std::string>& named) {
  std::optional<Reacting> best;
  std::int64_t best_cost = 0;
  const auto consider = [&](std::vector<std::size_t> used, std::vector<Balanced> equations) {
    if (equations.empty()) return;
    constexpr std::int64_t age = 12;  // particles that one place further back in the narration is worth
    std::int64_t cost = equations.front().particles;
    for (const std::size_t k : used) cost += age * static_cast<std::int64_t>(k);
    if (best && cost >= best_cost) return;
    best_cost = cost;
    best = Reacting{std::move(used), std::move(equations)};
  };
  for (std::size_t a = 0; a < in.size(); ++a) {
    for (std::size_t b = a + 1; b < in.size(); ++b)
      consider({a, b}, candidates({in[a].first, in[b].first}, product, named, false));
  }
  for (std::size_t a = 0; a < in.size() && !best; ++a) consider({a}, candidates({in[a].first}, product, named, false));
  if (!best && in.size() >= 2) consider({0, 1}, candidates({in[0].first, in[1].first}, product, named, true));
  return best;
}

/// Formulas of what is weighed out or expected anywhere.
std::vector<std::string> named_products(const std::vector<SpokenFigure>& figures) {
  std::vector<std::string> named;
  for (const SpokenFigure& f : figures) {
    const bool out = f.role == Role::product || f.role == Role::stated_result;
    if (!out || !is_portion(f.kind) || named.size() >= 6) continue;
    const auto matter = matter_of(f.subject);
    if (matter && std::find(named.begin(), named.end(), matter->formula) == named.end())
      named.push_back(matter->formula);
  }
  return named;
}

}  // namespace

std::optional<Neutralisation> neutralisation(const std::string& subject, const std::string& other) {
  const auto one = matter_of(subject);
  const auto two = matter_of(other);
  if (!one || !two || one->formula == two->formula) return std::nullopt;
  const auto is_acid = [](const Matter& m) { return m.name.ends_with("acid") || m.name == "vinegar"; };
  if (is_acid(*one) == is_acid(*two)) return std::nullopt;
  const Matter& base = is_acid(*one) ? *two : *one;
  const bool basic = base.name.ends_with("hydroxide") || base.name.ends_with("carbonate") || base.name == "ammonia" ||
                     base.name.ends_with("oxide");
  if (!basic) return std::nullopt;
  for (const std::string& salt : salts_of({*one, *two})) {
    for (const std::vector<std::string>& right :
         {std::vector<std::string>{salt, "H2O"}, {salt, "H2O", "CO2"}, std::vector<std::string>{salt}}) {
      if (auto text = balanced({one->formula, two->formula}, right))
        return Neutralisation{text->text, one->formula, two->formula};
    }
  }
  return std::nullopt;
}

std::vector<SpokenRelation> reactions(const std::vector<SpokenFigure>& figures, const std::vector<Sample>& samples) {
  std::vector<SpokenRelation> out;
  std::set<std::string> done;
  const std::vector<std::string> named = named_products(figures);
  for (std::size_t i = 0; i < figures.size(); ++i) {
    const SpokenFigure& f = figures[i];
    const bool theory = f.role == Role::stated_result && is_portion(f.kind) && f.sum_of.empty() && !f.same_sample_as;
    const bool weighed = f.role == Role::product || f.role == Role::recovered;
    if ((!theory && !weighed) || !is_portion(f.kind) || f.corrected_by) continue;
    const auto product = matter_of(f.subject);
    if (!product) continue;
    const auto in = measured_in(figures, samples, i, product->formula);
    const auto found = simplest(in, product->formula, named);
    if (!found) continue;
    const auto& [used, equations] = *found;
    SpokenRelation r;
    r.type = model::RelationType::reaction;
    for (const std::size_t k : used) {
      const auto& [matter, sample] = in[k];
      for (const std::size_t m : sample->members) {
        if (is_portion(figures[m].kind) && (figures[m].kind != Kind::volume || sample->strengths.empty())) {
          r.terms.push_back({"reactant", m, matter.formula});
          break;
        }
      }
    }
    // What the equation gives in theory is what was expected, not what was isolated.
    if (theory) r.terms.push_back({"product", i, product->formula});
    r.given["equation"] = equations.front().text;
    // Other equations that balance are named for the person to choose from.
    for (std::size_t e = 1; e < equations.size(); ++e)
      r.given["other_equations"] += (e > 1 ? "; " : "") + equations[e].text;
    r.label = equations.front().text;
    r.rule = "reactants measured in, product weighed out, balanced";
    r.confidence = equations.size() == 1 ? 0.6 : 0.4;
    if (r.terms.size() < 2 || !done.insert(r.label + "|" + std::to_string(r.terms.back().figure)).second) continue;
    out.push_back(std::move(r));
  }
  return out;
}

}  // namespace sash::narration
