#pragma once
// check(): the findings of a whole record. Pure and deterministic: the same record, in whatever order its lists stand,
// gives the same report. Safe from any thread.

#include <string>
#include <vector>

#include "model/record.h"
#include "workings/finding.h"
#include "workings/reconcile.h"

namespace sash::workings {

/// What part a figure has in the conflicts of the record.
enum class Blame {
  none,
  involved,  ///< it stands in a conflict, but another figure is the most likely culprit
  culprit,   ///< taken as wrong it lets the rest agree, alone or as well as others; or nothing tells which one is wrong
};

std::string_view name_of(Blame blame);  ///< the word for files: "culprit"

/// What the whole network says about one figure.
struct FigureState {
  model::FigureId figure;
  std::optional<Reckoned> said;        ///< as given, with its uncertainty; nothing when nobody stated it
  std::string doubt;                   ///< why it is that uncertain, a sentence
  std::optional<Reckoned> reconciled;  ///< best value from everything; nothing when it does not follow
  Standing standing = Standing::undetermined;
  std::optional<double> standardised;  ///< its adjustment over the adjustment's standard deviation
  std::optional<double> noticeable;    ///< the smallest error in it that would be noticed, unit of `said`
  std::optional<double> freedom;       ///< effective degrees of freedom of `reconciled`; nothing: as many as one likes
  std::string drawn;                   ///< a sentence where a Monte Carlo run replaced first order; else empty
  Blame blame = Blame::none;
  bool operator==(const FigureState&) const = default;
};

/// A constant that entered the computing.
struct ConstantUsed {
  std::string name;    ///< "molar mass of Cu(NO₃)₂"
  std::string text;    ///< "187.555 g/mol"
  std::string source;  ///< where it is from
  bool operator==(const ConstantUsed&) const = default;
};

struct Report {
  std::vector<Finding> findings;     ///< conflicts, then those with a remark, then by verdict, worst first
  std::vector<FigureState> figures;  ///< figures that stand in a relation, by id
  std::vector<ConstantUsed> constants;
  GlobalTest test;  ///< of everything together

  const FigureState* find(model::FigureId figure) const;  ///< null when it stands in no relation
  const Finding* find(model::RelationId relation) const;  ///< null when there is none
  std::size_t count(Verdict verdict) const;
  std::size_t remarks() const;  ///< findings that cannot be so although their arithmetic holds
};

/// Relations that were refused, or only proposed, are left out; so are corrected figures, for which the one that
/// corrects them stands in.
Report check(const model::Record& record);

}  // namespace sash::workings
