#pragma once
// Explanations: what people do wrong with figures, tried one by one; kept are those that would let the record agree.

#include <vector>

#include "workings/inner/judge.h"

namespace sash::workings::inner {

/// Slips with one figure: its decimal point, two digits, its unit, a fraction for a percentage, a volume for a mass.
/// Tried are the figures without which everything else agrees; a slip is kept where it gives what the figure should
/// have been.
std::vector<Explanation> slips(const Suspicion& suspicion, const Network& network, const FigureBook& book);

/// Slips with one figure that would bring a yield over 100 % down to what can be. `yield` follows in the network by
/// steps.
std::vector<Explanation> slips_behind_yield(const Network& network, VariableIndex yield, const FigureBook& book);

/// What may be different in the flask than in the words: solvent or reactant left in the product, another hydrate,
/// another product, another limiting reactant, a molar mass of another form. Tried in the relation of the finding.
std::vector<Explanation> readings_of_chemistry(const Finding& finding, const Drafted& drafted,
                                               const std::vector<const Drafted*>& all, const FigureBook& book);

/// A yield is believed between these: an explanation that leaves less explains too much.
constexpr double least_believable_yield = 0.2;

/// Least assuming first, each sentence once.
void put_in_order(std::vector<Explanation>& explanations);

}  // namespace sash::workings::inner
