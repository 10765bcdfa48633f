#pragma once
// Whether what is added destroys what is there: equivalents of acid against base and of oxidiser against reducer, and
// the margin. It counts stoichiometry only: whether the reaction is fast, hot or gives off gas is for safety to say.
// mol and g. Pure, safe from any thread.
// Sources: assets table of equivalents, each row with its half-reaction; e.g. thiosulfate to tetrathionate (1 electron)
// or to sulfate (8 electrons), which differ eightfold.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "chem/formula.h"
#include "support/outcome.h"

namespace sash::chem {

enum class QuenchRole { acid, base, oxidiser, reducer };
std::string_view role_text(QuenchRole role);  ///< "acid"

/// What one unit of a substance can neutralise or take up.
struct Equivalents {
  QuenchRole role = QuenchRole::acid;
  double count = 0;  ///< mol of H+, OH- or electrons per mol
  std::string way;   ///< what becomes of it: "to tetrathionate"
  std::string source;
};

/// All ways a substance can act; a hydrate acts as its anhydrous part. Empty when none is known.
std::vector<Equivalents> equivalents_of(const Formula& what);

/// How much of the agent meets the target.
struct Quench {
  Equivalents target, agent;
  double agent_per_target = 0;  ///< mol
  double needed_mol = 0;
  double needed_grams = 0;
  std::string assumption;  ///< a sentence when more than one way was possible; may be empty
};

/// The agent needed for `mol` of the target. Without a way the more demanding one is taken: most for the target, least
/// for the agent. A way is found by a word of it ("tetrathionate").
/// Fails: Code::not_found when one of them is not known; Code::impossible when they do not act against each other (two
/// acids); Code::out_of_range for amounts below 0.
Outcome<Quench> quench(const Formula& target, double mol, const Formula& agent, std::string_view target_way = {},
                       std::string_view agent_way = {});

/// Whether so much agent is enough, by how much.
struct QuenchMargin {
  double times = 0;       ///< given over needed: 1.2 is 20 % in excess
  double left_grams = 0;  ///< agent left over; 0 when it is not enough
  double missing_grams = 0;
  double target_left = 0;  ///< mol of target not met
  bool enough = false;
};
/// Fails: Code::out_of_range for a mass below 0.
Outcome<QuenchMargin> margin_of(const Quench& need, double target_mol, double agent_grams);

}  // namespace sash::chem
