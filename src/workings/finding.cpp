#include "workings/finding.h"

#include <algorithm>
#include <array>

#include "support/check.h"

namespace sash::workings {
namespace {

struct VerdictWords {
  Verdict verdict;
  std::string_view name;
  std::string_view label;
};

constexpr std::array<VerdictWords, 5> verdicts{{
    {Verdict::conflicts, "conflicts", "conflicts"},
    {Verdict::unsettled, "unsettled", "unsettled"},
    {Verdict::worked_out, "worked_out", "worked out"},
    {Verdict::agrees_as_rounded, "agrees_as_rounded", "agrees as rounded"},
    {Verdict::agrees, "agrees", "agrees"},
}};

const VerdictWords& words_of(Verdict verdict) {
  const auto& words = verdicts.at(static_cast<std::size_t>(verdict));
  promise(words.verdict == verdict, "verdict words in the order of the enum");
  return words;
}

constexpr std::array<std::string_view, 12> explanation_names{
    "slipped_decimal",      "swapped_digits",       "misheard_number",         "wrong_unit",
    "percent_for_fraction", "volume_read_for_mass", "residual_solvent",        "unreacted_reactant",
    "other_hydrate",        "other_product",        "other_limiting_reactant", "wrong_formula_weight"};

}  // namespace

std::string_view name_of(Verdict verdict) { return words_of(verdict).name; }
std::string_view label_of(Verdict verdict) { return words_of(verdict).label; }

std::string label_of(const Finding& finding) {
  std::string label(label_of(finding.verdict));
  if (!finding.remark.empty() && finding.verdict != Verdict::conflicts) label += ", but cannot be";
  return label;
}

std::optional<Verdict> verdict_from_name(std::string_view name) {
  const auto it = std::find_if(verdicts.begin(), verdicts.end(), [&](const auto& w) { return w.name == name; });
  if (it == verdicts.end()) return std::nullopt;
  return it->verdict;
}

std::string_view name_of(Explanation::Kind kind) { return explanation_names.at(static_cast<std::size_t>(kind)); }

}  // namespace sash::workings
