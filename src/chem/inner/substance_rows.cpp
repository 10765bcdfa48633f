#include "chem/inner/substance_rows.h"

namespace sash::chem::inner {

std::vector<std::string> names_in(std::string_view cell) {
  std::vector<std::string> names;
  for (const auto name : split(cell, ';')) names.push_back(to_lower(trim(name)));
  return names;
}

std::optional<Formula> formula_in(std::string_view cell) {
  if (cell.empty()) return std::nullopt;
  auto formula = read_formula(cell);
  if (!formula) return std::nullopt;
  return *std::move(formula);
}

Fault not_tabulated(std::string_view text, std::string_view what) {
  return Fault::of(Code::not_found,
                   "No " + std::string(what) + " is tabulated for " + std::string(text) + "; state it.",
                   std::string(text));
}

Fault several_rows(std::string_view text) {
  return Fault::of(Code::ambiguous, std::string(text) + " stands for several substances; use a name.",
                   std::string(text));
}

}  // namespace sash::chem::inner
