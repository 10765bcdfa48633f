#pragma once
// The figures of a record as a table for spreadsheets. Pure. Source: RFC 4180 (CSV).

#include "script/materials.h"

namespace sash::script {

/// A header row, then one row a figure in order of time; CRLF line ends, UTF-8. Refused proposals are left out. Text
/// that a spreadsheet would take for a formula is given a leading apostrophe.
std::string figures_csv(const Materials& materials);

}  // namespace sash::script
