#pragma once
// Finding the row of a table that a person means by a name or formula, the same way for every table of substances.
// A row has names (lower case), formula (as written) and read (the same, read once).

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "chem/formula.h"
#include "chem/names.h"
#include "support/outcome.h"
#include "support/text.h"

namespace sash::chem::inner {

/// The names in a cell, separated by semicolons, in lower case.
std::vector<std::string> names_in(std::string_view cell);
/// The formula in a cell, nothing when it is empty or none.
std::optional<Formula> formula_in(std::string_view cell);

/// No row for `text` in a table of `what` ("density").
Fault not_tabulated(std::string_view text, std::string_view what);
Fault several_rows(std::string_view text);

template <class Row>
const Row* row_named(std::span<const Row> rows, std::string_view name) {
  for (const Row& row : rows) {
    for (const std::string& known : row.names) {
      if (known == name) return &row;
    }
  }
  return nullptr;
}

/// By the name as typed; by the formula as typed; by its preferred name; by composition when only one row has it.
/// Fails: Code::not_found; Code::ambiguous, with the candidates in Fault::others.
template <class Row>
Outcome<const Row*> find_row(std::span<const Row> rows, std::string_view text, std::string_view what) {
  if (const Row* row = row_named(rows, to_lower(trim(text)))) return row;
  for (const Row& row : rows) {
    if (row.formula == trim(text)) return &row;
  }
  const auto known = normalise_name(text);
  const bool by_name = known && known->reading == NameReading::name;
  if (by_name) {
    if (const Row* row = row_named(rows, to_lower(known->preferred))) return row;
  }
  const Outcome<Formula> formula = formula_of(text);
  if (!formula) return formula.fault();
  std::vector<const Row*> alike;
  // A name reaches a row by composition only where the row is not of another substance: dimethyl ether is not ethanol.
  const auto of_another = [&](const Row& row) {
    const auto its = normalise_name(row.names.front());
    return its ? its->preferred != known->preferred : name_of(*formula) != known->preferred;
  };
  for (const Row& row : rows) {
    if (!row.read || !row.read->same_composition(*formula)) continue;
    if (!by_name || !of_another(row)) alike.push_back(&row);
  }
  if (alike.empty()) return not_tabulated(text, what);
  if (alike.size() == 1) return alike.front();
  Fault fault = several_rows(text);
  for (const Row* row : alike) fault.others.push_back(row->names.front());
  return fault;
}

}  // namespace sash::chem::inner
