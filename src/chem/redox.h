#pragma once
// Completing a redox equation: what water, H+ or OH- and electrons must be added so that it balances in acid or in
// base. It takes only the substances that matter ("MnO4^- + Fe^2+ -> Mn^2+ + Fe^3+") and supplies the rest on the side
// where it belongs. Whether a reaction runs is not asked. Exact, as chem/balance.h. Pure, safe from any thread.
// Sources: the ion-electron method as taught (OpenStax Chemistry 2e, section 17.1); conservation of atoms and charge.

#include <optional>
#include <string>
#include <vector>

#include "chem/balance.h"

namespace sash::chem {

enum class Medium { acid, base };
std::string_view medium_text(Medium medium);  ///< "acid", "base"

struct Completion {
  BalanceStatus status = BalanceStatus::impossible;
  std::optional<Equation> equation;  ///< with coefficients; none unless balanced
  bool half_reaction = false;        ///< electrons stand in it: charge could not be kept without them
  std::vector<Equation> halves;      ///< the two it was put together from, where that was needed
  std::vector<Equation> solutions;   ///< not unique: independent reactions, each possible by itself
  std::string why;                   ///< one sentence or two; empty when balanced
};

/// Adds water, H+ (acid) or OH- (base), and electrons where nothing else keeps the charge. Coefficients, and whatever
/// of water, H+, H3O+, OH- and e- was typed, are worked out afresh; typed H3O+ is used in place of H+. Electrons in the
/// text make it a half-reaction. Where two couples share no element but O and H, so that atoms and charge alone leave
/// their proportion open ("MnO4^- + H2O2 -> Mn^2+ + O2"), each couple is completed by itself and their electrons are
/// made to cancel.
/// Fails: Code::wrong_use when nothing but water, its ions and electrons is there; Code::out_of_range as balance.
Outcome<Completion> complete(const Equation& equation, Medium medium);

/// Completes two half-reactions and adds them so that their electrons cancel; the order does not matter.
/// Fails: as complete and combine_half_reactions.
Outcome<Completion> complete_halves(const Equation& one, const Equation& other, Medium medium);

}  // namespace sash::chem
