#pragma once
// The diagram that belongs to a relation of the record, where it has one: the final temperature against how much reacts
// or how much is warmed (heat), the volume of gas against how much gives it off (gas given off), the product against
// what is put in (reaction), what precipitates and dissolves against the last reagent (equilibrium). The figures are
// the record's own as they were given, those nobody gave as everything together has them; the curve is the relation's
// law through them. Pure, safe from any thread.
// Sources: conservation of energy; the ideal gas; the definition of extent of reaction; chem/equilibria.h.

#include <optional>

#include "model/relation.h"
#include "plot/plot.h"
#include "workings/check.h"

namespace sash::plot {

/// Nothing for relations without a diagram, and where figures it needs are not there.
std::optional<Plot> plot_of(const model::Relation& relation, const workings::Report& report);

}  // namespace sash::plot
