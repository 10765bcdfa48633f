#pragma once
// Which formulas are those of well-known ions, so that "NH4+" and "SO42-" can be read while "VO2+" is asked about.
// Immutable once read; safe from any thread. Source: assets/tables/ions.tsv and cation_charges.tsv, each row with its
// own.

#include <string_view>

namespace sash::chem::inner {

/// True for an ion in plain text with its charge after a caret: "SO4^2-", "Cu^2+", "Hg2^2+".
bool is_known_ion(std::string_view plain);

}  // namespace sash::chem::inner
