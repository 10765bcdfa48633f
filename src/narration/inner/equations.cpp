#include "narration/inner/equations.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

#include "chem/balance.h"
#include "chem/names.h"
#include "narration/inner/relating.h"

namespace sash::narration {

namespace {

/// By-products that reactions at the bench give off or leave behind; salts of the reactants are added to them.
constexpr std::array<std::string_view, 15> by_products = {
    "H2O", "H2", "CO2", "CH3COOH", "HCl", "NaCl", "KCl", "Na2SO4", "NaNO3", "NO2", "NO", "NH3", "O2", "SO2", "HNO3"};

/// "Zn", "Al": one symbol.
bool is_element(const std::string& formula) {
  return !formula.empty() && formula.size() <= 2 && (formula.size() == 1 || (formula[1] >= 'a' && formula[1] <= 'z'));
}

bool is_organic(const std::string& formula) {
  return formula.find('C') != std::string::npos && formula.find('H') != std::string::npos;
}

/// Carbon, hydrogen and oxygen alone often balance in several ways ("salicylic acid and acetic anhydride give aspirin
/// and acetic acid"): one molecule of each is then what is meant, if that balances.
std::optional<BalancedWay> one_of_each(const chem::Equation& equation, const std::string& written,
                                       const std::vector<std::string>& left, const std::vector<std::string>& right) {
  const auto checked = chem::verify(equation);
  if (!checked || !checked->balanced) return std::nullopt;
  BalancedWay way;
  way.equation = written;
  way.in.assign(left.size(), 1);
  way.only_product = right.size() == 1;
  way.particles = static_cast<double>(left.size() + right.size());
  return way;
}

/// Nothing when it does not balance, or only with numbers that no reaction at the bench has: many molecules of an
/// organic reactant rearranged into each other.
std::optional<BalancedWay> balanced(const std::vector<std::string>& left, const std::vector<std::string>& right) {
  constexpr double most_particles = 40;
  constexpr std::int64_t most_organic = 4;
  const std::string written = fmt::format("{} -> {}", fmt::join(left, " + "), fmt::join(right, " + "));
  const auto equation = chem::read_equation(written);
  if (!equation) return std::nullopt;
  const auto found = chem::balance(*equation);
  if (!found) return std::nullopt;
  if (found->status == chem::BalanceStatus::not_unique) return one_of_each(*equation, written, left, right);
  if (found->status != chem::BalanceStatus::balanced) return std::nullopt;
  BalancedWay way;
  way.equation = found->balanced;
  for (std::size_t i = 0; i < left.size(); ++i) {
    if (is_organic(left[i]) && found->coefficients[i] > most_organic) return std::nullopt;
    way.in.push_back(static_cast<double>(found->coefficients[i]));
  }
  way.out = static_cast<double>(found->coefficients[left.size()]);
  way.only_product = right.size() == 1;
  for (const std::int64_t c : found->coefficients) way.particles += static_cast<double>(c);
  return way.particles <= most_particles ? std::optional(way) : std::nullopt;
}

/// Salts, what is spoken of, and by-products, other than what takes part already; the likeliest first.
std::vector<std::string> others_beside(const std::vector<Matter>& reactants, const std::vector<std::string>& left,
                                       const std::vector<std::string>& named, const std::string& product) {
  std::vector<std::string> all = salts_of(reactants);
  all.insert(all.end(), named.begin(), named.end());
  all.insert(all.end(), by_products.begin(), by_products.end());
  const bool element = std::any_of(left.begin(), left.end(), is_element);
  std::vector<std::string> distinct;
  for (std::string& f : all) {
    const bool takes_part = f == product || std::find(left.begin(), left.end(), f) != left.end();
    if (takes_part || (f == "H2" && !element)) continue;  // hydrogen comes of a metal
    if (std::find(distinct.begin(), distinct.end(), f) == distinct.end()) distinct.push_back(std::move(f));
  }
  return distinct;
}

std::vector<BalancedWay> ways(const std::vector<Matter>& reactants, const std::string& product,
                              const std::vector<std::string>& named, bool thorough) {
  constexpr std::size_t most = 3;
  std::vector<std::string> left;
  for (const Matter& m : reactants) left.push_back(m.formula);
  const std::vector<std::string> others = others_beside(reactants, left, named, product);
  std::vector<BalancedWay> found;
  if (auto e = balanced(left, {product})) found.push_back(*e);
  for (const std::string& other : others) {
    if (auto e = balanced(left, {product, other})) found.push_back(*e);
  }
  const auto with_two_others = [&] {
    for (std::size_t a = 0; a < others.size() && found.empty(); ++a) {
      for (std::size_t b = a + 1; b < others.size() && found.size() < most; ++b) {
        if (auto e = balanced(left, {product, others[a], others[b]})) found.push_back(*e);
      }
    }
  };
  if (thorough) with_two_others();
  const bool watery = std::find(left.begin(), left.end(), "H2O") == left.end() && product != "H2O";
  if (thorough && found.empty() && watery && left.size() == 2) {
    left.emplace_back("H2O");  // what is dissolved may take water up: basic carbonates fall out
    with_two_others();
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const BalancedWay& a, const BalancedWay& b) { return a.particles < b.particles; });
  if (found.size() > most) found.resize(most);
  return found;
}

}  // namespace

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
    const std::string name = without_water(m.name);
    const std::string word = name.substr(0, name.find(' '));
    const auto acid = std::find_if(acids.begin(), acids.end(), [&](const Acid& a) { return a.formula == m.formula; });
    if (acid != acids.end()) {
      anions.emplace_back(acid->anion);
    } else {
      cations.push_back(word);
      if (name.find(' ') != std::string::npos) anions.push_back(name.substr(name.find(' ') + 1));
    }
  }
  for (const std::string& cation : cations) {
    for (const std::string& anion : anions) add(cation, anion);
  }
  return salts;
}

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
      if (auto way = balanced({one->formula, two->formula}, right))
        return Neutralisation{way->equation, one->formula, two->formula, way->in[0] / way->in[1]};
    }
  }
  return std::nullopt;
}

const std::vector<BalancedWay>& Equations::from(const std::vector<Matter>& reactants, const std::string& product,
                                                bool thorough) {
  std::string key = product + (thorough ? "<<" : "<");
  for (const Matter& m : reactants) key += m.formula + "+";
  const auto [it, added] = known_.try_emplace(key);
  if (added) it->second = ways(reactants, product, named_, thorough);
  return it->second;
}

}  // namespace sash::narration
