#pragma once
// The substances of a redox equation without water, its ions and electrons, and the ways to add those so that atoms and
// charge are kept. Worked out in acid; base is acid with each H+ written as water less a hydroxide. Private to the
// part.

#include <array>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "chem/redox.h"

namespace sash::chem::inner {

const Formula& proton();
const Formula& hydronium();
const Formula& hydroxide();
const Formula& water_itself();

/// What may be added, in the order in which it is written after the rest.
enum Helper : std::size_t { ion, electron, water, helper_count };
using HelperCounts = std::array<WideInteger, helper_count>;  ///< positive on the left

inline constexpr std::array with_electrons{ion, electron, water};
inline constexpr std::array without_electrons{ion, water};
inline constexpr std::array without_water{ion, electron};

Species helper_species(Helper helper);  ///< in acid

/// The substances that matter, without what is worked out afresh.
struct Skeleton {
  std::vector<Species> left;
  std::vector<Species> right;
  bool hydronium = false;  ///< was typed in place of H+
  bool electrons = false;  ///< were typed
  bool states = true;      ///< every substance has one, so the added ones get one too
  bool reversible = false;
  std::string text;

  std::size_t size() const { return left.size() + right.size(); }
  const Species& at(std::size_t i) const { return i < left.size() ? left[i] : right[i - left.size()]; }
};
Skeleton skeleton_of(const Equation& equation);

struct Solved {
  std::vector<WideInteger> substances;  ///< in the order of the skeleton, all positive
  HelperCounts helpers{};
};

struct Attempt {
  std::size_t freedom = 0;  ///< independent solutions
  std::optional<Solved> solved;
  std::string off_side;  ///< which substances take no part or would have to change sides, if that is what is wrong
};

/// In acid: every way to keep atoms and charge with these helpers, which may stand on either side. Nothing when a
/// number does not fit.
std::optional<Attempt> attempt(const Skeleton& skeleton, std::span<const Helper> helpers);

/// A solution as an equation of the medium. Nothing when a number does not fit or a side stays empty.
std::optional<Equation> written(const Skeleton& skeleton, const Solved& solved, Medium medium);

}  // namespace sash::chem::inner
