#pragma once
// Strengths of solutions, in whatever convention they are given: what one of them says about the solute in so much
// solution. Private to the relations.

#include <optional>
#include <string>

#include "workings/relations/kinds.h"

namespace sash::workings {

/// One solution: its volume and mass, as far as they are figures.
struct SolutionSide {
  std::string name;   ///< "solution before"; also in sentences
  std::string below;  ///< subscript of its symbols: "1"
  std::optional<std::size_t> volume;
  std::optional<std::size_t> mass;
  std::string density_key;  ///< in given
};

/// In what the solute of a strength is counted.
enum class SoluteIn { amount, mass, volume };

/// What the strength multiplies to give solute: volume of solution, mass of solution, or mass of solvent.
struct StrengthMeaning {
  SoluteIn solute;
  bool per_mass;  ///< of solution; otherwise per volume
};

/// The solute a strength counts, over the relation's solute: 1, but for available chlorine, of which there is less or
/// more by mass than of the hypochlorite that makes it.
double counted_over_solute(Drafting& d, const Filled& strength);

/// Says that a share cannot be more than the whole.
void limit_share(Quantity& fraction, const std::string& what);

/// What a strength means; nothing (and said so) for one that cannot be used here, such as a molality.
std::optional<StrengthMeaning> meaning_of(Drafting& d, const Filled& strength);

/// The quantity of solution the strength refers to, made from the other one by a density where need be: as given, or
/// from the tables when `strength` is there.
std::size_t base_of(Drafting& d, SolutionSide& side, const StrengthMeaning& meaning, const Filled* strength = nullptr);

/// The solute in the solution, as a hidden quantity in `wanted` terms: strength x base, by molar mass if need be.
std::optional<std::size_t> solute_of(Drafting& d, SolutionSide& side, const Filled& strength, SoluteIn wanted);

}  // namespace sash::workings
