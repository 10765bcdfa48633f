#pragma once
// Finding: what came out for one relation, or for figures that several relations tie together. A value, complete in
// itself: everything a page or a script shows of it is here, worded. Pure.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/relation.h"
#include "workings/writing.h"

namespace sash::workings {

/// Worst first.
enum class Verdict {
  conflicts,          ///< cannot be true within what was read and how it was said
  unsettled,          ///< cannot be computed; Finding::missing says what would settle it
  worked_out,         ///< gives a figure nobody stated; there is nothing to compare it with
  agrees_as_rounded,  ///< the value as said is what the computed value rounds to, at the digits it was said with
  agrees,             ///< equal, or within the uncertainties
};
std::string_view name_of(Verdict verdict);                        ///< the word for files: "agrees_as_rounded"
std::string_view label_of(Verdict verdict);                       ///< the words for the screen: "agrees as rounded"
std::optional<Verdict> verdict_from_name(std::string_view name);  ///< nothing for an unknown word

/// A figure's value in the figure's own unit.
struct Reckoned {
  model::FigureId figure;  ///< unknown id where it is no figure: a yield that nobody states
  double value = 0;
  double spread = 0;  ///< standard uncertainty, same unit
  std::string unit;   ///< UCUM
  std::string text;   ///< to show: "28.4 g", with its uncertainty where it was computed: "(28.40 ± 0.14) g"
  bool operator==(const Reckoned&) const = default;
};

/// Something that works out on the way and that nobody states: what another product would weigh, what is left over.
struct Besides {
  std::string name;  ///< "theoretical mass of NO"
  bool is_mass = false;
  Reckoned value;
  bool operator==(const Besides&) const = default;
};

/// The figure (or two) that, taken as wrong, would let all the others agree.
struct Culprit {
  std::vector<Reckoned> should_be;  ///< what it should have been, from all the others
  bool tied = false;                ///< another culprit explains the conflict exactly as well
  bool settles = false;             ///< without it the rest agrees
  std::string sentence;
  bool operator==(const Culprit&) const = default;
};

/// Something that would make a conflict go away.
struct Explanation {
  enum class Kind {
    slipped_decimal,
    swapped_digits,
    misheard_number,  ///< sixteen for sixty
    wrong_unit,
    percent_for_fraction,
    volume_read_for_mass,
    residual_solvent,
    unreacted_reactant,
    other_hydrate,
    other_product,
    other_limiting_reactant,
    wrong_formula_weight,
  };
  Kind kind = Kind::slipped_decimal;
  std::string sentence;              ///< with the number it needs
  std::optional<Reckoned> would_be;  ///< where a figure would have to be another
  double assumes = 0;                ///< rank: the smaller, the less it assumes
  bool operator==(const Explanation&) const = default;
};
std::string_view name_of(Explanation::Kind kind);  ///< the word for files: "slipped_decimal"

struct Finding {
  std::optional<model::RelationId> relation;  ///< nothing: figures conflict only through several relations
  std::optional<model::RelationType> type;
  Verdict verdict = Verdict::unsettled;
  std::vector<model::FigureId> figures;   ///< involved, in the order of the relation's terms
  std::optional<Reckoned> said;           ///< the figure that is compared, as it was given
  std::optional<Reckoned> computed;       ///< the same figure from all the others of the relation
  std::optional<double> tolerance;        ///< the largest difference that would still agree, unit of `computed`
  std::string tolerance_reason;           ///< why that much; empty without a tolerance
  std::string sentence;                   ///< the finding in one sentence
  std::vector<Besides> besides;           ///< what else works out
  std::string remark;                     ///< what cannot be so although the arithmetic holds: a yield over 100 %
  std::vector<std::string> missing;       ///< when unsettled: what would settle it, each a short phrase
  std::vector<std::string> notes;         ///< what was assumed, and where the relation stops being valid
  std::vector<Culprit> culprits;          ///< most likely first; only when it conflicts
  std::vector<Explanation> explanations;  ///< least assuming first; only when it conflicts or has a remark
  Workings workings;
  bool operator==(const Finding&) const = default;
};
/// As for its verdict, and that it cannot be so where there is a remark: "agrees, but cannot be".
std::string label_of(const Finding& finding);

}  // namespace sash::workings
