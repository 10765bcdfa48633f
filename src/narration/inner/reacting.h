#pragma once
// Reaction equations that the figures suggest: reactants measured in, a product weighed out or expected, by-products
// from a closed list. The balancer decides whether an equation holds; several that do are all offered. Pure.

#include <optional>
#include <string>
#include <vector>

#include "narration/figures.h"
#include "narration/inner/relating.h"
#include "narration/inner/samples.h"

namespace sash::narration {

/// A balanced equation between two named substances, with the formulas it gives them.
struct Neutralisation {
  std::string text;
  std::string one;
  std::string other;
};
/// Of an acid and a base in either order; nothing when they are none or no equation of salt, water and carbon dioxide
/// balances.
std::optional<Neutralisation> neutralisation(const std::string& subject, const std::string& other);

/// Relations of type reaction, the best candidate of each product first.
std::vector<SpokenRelation> reactions(const std::vector<SpokenFigure>& figures, const std::vector<Sample>& samples);

}  // namespace sash::narration
