#pragma once
// Amounts of the species of an equation, from whatever their figures state: mass, amount or volume of gas. Private to
// the relations that stand on an equation.

#include <optional>
#include <string>
#include <vector>

#include "chem/equation.h"
#include "workings/relations/kinds.h"

namespace sash::workings {

/// The balanced equation of a relation. What is wrong with it is said in Draft::missing.
struct BalancedEquation {
  chem::Equation equation;
  chem::Coefficients coefficients;

  double coefficient(std::size_t species) const { return static_cast<double>(coefficients[species]); }
  std::string name(std::size_t species) const { return equation.all()[species].formula.unicode(); }
};
std::optional<BalancedEquation> equation_of(Drafting& d, const std::string& key = "equation");

/// What goes with what where nobody gave an equation: acid against base, oxidiser against reducer, by the equivalents
/// of the tables. Products are not told. Of several ways one of them can act the one that asks for most is taken, or
/// with Ways::one none. What cannot be paired is said in Draft::missing. Source: chem/quench.h.
enum class Ways { most_demanding, one };
std::optional<BalancedEquation> pairing_of(Drafting& d, const std::string& target, const std::string& agent, Ways ways);

/// The species of the equation that `about` means: its formula, a name of it, or a hydrate of it. A text that means
/// none is said in Draft::missing. An empty one means the only species of that side, when there is only one.
std::optional<std::size_t> species_of(Drafting& d, const BalancedEquation& e, const std::string& about, bool on_left);

/// The amount of a species behind a figure; nothing (and said so) when the figure cannot be turned into one.
std::optional<std::size_t> amount_behind(Drafting& d, const BalancedEquation& e, std::size_t species,
                                         const Filled& filled);

/// Temperature and pressure of a gas: slots, given, or the room's.
std::size_t temperature_of(Drafting& d);
std::size_t pressure_of(Drafting& d);
/// The gas constant.
std::size_t gas_constant(Drafting& d);

}  // namespace sash::workings
