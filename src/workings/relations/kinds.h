#pragma once
// The closed set of relation kinds, and what several of them need alike. Private to the relations: others use kind_of.

#include "workings/relations/kind.h"

namespace sash::workings {

const RelationKind& same_portion();
const RelationKind& in_solution();
const RelationKind& share();
const RelationKind& total();
const RelationKind& reaction();
const RelationKind& yield();
const RelationKind& dilution();
const RelationKind& mixing();
const RelationKind& count_each();
const RelationKind& chain();
const RelationKind& gas_given_off();
const RelationKind& heat();
const RelationKind& quench();
const RelationKind& titration();
const RelationKind& electrolysis();
const RelationKind& element_balance();
const RelationKind& duration();
const RelationKind& equilibrium();

/// The molar mass of the relation's substance: its figure, as given, from the formula, or hidden and asked for.
std::size_t molar_mass_of(Drafting& d, const std::optional<chem::Formula>& formula, const std::string& substance);

/// Says of a percent yield that it cannot be over 100 %.
void limit_yield(Quantity& percent);

/// The purity in slot or given under `key`; nothing when neither is there.
std::optional<std::size_t> purity_of(Drafting& d, const std::string& key);

}  // namespace sash::workings
