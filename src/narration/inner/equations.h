#pragma once
// Equations that turn given reactants into a given product, with by-products from a closed list. The balancer decides
// whether an equation holds; several that do are all given. Pure.

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace sash::narration {

/// A substance that can take part in a reaction: without its water of crystallisation.
struct Matter {
  std::string name;
  std::string formula;
};
/// Nothing for water, mixtures and what the chemistry does not know.
std::optional<Matter> matter_of(const std::string& subject);

/// Salts that a metal or base among the reactants forms with the acid among them.
std::vector<std::string> salts_of(const std::vector<Matter>& reactants);

struct BalancedWay {
  std::string equation;      ///< "2 HCl + Mg -> H2 + MgCl2"
  std::vector<double> in;    ///< coefficient of each reactant, in the order asked for
  double out = 1;            ///< coefficient of the product
  bool only_product = true;  ///< nothing forms beside it
  double particles = 0;      ///< all coefficients together: of several equations the simpler is likelier
  bool operator==(const BalancedWay&) const = default;
};

/// A balanced equation between an acid and a base, with the formulas it gives them.
struct Neutralisation {
  std::string text;
  std::string one;
  std::string other;
  double ratio = 1;  ///< moles of the one to one mole of the other
};
/// Of two substances in either order; nothing when they are no acid and base or no equation of salt, water and carbon
/// dioxide balances.
std::optional<Neutralisation> neutralisation(const std::string& subject, const std::string& other);

/// Remembers what it has balanced.
class Equations {
 public:
  /// `named`: formulas of what else is spoken of, which are likelier by-products than unnamed ones.
  explicit Equations(std::vector<std::string> named = {}) : named_(std::move(named)) {}

  /// The simplest first, at most three. With `thorough` two by-products are tried as well.
  const std::vector<BalancedWay>& from(const std::vector<Matter>& reactants, const std::string& product, bool thorough);

 private:
  std::vector<std::string> named_;
  std::map<std::string, std::vector<BalancedWay>> known_;
};

}  // namespace sash::narration
